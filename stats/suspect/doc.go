// Package suspect ranks mechanical causes by what a logbook knows, and names the check that would tell most per minute.
//
// It assumes that one cause stands behind what is seen, or now and then two, or something that the table does not hold.
// A cause's chance begins with how common it is, raised or lowered by what the log says of its beginning (a job on its
// part, at once or slowly, cold or hot months), and moves by every sign that is known: the fuel used above what is
// healthy, each graded symptom, each workshop reading. A sign that nobody judged moves nothing.
//
// The trade's knowledge stands under table, for a mechanic to read and edit (table/README.md says how); this package
// only reckons with it. It reads no logbook: what is known comes as Evidence and goes out as a Report. It refuses to
// drive out 'not_listed': that entry expects of each sign what all causes together expect, so no sign rules it out.
//
// Neighbours: stats/expect gives the excess, stats/watch the onset, ingest/book the grades and readings.
package suspect

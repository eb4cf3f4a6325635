// Package book is the logbook's folder: four plain files that the owner can edit in a spreadsheet.
//
//	vehicle.toml  the vehicle
//	fills.csv     a row for every visit to the pump
//	trips.csv     a row for every drive that was noted
//	work.csv      a row for every job, or measurement taken in the workshop
//
// Read gives all of it as rows in base units, each with its file and line. The CSV files are UTF-8, with or without a byte
// order mark, with a header in the first line; the order of columns is free, and columns that the program does not know are the
// owner's own: passed over on reading, kept on writing. An empty cell is quantity.Unknown, never zero. A unit
// rides in the column's name and a cell may carry its own.
//
// A cell that cannot be used becomes a Problem, and the rest of the logbook is read all the same:
//
//   - Without a date a row has no place in the log: it is left out (an error). For a fill this means a hole, so the next
//     fill counts as Missed, which is the one above it where the newest come first: no tank spans the hole.
//   - A fill whose volume cannot be used stays, with Litres unknown (an error): a tank that ends there has no figure, the next
//     tank may begin there.
//   - A fill whose odometer cannot be used stays, with Odometer unknown (an error; a doubt where the cell is just empty): its
//     fuel counts, but no tank can begin or end there.
//   - Where full cannot be read the fill counts as partial, and where missed cannot be read as missed: both merge or
//     drop tanks and never make up a figure.
//   - Any other cell that cannot be used is not known (a doubt).
//   - A quote that is never closed, or cells beyond the header's, spoil their own line only; in the fills it is a hole as well.
//
// What makes a whole file unreadable is returned as an error, a Problem with its line: a header without the needed columns or
// with a column twice, a NUL byte, a line beyond 1 MiB, a file beyond 256 MiB, an unknown or absurd key in
// vehicle.toml. Only vehicle.toml has to be there.
//
// Create, Append, Edit, Drop and Undo write. Each locks the folder of the file that it changes (by the file .brimlog.lock in it where
// the system locks no folders), reads the file anew, writes the whole of it to a temporary beside it, syncs that, renames it over the file and syncs the folder.
// A change that returns no error outlives a power cut; one that returns an error has left the file as it was (only when the
// disk fails again while the old file is put back does the error say that this is not sure). Readers take no lock and see
// the old file or the new one, never a part. Links are followed, mode and owner are kept where the system allows; hard links
// to the file keep its old content. A file that is open in a spreadsheet, or read-only, is not touched. On
// Windows a folder cannot be synced: there a rename is as safe as the file system makes it.
//
// What the last change was is kept in .brimlog.last, so that Undo can take it back; only a change that came about counts.
//
// Only the bytes that a change concerns are changed: byte order mark, line ends, quotes, an open last line and the owner's own
// columns stay. Text that a spreadsheet would take for a formula, because it begins with = + - @, a tab or a return, is
// written with an apostrophe before it, and read without it; numbers keep their sign.
//
// Package quantity reads the figures, package slip judges them, package foreign brings in rows of other people's sheets; here
// no row is judged by any other.
package book

// A Book is a logbook as read: rows in the order of their files, and what could not be used of them.
// Rows that cannot be used at all are in Problems alone; one bad row never hides the rest.
type Book struct {
	Dir      string
	Vehicle  Vehicle
	Fills    []Fill
	Trips    []Trip
	Jobs     []Job
	Problems []Problem
}

// Package slip finds the entries of a logbook that look like a slip of the pen, and says what was most likely meant.
//
// Each entry is judged by the whole log. A slip is a story about what was written: two digits exchanged, a fill left out, a day
// and a month swapped. The log as it stands and the log as the story mends it are both held against what is usual for it
// then: how far it goes between two visits to the pump, how much it takes, what it uses over that distance, what a litre
// costs, where the drives say that the odometer stood. A story is believed when it makes the log so much likelier that the rarity
// of such slips is paid for. The best one is taken as true, the log is looked at again, and so on: one slip is one problem,
// not three.
//
// What is usual is taken from the tanks on both sides, by medians, so that a season, a change of the vehicle or another slip
// nearby do not count against an entry; rare tanks (a caravan, a holiday) are allowed for by a heavy tail. The order of rows in the files
// does not count, only dates and odometer do.
//
// The package assumes rows as package book reads them, and looks into the files again only for how a figure was written. It
// changes nothing. Where no correction stands out a problem carries none; what a log shows too faintly, such as a last digit or
// a brim missed by a few litres, stays unsaid. It refuses nothing: an empty log has no slips. It stands beside package tank, which makes
// tanks of the rows as they are.
package slip

import (
	"slices"
	"strings"
	"time"

	"brimlog/ingest/book"
)

// The kinds of problems that are found here.
const (
	backwards  = "odometer_backwards"
	odometer   = "odometer_slip"
	rollover   = "odometer_rollover"
	overTank   = "volume_over_tank"
	unitSlip   = "unit_slip"
	decimal    = "decimal_slip"
	missedFill = "missed_fill"
	shortFill  = "short_fill"
	twice      = "duplicate"
	dateOrder  = "date_order"
	dateFuture = "date_future"
	badValue   = "bad_value"

	isError = "error"
	isDoubt = "doubt"
)

// Find gives every entry of the logbook that looks like a slip, together with what the reader could not use, in the order of the
// files. Now is the clock that dates in the future are held against.
func Find(b *book.Book, now time.Time) []book.Problem {
	l := newLog(b, now, surely)
	l.judgeAll()
	problems := slices.Concat(l.readers, l.problems)
	slices.SortStableFunc(problems, inOrder)
	return problems
}

func (l *log) judgeAll() {
	l.mend()
	l.rest()
	l.drives()
	l.jobs()
}

var fileOrder = []string{book.VehicleFile, book.FillsFile, book.TripsFile, book.WorkFile}

func inOrder(a, b book.Problem) int {
	if a.File != b.File {
		return slices.Index(fileOrder, a.File) - slices.Index(fileOrder, b.File)
	}
	if a.Line != b.Line {
		return a.Line - b.Line
	}
	return strings.Compare(a.Column, b.Column)
}

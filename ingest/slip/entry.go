package slip

import (
	"slices"
	"time"

	"brimlog/ingest/book"
)

// probably is surely for an entry that is just being typed: to ask costs little as long as the receipt is at hand.
const probably = -1.5

// Entry judges a row that is about to be written against a logbook that does not hold it yet, and gives what looks like a
// slip of that row, with what is usual for the log. The row's place is where it would stand.
func Entry[R book.Fill | book.Trip | book.Job](b *book.Book, row R, now time.Time) []book.Problem {
	with := *b
	with.Problems = nil
	var place *book.Place
	switch r := any(&row).(type) {
	case *book.Fill:
		r.Place = placeFor(r.Place, book.FillsFile, b.Fills, func(f book.Fill) int { return f.Line })
		place, with.Fills = &r.Place, append(slices.Clip(around(b.Fills, r.Date)), *r)
	case *book.Trip:
		r.Place = placeFor(r.Place, book.TripsFile, b.Trips, func(t book.Trip) int { return t.Line })
		place, with.Trips = &r.Place, append(slices.Clip(b.Trips), *r)
		with.Fills = around(b.Fills, r.Date)
	case *book.Job:
		r.Place = placeFor(r.Place, book.WorkFile, b.Jobs, func(j book.Job) int { return j.Line })
		place, with.Jobs = &r.Place, append(slices.Clip(b.Jobs), *r)
		with.Fills = around(b.Fills, r.Date)
	}
	l := newLog(&with, now, probably)
	l.judgeAll()
	problems := slices.DeleteFunc(l.problems, func(p book.Problem) bool { return p.Place != *place })
	slices.SortStableFunc(problems, surestFirst)
	return problems
}

// surestFirst puts what the calendar knows before what the log makes likely.
func surestFirst(a, b book.Problem) int {
	switch future := a.Kind == dateFuture; {
	case future == (b.Kind == dateFuture):
		return 0
	case future:
		return -1
	}
	return 1
}

// placeFor is a place of its own for a row that has none.
func placeFor[R any](p book.Place, file string, rows []R, line func(R) int) book.Place {
	if p.Line > 0 {
		return p
	}
	p = book.Place{File: file, Line: 2}
	for _, r := range rows {
		p.Line = max(p.Line, line(r)+1)
	}
	return p
}

// around are the fills that one of that date is judged by: all, but for a log so long that the oldest tell nothing of it any more.
// They stay in their order.
func around(fills []book.Fill, date book.Moment) []book.Fill {
	const newest, beside = 1000, 300
	if len(fills) <= 2*newest {
		return fills
	}
	near := slices.Clone(fills)
	slices.SortStableFunc(near, func(a, b book.Fill) int { return a.Date.Compare(b.Date.Time) })
	at, _ := slices.BinarySearchFunc(near, date, func(f book.Fill, m book.Moment) int { return f.Date.Compare(m.Time) })
	end := len(near) - newest
	from, to := max(0, min(at, end)-beside), min(at+beside, end)
	return append(slices.Clip(near[min(from, end):max(to, 0)]), near[end:]...)
}

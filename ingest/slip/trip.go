package slip

import (
	"cmp"
	"fmt"
	"slices"

	"brimlog/ingest/book"
	"brimlog/ingest/quantity"
)

// A drive is a trip under judgement, with its readings as counts.
type drive struct {
	book.Trip
	start, end float64
	bad        bool
	doubts     int
}

// drives finds the slips among the trips.
func (l *log) drives() {
	trips := make([]drive, len(l.book.Trips))
	for i, t := range l.book.Trips {
		day := int(dayOf(t.Date))
		trips[i] = drive{Trip: t, start: l.unrolled(day, t.Start), end: l.unrolled(day, t.End)}
		if t.End < t.Start && trips[i].end < trips[i].start {
			wrap, _ := l.wrap(t.Start, t.End)
			trips[i].end += wrap // it rolled over on this drive
		}
		if t.Date.After(l.now) {
			l.future(t.Place, t.Date, t.Start, t.End)
			trips[i].bad = true
		}
	}
	slices.SortStableFunc(trips, func(a, b drive) int { return earlier(a.Date, b.Date, a.start, b.start) })
	l.trips = trips
	var doubtful []int
	for i := range trips {
		if l.writtenTwice(i) {
			continue
		}
		if trips[i].doubts = l.conflicts(i); trips[i].doubts > 0 {
			doubtful = append(doubtful, i)
		}
	}
	slices.SortStableFunc(doubtful, func(a, b int) int { return cmp.Compare(trips[b].doubts, trips[a].doubts) })
	for _, i := range doubtful {
		if !trips[i].bad && l.conflicts(i) > 0 {
			l.tellTrip(i)
		}
	}
	for i := range trips {
		l.tooFar(i)
	}
}

// writtenTwice reports a trip that is the same as the one before.
func (l *log) writtenTwice(i int) bool {
	if i == 0 {
		return false
	}
	a, b := &l.trips[i-1], &l.trips[i]
	if !sameDay(a.Date, b.Date) || !(abs(a.start-b.start) < 0.6*oneFigure && abs(a.end-b.end) < 0.6*oneFigure) || b.end-b.start < oneFigure {
		return false
	}
	first, second := a, b
	if first.Line > second.Line {
		first, second = second, first
	}
	second.bad = true
	l.problem(second.Place, "date", twice, isDoubt, nil, fmt.Sprintf("the same drive as in line %d; drop one of the two", first.Line))
	return true
}

// conflicts counts what speaks against a trip: its own readings, the fills, and the trips beside it.
func (l *log) conflicts(i int) (n int) {
	t := &l.trips[i]
	if t.bad {
		return 0
	}
	if t.end < t.start-oneFigure || t.end-t.start > l.farthestDrive() {
		n += 2
	}
	for _, shown := range []float64{t.Start, t.End} {
		if l.astray(t.Date, shown) {
			n += 2
		}
	}
	if p := l.tripBeside(i, -1); p >= 0 && overlap(&l.trips[p], t) {
		n++
	}
	if p := l.tripBeside(i, +1); p >= 0 && overlap(t, &l.trips[p]) {
		n++
	}
	return n
}

// overlap tells whether the earlier drive ends after the later one begins.
func overlap(a, b *drive) bool {
	const leeway = 2 * oneFigure
	return quantity.Or(a.end, a.start) > quantity.Or(b.start, b.end)+leeway
}

// tripBeside is the next trip in that direction that nothing is wrong with; -1 for none.
func (l *log) tripBeside(i, step int) int {
	for k := i + step; k >= 0 && k < len(l.trips); k += step {
		if t := &l.trips[k]; !t.bad && quantity.Known(quantity.Or(t.start, t.end)) {
			return k
		}
	}
	return -1
}

package slip

import (
	"cmp"
	"fmt"
	"math"
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
			l.future(t.Place, t.Date)
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
	if t.end < t.start-oneFigure {
		n += 2
	}
	for _, shown := range []float64{t.Start, t.End} {
		if l.astray(t.Date, shown) {
			n += 2
		}
	}
	if p := l.beside1(i, -1); p >= 0 && overlap(&l.trips[p], t) {
		n++
	}
	if p := l.beside1(i, +1); p >= 0 && overlap(t, &l.trips[p]) {
		n++
	}
	return n
}

// overlap tells whether the earlier drive ends after the later one begins.
func overlap(a, b *drive) bool {
	const leeway = 2 * oneFigure
	return quantity.Or(a.end, a.start) > quantity.Or(b.start, b.end)+leeway
}

// beside1 is the next trip in that direction that nothing is wrong with; -1 for none.
func (l *log) beside1(i, step int) int {
	for k := i + step; k >= 0 && k < len(l.trips); k += step {
		if t := &l.trips[k]; !t.bad && quantity.Known(quantity.Or(t.start, t.end)) {
			return k
		}
	}
	return -1
}

// tellTrip reports a trip with the likeliest correction.
func (l *log) tellTrip(i int) {
	t := &l.trips[i]
	was := *t
	var best []meant
	for _, try := range [][]meant{l.tripReadings(i, "odometer_start"), l.tripReadings(i, "odometer_end"), l.tripDates(i)} {
		if len(try) > 0 && (len(best) == 0 || try[0].gain > best[0].gain) {
			best = try
		}
	}
	*t = was
	t.bad = true
	column, kind, severity := "odometer_start", odometer, isDoubt
	if !quantity.Known(t.Start) || l.astray(t.Date, t.End) && !l.astray(t.Date, t.Start) {
		column = "odometer_end"
	}
	if t.end < t.start-oneFigure {
		column, kind, severity = "odometer_end", backwards, isError
	}
	message := l.againstTrip(i)
	if len(best) == 0 {
		l.problem(t.Place, column, kind, severity, nil, message)
		return
	}
	column, kind = best[0].column, best[0].kind
	var cell *string
	if m := standing(best); m != nil {
		cell = &m.cell
		message += "; " + m.cell + " fits"
	}
	l.overrule(t.Place)
	l.problem(t.Place, column, kind, severity, cell, message)
}

// tripReadings are the readings in one column with which nothing would speak against the trip.
func (l *log) tripReadings(i int, stem string) (right []meant) {
	t := &l.trips[i]
	was := *t
	p := post{t.Place, stem, t.Date, t.Start, quantity.Unknown}
	if stem == "odometer_end" {
		p.shown, p.guess = t.End, t.start+l.usual.trip
	} else if k := l.beside1(i, -1); k >= 0 {
		p.guess = quantity.Or(l.trips[k].end, l.trips[k].start)
	}
	if !quantity.Known(p.shown) {
		return nil
	}
	written := l.writtenKm(t)
	day := int(dayOf(t.Date))
	for _, m := range l.meantBy(p) {
		if stem == "odometer_end" {
			t.End, t.end = m.shown, l.unrolled(day, m.shown)
		} else {
			t.Start, t.start = m.shown, l.unrolled(day, m.shown)
		}
		if l.conflicts(i) == 0 {
			if quantity.Known(written) && abs(t.end-t.start-written) > oneFigure+0.02*written {
				m.gain -= 6
			}
			right = append(right, m)
		}
		*t = was
	}
	slices.SortStableFunc(right, func(a, b meant) int { return cmp.Compare(b.gain, a.gain) })
	return right
}

// tripDates are the dates at which the trip would stand right.
func (l *log) tripDates(i int) []meant {
	t := &l.trips[i]
	if t.end < t.start-oneFigure || !quantity.Known(quantity.Or(t.Start, t.End)) {
		return nil
	}
	if !l.astray(t.Date, t.Start) && !l.astray(t.Date, t.End) {
		return nil
	}
	return l.otherDates(t.Date, quantity.Or(t.Start, t.End), quantity.Or(t.End, t.Start))
}

// writtenKm is the distance that the owner wrote, which the reader sets aside where there are two odometer readings.
func (l *log) writtenKm(t *drive) float64 {
	column, text := l.sheets.find(t.Place, "distance")
	if text == "" {
		return quantity.Unknown
	}
	_, unit := quantity.SplitColumn(column)
	km, err := quantity.Parse(text, unit)
	if err != nil {
		return quantity.Unknown
	}
	return km
}

// againstTrip says in words what speaks against a trip.
func (l *log) againstTrip(i int) string {
	t, u := &l.trips[i], l.odometerUnit()
	low, high := l.between(t.Date)
	at := func(km float64) string { return quantity.Format(km, u) }
	offset := t.start - t.Start
	switch {
	case t.end < t.start-oneFigure:
		return fmt.Sprintf("the drive ends at %s, before its start at %s", at(t.End), at(t.Start))
	case l.astray(t.Date, t.Start) || l.astray(t.Date, t.End):
		span := "up to " + at(high-offset)
		if math.IsInf(high, 0) {
			span = "from " + at(low-offset) + " on"
		} else if !math.IsInf(low, 0) {
			span = at(low-offset) + " to " + at(high-offset)
		}
		return fmt.Sprintf("the drive runs from %s to %s; by the fills around that day it is %s", at(t.Start), at(t.End), span)
	}
	other := l.beside1(i, -1)
	if other < 0 || !overlap(&l.trips[other], t) {
		other = l.beside1(i, +1)
	}
	o := &l.trips[max(0, other)]
	return fmt.Sprintf("the drive from %s to %s overlaps with that in line %d, from %s to %s", at(t.Start), at(t.End), o.Line, at(o.Start), at(o.End))
}

// tooFar reports a drive without odometer that is longer than all that was driven between the fills around it.
func (l *log) tooFar(i int) {
	t := &l.trips[i]
	low, high := l.between(t.Date)
	if t.bad || quantity.Known(t.Start) || quantity.Known(t.End) || !(t.Km > high-low+2*oneFigure) {
		return
	}
	c := l.sheets.cell(t.Place, "distance", t.Km)
	var all []meant
	variants := append(digitSlips(c.number, badValue), pointSlips(c.number, 2)...)
	for _, u := range c.unit.Units() {
		if u != c.unit {
			variants = append(variants, variant{rounded(c.unit.FromBase(u.ToBase(number(c.number))), decimals(c.number)), unitSlip, math.Log(otherUnit)})
		}
	}
	for _, v := range variants {
		if km := c.base(v.number); km > 0.5 && km <= high-low+oneFigure {
			all = append(all, meant{"distance", v.kind, v.number + c.suffix, t.Date, km, v.prior - 0.5*math.Pow(math.Log(km/l.usual.trip), 2)})
		}
	}
	slices.SortStableFunc(all, func(a, b meant) int { return cmp.Compare(b.gain, a.gain) })
	kind, u := badValue, l.odometerUnit()
	message := fmt.Sprintf("%s is more than the %s between the fills around that day", quantity.Format(t.Km, u), quantity.Format(high-low, u))
	var cell *string
	if m := standing(all); m != nil {
		kind, cell = m.kind, &m.cell
	}
	l.overrule(t.Place)
	l.problem(t.Place, "distance", kind, isDoubt, cell, message)
}

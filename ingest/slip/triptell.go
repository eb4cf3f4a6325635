package slip

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"brimlog/ingest/quantity"
)

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
	switch {
	case t.end < t.start-oneFigure:
		column, kind, severity = "odometer_end", backwards, isError
	case t.end-t.start > l.farthestDrive():
		column = "odometer_end"
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
	} else if k := l.tripBeside(i, -1); k >= 0 {
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
			if stem == "odometer_start" && abs(t.start-p.guess) < 0.6*oneFigure {
				m.gain += 3 // it goes on where the one before ended
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
	if farthest := l.farthestDrive(); t.end-t.start > farthest {
		return fmt.Sprintf("the drive runs from %s to %s, %s in one drive; two full tanks, or a long day, make %s", at(t.Start), at(t.End), at(t.end-t.start), at(farthest))
	}
	other := l.tripBeside(i, -1)
	if other < 0 || !overlap(&l.trips[other], t) {
		other = l.tripBeside(i, +1)
	}
	o := &l.trips[max(0, other)]
	return fmt.Sprintf("the drive from %s to %s overlaps with that in line %d, from %s to %s", at(t.Start), at(t.End), o.Line, at(o.Start), at(o.End))
}

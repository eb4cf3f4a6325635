package slip

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"brimlog/ingest/quantity"
)

// farthestDrive, km, is more than one drives in a row without a fill that would tell of it: two tanks, and a long day in any case.
// It is asked for every drive, so it is kept until the tanks are others.
func (l *log) farthestDrive() float64 {
	const longDay = 1000 // common practice
	if l.farthest > 0 {
		return l.farthest
	}
	l.farthest = 2 * longDay
	use := make([]float64, len(l.tanks))
	for i, t := range l.tanks {
		use[i] = math.Exp(t.y)
	}
	if len(use) > 0 && l.usual.capacity > 0 {
		l.farthest = max(longDay, 2*l.usual.capacity/medianOf(use))
	}
	return l.farthest
}

// tooFar reports a drive without odometer that is longer than all that was driven between the fills around it, or than anybody
// drives in a row.
func (l *log) tooFar(i int) {
	t := &l.trips[i]
	low, high := l.between(t.Date)
	room, farthest := high-low, l.farthestDrive()
	if t.bad || quantity.Known(t.Start) || quantity.Known(t.End) || !(t.Km > min(room+2*oneFigure, farthest)) {
		return
	}
	c := l.sheets.cell(t.Place, "distance", t.Km)
	var all []meant
	variants := append(digitSlips(c.number, badValue), pointSlips(c.number, 2)...)
	for _, u := range c.unit.Units() {
		if u != c.unit {
			variants = append(variants, inAnotherUnit(c.number, u, c.unit, decimals(c.number), otherUnit))
		}
	}
	for _, v := range variants {
		if km := c.base(v.number); km > 0.5 && km <= min(room+oneFigure, farthest) {
			all = append(all, meant{"distance", v.kind, v.number + c.suffix, t.Date, km, v.prior - 0.5*math.Pow(math.Log(km/l.usual.trip), 2)})
		}
	}
	slices.SortStableFunc(all, func(a, b meant) int { return cmp.Compare(b.gain, a.gain) })
	kind, u := badValue, l.odometerUnit()
	message := fmt.Sprintf("%s is more than the %s between the fills around that day", quantity.Format(t.Km, u), quantity.Format(room, u))
	if farthest < room {
		message = fmt.Sprintf("%s in one drive; two full tanks, or a long day, make %s", quantity.Format(t.Km, u), quantity.Format(farthest, u))
	}
	var cell *string
	if m := standing(all); m != nil {
		kind, cell = m.kind, &m.cell
		message += "; " + m.cell + " fits"
	}
	l.overrule(t.Place)
	l.problem(t.Place, "distance", kind, isDoubt, cell, message)
}

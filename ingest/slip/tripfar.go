package slip

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"brimlog/ingest/quantity"
)

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
			variants = append(variants, inAnotherUnit(c.number, u, c.unit, decimals(c.number), otherUnit))
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

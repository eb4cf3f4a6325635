package slip

import (
	"math"
	"slices"

	"brimlog/ingest/book"
	"brimlog/ingest/quantity"
)

// A reset is a job at which the instrument was replaced.
type reset struct {
	date     book.Moment
	from, to float64
}

// unroll sets the visits' offsets: one growing count through roll-overs and new instruments. A reading that stands alone is
// no roll-over but a slip; those after it have to go on from there.
func (l *log) unroll() {
	var known []int
	for i := range l.visits {
		if quantity.Known(l.visits[i].shown) {
			known = append(known, i)
		}
	}
	resets := l.resets()
	offset, last, begun := 0.0, quantity.Unknown, 0 // begun: the first reading of this run
	for n, i := range known {
		v := &l.visits[i]
		for len(resets) > 0 && resets[0].before(v, last) {
			from := quantity.Or(resets[0].from, quantity.Or(last, resets[0].to))
			if from < last-oneFigure { // the old one had rolled over since the last fill
				wrap, _ := l.wrap(last, from)
				offset += wrap
			}
			offset += from - resets[0].to
			last, begun = quantity.Unknown, n
			resets = resets[1:]
		}
		if v.shown < last-oneFigure && l.persists(known[begun:n], known[n:]) {
			offset += l.turn(v, last, len(known)-n)
			begun = n
		}
		v.offset, last = offset, v.shown
	}
	for i, v := range l.visits {
		if !quantity.Known(v.shown) && i > 0 {
			l.visits[i].offset = l.visits[i-1].offset
		}
	}
}

// oneFigure, km, is what reading a whole-figure instrument in miles may lose.
const oneFigure = 1.7

func (l *log) resets() (resets []reset) {
	for _, j := range l.book.Jobs {
		if r, ok := j.Reading("odometer_reset_to"); ok && len(r.Values) == 1 {
			resets = append(resets, reset{j.Date, j.Odometer, r.Values[0]})
		}
	}
	slices.SortStableFunc(resets, func(a, b reset) int { return a.date.Compare(b.date.Time) })
	return resets
}

// before tells whether the instrument was replaced before the visit. On the same day the reading tells.
func (r reset) before(v *visit, last float64) bool {
	if sameDay(r.date, v.date) && (!r.date.Timed || !v.date.Timed) {
		return math.Abs(v.shown-r.to) < math.Abs(v.shown-quantity.Or(r.from, last))
	}
	return r.date.Before(v.date.Time)
}

// persists tells whether readings have gone down for good: the next ones lie below the last ones.
func (l *log) persists(before, after []int) bool {
	before, after = before[max(0, len(before)-3):], after[:min(3, len(after))]
	down := 0
	for _, i := range before {
		for _, k := range after {
			if l.visits[i].shown > l.visits[k].shown {
				down++
			}
		}
	}
	switch all := len(before) * len(after); {
	case len(before) < 2 || len(after) < 2:
		wrap, _ := l.wrap(l.visits[before[len(before)-1]].shown, l.visits[after[0]].shown)
		return down == all && wrap > 0
	default:
		return 5*down > 3*all
	}
}

// turn is what the count gains where the readings go down for good.
func (l *log) turn(v *visit, last float64, after int) float64 {
	wrap, told := l.wrap(last, v.shown)
	if wrap > 0 && told {
		return wrap
	}
	if l.turned[v.row] {
		if wrap > 0 {
			return wrap
		}
		return last - v.shown + quantity.Or(l.usual.km, 0)
	}
	l.turned[v.row] = true
	unit := l.odometerUnit()
	was, is := quantity.Format(last, unit), quantity.Format(v.shown, unit)
	if wrap > 0 {
		digits := int(math.Round(math.Log10(unit.FromBase(wrap))))
		l.report(v.row, "odometer", rollover, isDoubt, nil,
			"the odometer goes from %s to %s and on from there: it looks like a roll-over; write digits = %d under [odometer] in vehicle.toml",
			was, is, digits)
		return wrap
	}
	v.missed = true
	l.report(v.row, "odometer", backwards, isError, nil,
		"the odometer goes back from %s to %s and on from there: if the instrument was replaced, write a job with area odometer and "+
			"the reading odometer_reset_to=%s",
		was, is, quantity.FormatNumber(v.shown, unit))
	return last - v.shown + quantity.Or(l.usual.km, 0)
}

// wrap is the distance after which the instrument starts again, if a reading after another looks like it; 0 if not. It is
// told where the vehicle's document says how many digits there are.
func (l *log) wrap(last, shown float64) (km float64, told bool) {
	unit := l.odometerUnit()
	if o := l.book.Vehicle.Odometer; quantity.Known(o.Digits) && o.Digits > 0 {
		if w := unit.ToBase(math.Pow(10, o.Digits)); w-last+shown < w/4 {
			return w, true
		}
		return 0, false
	}
	for digits := 4.0; digits <= 6; digits++ {
		if w := unit.ToBase(math.Pow(10, digits)); last < w && w-last+shown < w/20 {
			return w, false
		}
	}
	return 0, false
}

// odometerUnit is the instrument's own.
func (l *log) odometerUnit() quantity.Unit {
	if u, ok := quantity.UnitNamed(l.book.Vehicle.Odometer.Unit); ok {
		return u
	}
	return quantity.Km
}

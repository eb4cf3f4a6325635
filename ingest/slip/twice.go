package slip

import (
	"slices"

	"brimlog/ingest/quantity"
)

// twice takes rows out that are written a second time: the same odometer and the same fuel within some weeks. The one further
// down in the file is the copy.
func (l *log) twice() {
	const ahead = 3 // rows that a copy with another date may be off
	copies := map[int]bool{}
	for i := range l.visits {
		for k := i + 1; k < len(l.visits) && k <= i+ahead; k++ {
			a, b := &l.visits[i], &l.visits[k]
			if copies[a.row] || copies[b.row] || !sameFill(a, b) {
				continue
			}
			first, second := a.row, b.row
			if first > second {
				first, second = second, first
			}
			copies[second] = true
			f := l.book.Fills[second]
			l.report(second, "date", twice, isDoubt, nil, "the same fill as in line %d: %s at %s; drop one of the two", l.book.Fills[first].Line,
				quantity.Format(f.Litres, l.volumeUnit()), quantity.Format(f.Odometer, l.odometerUnit()))
		}
	}
	l.visits = slices.DeleteFunc(l.visits, func(v visit) bool { return copies[v.row] })
}

// sameFill tells whether two rows are one visit. An unknown reading on the same day counts as the same.
func sameFill(a, b *visit) bool {
	const weeks = 45 // days
	apart := abs(a.shown - b.shown)
	if !quantity.Known(apart) {
		apart = 0
		if !sameDay(a.date, b.date) {
			return false
		}
	}
	return apart <= 0.6*oneFigure && abs(a.litres-b.litres) <= 0.05+0.002*a.litres && b.day-a.day < weeks
}

func (l *log) volumeUnit() quantity.Unit {
	if u, ok := quantity.UnitNamed(l.book.Vehicle.Show.Volume); ok {
		return u
	}
	return quantity.Litre
}

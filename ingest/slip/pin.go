package slip

import (
	"math"
	"slices"
	"sort"

	"brimlog/ingest/quantity"
)

// A pin is a reading of the odometer that a drive or a job was noted with: the fills of other days have to lie on the right
// side of it.
type pin struct {
	day   int     // since 1970
	count float64 // km
}

const (
	pinLooks    = 3  // so many pins on each side are asked
	pinContrary = -4 // each one that says otherwise: it may be the slip itself
)

// pinDown collects the pins. Their counts follow the roll-overs that the fills show.
func (l *log) pinDown() {
	l.pins = l.pins[:0]
	add := func(day int, shown float64) {
		if quantity.Known(shown) {
			l.pins = append(l.pins, pin{day, l.unrolled(day, shown)})
		}
	}
	for _, t := range l.book.Trips {
		add(int(dayOf(t.Date)), t.Start)
		add(int(dayOf(t.Date)), t.End)
	}
	for _, j := range l.book.Jobs {
		if _, replaced := j.Reading("odometer_reset_to"); !replaced {
			add(int(dayOf(j.Date)), j.Odometer)
		}
	}
	slices.SortStableFunc(l.pins, func(a, b pin) int { return a.day - b.day })
	for i := range l.visits {
		l.pinVisit(&l.visits[i])
	}
	l.meetings()
}

func (l *log) pinVisit(v *visit) {
	day := int(v.day)
	v.pinned[0] = sort.Search(len(l.pins), func(i int) bool { return l.pins[i].day >= day }) - 1
	v.pinned[1] = sort.Search(len(l.pins), func(i int) bool { return l.pins[i].day > day })
}

// unrolled is the count of a reading on that day: with the offset of a visit around, whichever puts it between those of other
// days.
func (l *log) unrolled(day int, shown float64) float64 {
	from := sort.Search(len(l.visits), func(i int) bool { return int(l.visits[i].day) >= day }) - 1
	to := from + 1
	for to < len(l.visits) && int(l.visits[to].day) == day {
		to++
	}
	low, high := quantity.Unknown, quantity.Unknown
	if from >= 0 {
		low = l.visits[from].count()
	}
	if to < len(l.visits) {
		high = l.visits[to].count()
	}
	best, least := shown, math.Inf(1)
	try := func(c float64) {
		if outside := max(0, quantity.Or(low-c, 0), quantity.Or(c-high, 0)); outside < least {
			best, least = c, outside
		}
	}
	for i := min(to, len(l.visits)-1); i >= max(0, from); i-- {
		try(shown + l.visits[i].offset)
	}
	if least > oneFigure && from >= 0 { // it may have rolled over since the last fill, and been replaced before the next
		if wrap, told := l.wrap(l.visits[from].shown, shown); told {
			try(shown + l.visits[from].offset + wrap)
		}
	}
	return best
}

func abs(x float64) float64 { return max(x, -x) }

// pinTerm holds a visit's reading against the pins: those of earlier and later days, and those about its own day, of which one is
// often the very reading.
func (l *log) pinTerm(v *visit) float64 {
	if len(l.pins) == 0 || !quantity.Known(v.shown) {
		return 0
	}
	against, c := 0, v.count()
	for i := v.pinned[0]; i >= 0 && i > v.pinned[0]-pinLooks; i-- {
		if l.pins[i].count > c+oneFigure {
			against++
		}
	}
	for i := v.pinned[1]; i < len(l.pins) && i < v.pinned[1]+pinLooks; i++ {
		if l.pins[i].count < c-oneFigure {
			against++
		}
	}
	sum := float64(pinContrary * against)
	switch beside, met := l.meets(v); {
	case met:
		sum += l.usual.metTerm
	case beside:
		sum += l.usual.unmetTerm
	}
	return sum
}

// meets tells whether there are pins about a visit's day, and whether one of them is its reading.
func (l *log) meets(v *visit) (beside, met bool) {
	day, c := int(v.day), v.count()
	for i := max(0, v.pinned[0]); i <= v.pinned[1] && i < len(l.pins); i++ {
		if p := l.pins[i]; p.day >= day-1 && p.day <= day+1 {
			beside = true
			met = met || abs(p.count-c) < 0.6*oneFigure
		}
	}
	return beside, met
}

// meetings measures how often a reading is met by a pin.
func (l *log) meetings() {
	n, times := 0.0, 0.0
	for i := range l.visits {
		if beside, met := l.meets(&l.visits[i]); beside {
			n++
			if met {
				times++
			}
		}
	}
	share := (times + 0.5) / (n + 5)
	l.usual.metTerm = math.Log1p(share * 30) // it might have been any within some 30 km
	l.usual.unmetTerm = math.Log(1 - 0.98*share)
}

package slip

import (
	"cmp"
	"math"
	"slices"
	"sort"

	"brimlog/ingest/book"
	"brimlog/ingest/quantity"
)

// A post is an odometer reading of a drive or a job. The fills, mended, tell where it may stand.
type post struct {
	place book.Place
	stem  string // of its column
	date  book.Moment
	shown float64
	guess float64 // the count that would surprise nobody; unknown where nothing tells
}

// A meant is what may have been meant by a post: another reading, or another date.
type meant struct {
	column string
	kind   string
	cell   string
	date   book.Moment
	shown  float64
	gain   float64 // ln
}

// between are the counts that the fills of earlier and of later days leave for a day.
func (l *log) between(m book.Moment) (low, high float64) {
	day := int(dayOf(m))
	low, high = math.Inf(-1), math.Inf(1)
	first := sort.Search(len(l.visits), func(i int) bool { return int(l.visits[i].day) >= day })
	for i := first - 1; i >= 0; i-- {
		if c := l.visits[i].count(); quantity.Known(c) {
			low = c
			break
		}
	}
	for i := first; i < len(l.visits); i++ {
		if c := l.visits[i].count(); quantity.Known(c) && int(l.visits[i].day) > day {
			high = c
			break
		}
	}
	return low, high
}

// astray tells whether a reading cannot have stood there on that day.
func (l *log) astray(m book.Moment, shown float64) bool {
	if !quantity.Known(shown) {
		return false
	}
	low, high := l.between(m)
	if math.IsInf(high, 1) {
		high = low + l.reach(m)
	}
	c := l.unrolled(int(dayOf(m)), shown)
	return c < low-oneFigure || c > high+oneFigure
}

// reach, km, is farther than anybody has come by a day after the last fill: some tanks that were not noted yet, and several times the
// usual way of all days since.
func (l *log) reach(m book.Moment) float64 {
	const tanks, hurry = 4, 8
	for i := len(l.visits) - 1; i >= 0; i-- {
		if quantity.Known(l.visits[i].count()) {
			return tanks*l.farthestDrive() + hurry*max(0, dayOf(m)-l.visits[i].day)*math.Exp(-l.usual.pace)
		}
	}
	return math.Inf(1)
}

// guessAt is the count in the middle of what the fills leave for a day.
func (l *log) guessAt(m book.Moment) float64 {
	low, high := l.between(m)
	switch {
	case math.IsInf(low, 0) && math.IsInf(high, 0):
		return quantity.Unknown
	case math.IsInf(low, 0):
		return high
	case math.IsInf(high, 0):
		return low
	}
	return (low + high) / 2
}

// meantBy are the readings and dates that would put a post right, the likeliest first.
func (l *log) meantBy(p post) (all []meant) {
	c := l.sheets.cell(p.place, p.stem, p.shown)
	for _, v := range l.readingVariants(c) {
		if x := c.base(v.number); x >= 0 && !l.astray(p.date, x) {
			all = append(all, meant{p.stem, v.kind, v.number + c.suffix, p.date, x, v.prior - l.off(p, x)})
		}
	}
	slices.SortStableFunc(all, func(a, b meant) int { return cmp.Compare(b.gain, a.gain) })
	return all
}

// off is what a reading loses by its distance from where it would be expected.
func (l *log) off(p post, shown float64) float64 {
	guess := quantity.Or(p.guess, l.guessAt(p.date))
	return quantity.Or(abs(l.unrolled(int(dayOf(p.date)), shown)-guess)/(0.3*l.usual.km), 0)
}

// otherDates are the dates at which all of the readings would stand right.
func (l *log) otherDates(m book.Moment, shown ...float64) (all []meant) {
	for _, d := range datings(m) {
		right := !d.date.After(l.now)
		for _, x := range shown {
			right = right && !l.astray(d.date, x)
		}
		if low, high := l.between(d.date); right && !math.IsInf(high-low, 0) {
			all = append(all, meant{"date", dateOrder, d.date.String(), d.date, shown[0], d.prior})
		}
	}
	slices.SortStableFunc(all, func(a, b meant) int { return cmp.Compare(b.gain, a.gain) })
	return all
}

// standing is the first of several, where it stands out among them; else nil.
func standing(all []meant) *meant {
	if len(all) == 0 {
		return nil
	}
	gains := make([]float64, len(all))
	for i, m := range all {
		gains[i] = m.gain
	}
	if math.Exp(all[0].gain-lnSum(gains...)) < standsOut {
		return nil
	}
	return &all[0]
}

package slip

import (
	"math"

	"brimlog/ingest/book"
	"brimlog/ingest/quantity"
)

// A story says what was meant in place of what stands in a visit's row.
type story struct {
	column string // without its unit
	kind   string
	cell   string // as it should stand; empty where the story does not tell
	prior  float64
	mend   visit // the row as meant
	gain   float64
	reach  [2]int // the visits around its other date
}

// A column is where stories differ: of those of one column at most one is true.
type column int

const (
	odometerColumn column = iota
	volumeColumn
	brimColumn
	dateColumn
)

// farBehind is the gain of a story that is not worth keeping.
const farBehind = -6

// A finding is the best that can be said of a visit: the stories of one column, and by how much they beat the log as it stands.
type finding struct {
	at      int // visit
	from    int // the visits that it was judged by
	to      int
	stories []story // the likeliest first, all of one column
	gain    float64 // of all of them together
}

// judge weighs every story of the k-th visit. The finding has no stories where none comes near.
func (l *log) judge(k int) finding {
	from, to := l.window(k)
	w := append(l.run[:0], l.visits[from:to]...)
	ref := l.level(from, to-1)
	asItStands := l.score(w, &ref)
	var columns [4][]story
	weigh := func(c column, s story) {
		w[k-from] = s.mend
		if s.gain = s.prior + l.score(w, &ref) - asItStands; s.gain > farBehind {
			columns[c] = append(columns[c], s)
		}
	}
	l.brimStories(k, ref.pooled, weigh)
	if l.odd[k] == wild {
		l.odometerStories(k, weigh)
		l.volumeStories(k, &ref, weigh)
		columns[dateColumn] = l.dateStories(k)
	}
	l.run = w
	f := finding{at: k, from: from, to: to, gain: math.Inf(-1)}
	for _, stories := range columns {
		if g := together(stories); g > f.gain {
			f.gain, f.stories = g, stories
		}
	}
	sortStories(f.stories)
	return f
}

// together is the gain of stories of which one is true.
func together(stories []story) float64 {
	if len(stories) == 0 {
		return math.Inf(-1)
	}
	gains := make([]float64, len(stories))
	for i, s := range stories {
		gains[i] = s.gain
	}
	return lnSum(gains...)
}

// brimStories tell that a fill was left out before the k-th visit, or that it was not to the brim.
func (l *log) brimStories(k int, level float64, weigh func(column, story)) {
	v := l.visits[k]
	ends, begins := l.away(k, level)
	if !v.missed && k > 0 && ends < 0 {
		m := v
		m.missed = true
		weigh(brimColumn, story{column: "missed", kind: missedFill, cell: "yes", prior: math.Log(leftOut), mend: m})
	}
	if v.full && ends*begins < 0 {
		m := v
		m.full = false
		weigh(brimColumn, story{column: "full", kind: shortFill, cell: "no", prior: math.Log(notBrimmed), mend: m})
	}
}

// away is how far the tank that ends at the k-th visit, or that it lies within, and the one that begins there are from the level; 0 for none.
func (l *log) away(k int, level float64) (ends, begins float64) {
	for _, t := range l.near(k) {
		switch {
		case t.open < k:
			ends = t.y - level
		case t.open == k:
			begins = t.y - level
		}
	}
	return ends, begins
}

func (l *log) odometerStories(k int, weigh func(column, story)) {
	v := l.visits[k]
	if !quantity.Known(v.shown) {
		return
	}
	low, high := l.bounds(k)
	c := l.sheets.cell(l.placeOf(k), "odometer", v.shown)
	for _, n := range l.odometerVariants(k, c) {
		m := v
		m.shown = c.base(n.number)
		if at := m.count(); quantity.Known(at) && at >= low && at <= high && m.shown >= 0 {
			weigh(odometerColumn, story{column: "odometer", kind: n.kind, cell: n.number + c.suffix, prior: n.prior, mend: m})
		}
	}
	m := v
	m.shown = quantity.Unknown
	kind := odometer
	if l.goesBack(k) {
		kind = backwards
	}
	weigh(odometerColumn, story{column: "odometer", kind: kind, prior: math.Log(noStory / anyReading), mend: m})
}

func (l *log) odometerVariants(k int, c cell) []variant {
	all := styled(append(digitSlips(c.number, odometer), pointSlips(c.number, 1)...), l.sheets.decimals("odometer", c.unit, l.book))
	for _, u := range c.unit.Units() {
		if u != c.unit {
			all = append(all, variant{rounded(c.unit.FromBase(u.ToBase(number(c.number))), decimals(c.number)), unitSlip, math.Log(otherUnit)})
		}
	}
	if k > 0 && l.visits[k].shown < 5*l.usual.km {
		if was := l.visits[k-1].shown; quantity.Known(was) {
			all = append(all, variant{rounded(c.unit.FromBase(was)+number(c.number), decimals(c.number)), odometer, math.Log(tripWritten)})
		}
	}
	return all
}

// bounds are the counts between which the k-th visit's has to lie; a neighbour may be the one that is wrong.
func (l *log) bounds(k int) (low, high float64) {
	low, high = math.Inf(-1), math.Inf(1)
	two := func(step int, keep func(a, b float64) float64) float64 {
		best := quantity.Unknown
		for i, n := k+step, 0; i >= 0 && i < len(l.visits) && n < 2; i += step {
			if c := l.visits[i].count(); quantity.Known(c) {
				best = keep(quantity.Or(best, c), c)
				n++
			}
		}
		return best
	}
	if c := two(-1, math.Min); quantity.Known(c) {
		low = c - oneFigure
	}
	if c := two(+1, math.Max); quantity.Known(c) {
		high = c + oneFigure
	}
	if math.IsInf(high, 1) && !math.IsInf(low, -1) {
		high = low + 60*l.usual.km
	}
	return low, high
}

func (l *log) goesBack(k int) bool {
	return k > 0 && l.visits[k].count() < l.visits[k-1].count()-oneFigure ||
		k+1 < len(l.visits) && l.visits[k+1].count() < l.visits[k].count()-oneFigure
}

func (l *log) volumeStories(k int, ref *level, weigh func(column, story)) {
	v := l.visits[k]
	if !quantity.Known(v.litres) {
		return
	}
	low, high := l.fits(k, ref)
	c := l.sheets.cell(l.placeOf(k), "volume", v.litres)
	for _, n := range l.volumeVariants(c) {
		m := v
		m.litres = c.base(n.number)
		if m.litres > low && m.litres < high && abs(m.litres-v.litres) > 0.05*v.litres {
			weigh(volumeColumn, story{column: "volume", kind: n.kind, cell: n.number + c.suffix, prior: n.prior, mend: m})
		}
	}
	m := v
	m.litres = quantity.Unknown
	kind := badValue
	if l.overfull(v.litres) {
		kind = overTank
	}
	weigh(volumeColumn, story{column: "volume", kind: kind, prior: math.Log(noStory), mend: m})
}

// fits are the litres between which the k-th visit's has to lie for its tank to be anything like the others.
func (l *log) fits(k int, ref *level) (low, high float64) {
	const far = 0.8 // ln
	high = 1.3 * l.usual.capacity
	for _, t := range l.near(k) {
		if t.open < k && t.close >= k {
			rest := t.litres - l.visits[k].litres
			low = max(0, math.Exp(ref.pooled-far)*t.asked-rest)
			high = min(high, math.Exp(ref.pooled+far)*t.asked-rest)
		}
	}
	return low, high
}

func (l *log) volumeVariants(c cell) []variant {
	var all []variant
	for _, u := range c.unit.Units() {
		if u == c.unit {
			continue
		}
		x := number(c.number)
		meant := c.unit.FromBase(u.ToBase(x)) // a figure in u, written where c.unit is asked for
		all = append(all, variant{rounded(meant, max(2, decimals(c.number))), unitSlip, math.Log(otherUnit / 2)})
	}
	usually := l.sheets.decimals("volume", c.unit, l.book)
	return append(styled(append(all, pointSlips(c.number, 3)...), usually), styled(digitSlips(c.number, badValue), usually)...)
}

func (l *log) overfull(litres float64) bool {
	c := l.book.Vehicle.Tank.CapacityL
	return quantity.Known(c) && c > 0 && litres > 1.05*c
}

func (l *log) placeOf(k int) book.Place { return l.book.Fills[l.visits[k].row].Place }

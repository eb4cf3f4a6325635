package slip

import (
	"math"
	"slices"
	"strings"

	"brimlog/ingest/quantity"
)

// odometerStories tell what the k-th reading was meant to be.
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
			weigh(odometerColumn, story{column: "odometer", kind: n.kind, from: n.from, cell: n.number + c.suffix, prior: n.prior, mend: m})
		}
	}
	m := v
	m.shown = quantity.Unknown
	kind := odometer
	if l.goesBack(k) {
		kind = backwards
	}
	weigh(odometerColumn, story{column: "odometer", kind: kind, prior: math.Log(noStory / anyReading), mend: m})
	if l.readsAsBefore(k) {
		weigh(odometerColumn, story{column: "odometer", kind: odometer, prior: math.Log(writtenAgain), mend: m})
	}
}

// readsAsBefore tells whether the k-th reading is that of the fill before it, where both are to the brim: a part fill may be filled up
// at the same place.
func (l *log) readsAsBefore(k int) bool {
	if k == 0 {
		return false
	}
	a, b := &l.visits[k-1], &l.visits[k]
	return a.full && b.full && abs(b.shown-a.shown) < 0.6*oneFigure
}

func (l *log) odometerVariants(k int, c cell) []variant {
	all := l.readingVariants(c)
	if k > 0 && l.visits[k].shown < 5*l.usual.km {
		if was := l.visits[k-1].shown; quantity.Known(was) {
			sum := rounded(c.unit.FromBase(was)+number(c.number), decimals(c.number))
			all = append(all, variant{number: sum, kind: odometer, prior: math.Log(tripWritten)})
		}
	}
	return merged(all)
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

// goesBack tells whether the k-th reading lies below the one before it, or above the one after.
func (l *log) goesBack(k int) bool {
	c := l.visits[k].count()
	return c < l.knownBeside(k, -1)-oneFigure || c > l.knownBeside(k, +1)+oneFigure
}

// knownBeside is the nearest known count in that direction; unknown where there is none nearby.
func (l *log) knownBeside(k, step int) float64 {
	const nearby = 12
	for i, n := k+step, 0; i >= 0 && i < len(l.visits) && n < nearby; i, n = i+step, n+1 {
		if c := l.visits[i].count(); quantity.Known(c) {
			return c
		}
	}
	return quantity.Unknown
}

// readingVariants are the readings that one slip of the pen, or the other unit, turns into the one written.
func (l *log) readingVariants(c cell) []variant {
	usually := l.sheets.decimals("odometer", c.unit, l.book)
	points := slices.DeleteFunc(pointSlips(c.number, 1), func(v variant) bool { // a nought more is a last digit left out, one of ten
		return v.number == c.number+"0"
	})
	for i := range points { // tenths that were read as whole figures
		if d := decimals(points[i].number); usually >= 0 && d > usually {
			points[i].number = strings.TrimSuffix(points[i].number[:len(points[i].number)-d+usually], ".")
		}
	}
	if decimals(c.number) == 3 {
		points = append(points, variant{number: shifted(c.number, 3), kind: decimal, prior: math.Log(thousandsMark)})
	}
	all := styled(append(digitSlips(c.number, odometer), points...), usually)
	for _, u := range c.unit.Units() {
		if u != c.unit {
			all = append(all, inAnotherUnit(c.number, u, c.unit, decimals(c.number), otherUnit))
		}
	}
	return merged(all)
}

// lastDigit is the story that stands for all those of a last digit left out, where only together they stand out: no economy tells one of
// them from the next, so the middle one is named, which is at most five off.
func (l *log) lastDigit(f *finding) *story {
	c := l.sheets.cell(l.placeOf(f.at), "odometer", l.visits[f.at].shown)
	if f.stories[0].column != "odometer" || decimals(c.number) > 0 {
		return nil
	}
	share := 0.0
	var middle *story
	for i := range f.stories {
		s := &f.stories[i]
		if number, ok := strings.CutSuffix(s.cell, c.suffix); !ok || len(number) != len(c.number)+1 || !strings.HasPrefix(number, c.number) {
			continue
		}
		share += math.Exp(s.gain - f.gain)
		if s.cell == c.number+"5"+c.suffix {
			middle = s
		}
	}
	if share < standsOut {
		return nil
	}
	return middle
}

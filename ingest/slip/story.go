package slip

import (
	"math"
	"slices"

	"brimlog/ingest/book"
	"brimlog/ingest/quantity"
)

// A story says what was meant in place of what stands in a visit's row.
type story struct {
	column string // without its unit
	kind   string
	from   quantity.Unit // in which the figure was written, where that is the slip
	cell   string        // as it should stand; empty where the story does not tell
	prior  float64
	mend   visit // the row as meant
	gain   float64
	reach  [2]int // the visits around its other date, or the other row
	with   *exchange

	missing bool // it stands for all of a last digit left out
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
	column  column
	stories []story // the likeliest first, all of that column
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
		s.mend.single = l.byItself(&s.mend)
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
		columns[odometerColumn] = append(columns[odometerColumn], l.exchangeStories(k)...)
	}
	l.run = w
	f := finding{at: k, from: from, to: to, gain: math.Inf(-1)}
	for c, stories := range columns {
		if g := together(stories); g > f.gain && l.visits[k].told&(1<<c) == 0 {
			f.gain, f.stories, f.column = g, stories, column(c)
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
	if v.full && ends*begins < 0 && abs(ends+begins) < unevenly*max(abs(ends), abs(begins)) {
		m := v
		m.full, m.short = false, true
		weigh(brimColumn, story{column: "full", kind: shortFill, cell: "no", prior: math.Log(notBrimmed), mend: m})
	}
}

// unevenly is by what part of the larger two tanks may differ that share a brim error.
const unevenly = 0.6

// away is by how many litres two tanks are off the level: the one that ends at the k-th visit, or that it lies within, and the
// one that begins there; 0 for none.
func (l *log) away(k int, level float64) (ends, begins float64) {
	for _, t := range l.near(k) {
		off := t.litres - math.Exp(level)*t.asked
		switch {
		case t.open < k:
			ends = off
		case t.open == k:
			begins = off
		}
	}
	return ends, begins
}

func (l *log) placeOf(k int) book.Place { return l.book.Fills[l.visits[k].row].Place }

// near are the tanks that the k-th visit may bound.
func (l *log) near(k int) []span {
	i, _ := slices.BinarySearchFunc(l.tanks, k, func(t span, k int) int { return t.close - k })
	return l.tanks[i:min(len(l.tanks), i+2)]
}

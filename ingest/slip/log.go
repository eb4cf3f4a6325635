package slip

import (
	"slices"
	"time"

	"brimlog/ingest/book"
	"brimlog/ingest/quantity"
)

// surely is by how much, on the log scale, a story has to beat the log as it stands, its own rarity included, before it is told. A
// false doubt costs a look at the receipt and a slip unseen spoils a verdict, so one is told when it is somewhat less likely than
// not. It was set, with the rates in pen.go, on drawn logbooks: see the shares that the tests measure on others.
const surely = -0.7

// A log is a logbook under judgement.
type log struct {
	book   *book.Book
	now    time.Time
	sure   float64
	sheets sheets

	visits []visit // as mended so far
	held   []holding
	tanks  []span
	usual  usual
	pins   []pin

	farthest float64 // km of a drive; 0 until asked for

	odd []oddness // of the visits
	run []visit   // scratch

	turned   map[int]bool // rows whose turn of the instrument is reported
	trips    []drive
	problems []book.Problem
	readers  []book.Problem // what the reader could not use
}

func newLog(b *book.Book, now time.Time, sure float64) *log {
	l := &log{book: b, now: now, sure: sure, sheets: sheets{dir: b.Dir}, turned: map[int]bool{}, readers: slices.Clone(b.Problems)}
	l.visits, l.held = visitsOf(b.Fills), holdings(b)
	l.twice()
	l.unroll()
	l.usual = l.whatIsUsual()
	l.pinDown()
	l.prices()
	l.singles()
	l.lean()
	return l
}

// A span is a tank between two visits that were to the brim.
type span struct {
	open, close int     // visits
	y           float64 // ln of litres per km, as on the log's usual roads
	litres      float64
	asked       float64 // km as long as the same fuel would last on the log's usual roads
}

// spans are the tanks of the log as mended so far.
func (l *log) spans() (tanks []span) {
	w := walk{}
	for i := range l.visits {
		if t, ok := w.next(&l.visits[i], i); ok {
			tanks = append(tanks, t)
		}
	}
	return tanks
}

// window is the visits around the k-th that a change of it can tell on: to the next brim fill on either side, and one further.
func (l *log) window(k int) (from, to int) {
	const farthest = 12
	brims := 0
	for from = k; from > 0 && k-from < farthest && brims < 2; {
		from--
		if v := &l.visits[from]; v.full && quantity.Known(v.shown) {
			brims++
		}
	}
	brims = 0
	for to = k; to < len(l.visits)-1 && to-k < farthest && brims < 2; {
		to++
		if v := &l.visits[to]; v.full && quantity.Known(v.shown) {
			brims++
		}
	}
	return from, to + 1
}

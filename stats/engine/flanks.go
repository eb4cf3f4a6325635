package engine

import (
	"fmt"
	"math"
	"slices"

	"brimlog/ingest/quantity"
)

// Crank degrees by which the flanks of one lobe at one lift may differ, between rounds, and from the card at the card's own lift
// (judged: each flank is read to a degree or two).
const (
	sameFlanks = 4.0
	sameAsCard = 6.0
)

// Duration is how far apart the flanks are.
func (f Flanks) Duration() float64 { return f.Opens + 180 + f.Closes }

// Duration is the mean of the rounds, Unknown without any.
func (l Lobe) Duration() float64 {
	if len(l) == 0 {
		return quantity.Unknown
	}
	sum := 0.0
	for _, f := range l {
		sum += f.Duration()
	}
	return sum / float64(len(l))
}

// flanksApart questions flanks that can't belong to one lobe at one lift: then their middle is no centreline.
func (q CamQuestion) flanksApart(name string, l Lobe, card float64) (notes []string) {
	if len(l) == 0 {
		return nil
	}
	apart := func(a, b Flanks) int {
		if a.Duration() < b.Duration() {
			return -1
		}
		return 1
	}
	least, most := slices.MinFunc(l, apart).Duration(), slices.MaxFunc(l, apart).Duration()
	if most-least > sameFlanks {
		notes = append(notes, fmt.Sprintf("the %s flanks lie %.0f degrees apart in one round and %.0f in another: not read at one lift, or a flank misread; read all rounds again", name, least, most))
	}
	off := l.Duration() - card
	switch {
	case !quantity.Known(off):
	case !quantity.Known(q.LiftMM) && math.Abs(off) > sameAsCard:
		notes = append(notes, fmt.Sprintf("the %s flanks lie %.0f degrees apart where the card has %.0f: another lift than the card's (say which), another grind, or a flank misread", name, l.Duration(), card))
	case quantity.Known(q.LiftMM) && off > sameAsCard:
		notes = append(notes, fmt.Sprintf("the %s flanks lie %.0f degrees apart at %g mm of lift where the card has %.0f: a card taken at more lift than that, another grind, or a flank misread", name, l.Duration(), q.LiftMM, card))
	}
	return notes
}

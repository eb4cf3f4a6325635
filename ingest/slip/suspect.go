package slip

import (
	"math"

	"brimlog/ingest/quantity"
)

// suspicious are the visits worth judging, of all or of the rows near: most tanks are ordinary, and no story is told of an ordinary one.
func (l *log) suspicious(near map[int]bool) (all []int) {
	l.odd = make([]oddness, len(l.visits))
	mark := func(from, to int, o oddness) {
		for i := max(0, from); i <= min(to, len(l.odd)-1); i++ {
			l.odd[i] = max(l.odd[i], o)
		}
	}
	usual := newTail(l.usual.scatter, rareTank, math.Hypot(l.usual.scatter, oddTank))
	before := 0.0
	for i, t := range l.tanks {
		if i == 0 || l.tanks[i-1].close != t.open {
			before = 0
		}
		m, n := l.beside(i)
		lost := usual.top - usual.ln(t.y-m)
		if n < 2 {
			lost = 2 * worthAll
		}
		for _, o := range []oddness{unusual, wild} {
			if lost > worth[o] {
				mark(t.open, t.close, o)
			}
			if lost+before > worth[o] {
				mark(t.open, t.open, o)
			}
		}
		before = lost
	}
	for i := range l.visits {
		if l.outOfLine(i) {
			mark(i-1, i+1, wild)
		}
	}
	for i, o := range l.odd {
		if o > ordinary && (near == nil || near[l.visits[i].row]) {
			all = append(all, i)
		}
	}
	return all
}

// An oddness is how far a visit is out of the ordinary.
type oddness int8

const (
	ordinary oddness = iota
	unusual          // as far as a fill left out or a brim not reached may make it
	wild             // any slip may be behind it
)

// worth is how unlikely the tanks beside a visit have to be for stories of it to be weighed: less than the rarest of them costs.
var worth = [...]float64{unusual: 2, wild: worthAll}

const worthAll = 4.5

// outOfLine tells whether a visit is odd by itself, whatever its tanks use.
func (l *log) outOfLine(k int) bool {
	v := &l.visits[k]
	return l.goesBack(k) || l.strayed(k) || l.pinTerm(v) < -2 || l.overfull(v.litres, v.date) ||
		v.date.After(l.now) && (k == 0 || !l.visits[k-1].date.After(l.now)) || // of several in a row the first: the rest has its turn
		l.priceTerm(v) < -2 || !quantity.Known(v.litres) || v.litres < 0.2*l.usual.litres
}

package slip

import (
	"math"

	"brimlog/ingest/quantity"
)

// A walk goes from visit to visit and adds up the tanks.
type walk struct {
	open       int
	opened     bool // by a brim fill with a reading
	begun      bool // a reading was met
	last       float64
	km, litres float64
	lean       float64 // times km
}

// next adds a visit; a tank that it closes is given.
func (w *walk) next(v *visit, at int) (t span, closed bool) {
	count := v.count()
	known := quantity.Known(count)
	if known {
		if w.begun {
			d := count - w.last
			w.km += d
			w.lean += v.lean * d
			w.opened = w.opened && d >= -oneFigure
		}
		w.last, w.begun = count, true
	}
	w.opened = w.opened && !v.missed
	if v.missed {
		w.litres = 0
	}
	w.litres += v.litres
	if !v.full || !known {
		return t, false
	}
	if w.opened && w.litres > 0 {
		km := max(w.km, 1)
		lean := w.lean / km
		t = span{w.open, at, math.Log(w.litres/km) - lean, w.litres, km * (1 + lean)}
		closed = true
	}
	w.open, w.opened = at, true
	w.km, w.litres, w.lean = 0, 0, 0
	return t, closed
}

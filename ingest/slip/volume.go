package slip

import (
	"math"

	"brimlog/ingest/quantity"
)

// volumeStories tell what the k-th volume was meant to be.
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
			weigh(volumeColumn, story{column: "volume", kind: n.kind, from: n.from, cell: n.number + c.suffix, prior: n.prior, mend: m})
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

// volumeVariants are the volumes that a slip of the pen, the point or the unit turns into the one written.
func (l *log) volumeVariants(c cell) []variant {
	var all []variant
	for _, u := range c.unit.Units() {
		if u != c.unit {
			all = append(all, inAnotherUnit(c.number, u, c.unit, max(2, decimals(c.number)), otherUnit*l.thinksIn(u)))
		}
	}
	usually := l.sheets.decimals("volume", c.unit, l.book)
	all = append(append(all, pointSlips(c.number, 3)...), digitSlips(c.number, badValue)...)
	return merged(styled(all, usually))
}

// thinksIn is the chance that the owner, where a volume is in a wrong unit, took it from u.
func (l *log) thinksIn(u quantity.Unit) float64 {
	show := l.book.Vehicle.Show
	switch {
	case u == quantity.Litre:
		return 0.8
	case show.Economy == "mpg_us" || show.Volume == "gal_us":
		return map[quantity.Unit]float64{quantity.GallonUS: 0.9}[u] + 0.1
	case show.Distance == "mi":
		return map[quantity.Unit]float64{quantity.GallonUK: 0.9}[u] + 0.1
	}
	return 0.5
}

// overfull tells whether a fill is more than the tank is said to hold, and a twentieth.
func (l *log) overfull(litres float64) bool {
	c := l.book.Vehicle.Tank.CapacityL
	return quantity.Known(c) && c > 0 && litres > 1.05*c
}

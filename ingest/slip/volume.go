package slip

import (
	"math"
	"strings"

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
	if l.overfull(v.litres, v.date) {
		kind = overTank
	}
	weigh(volumeColumn, story{column: "volume", kind: kind, prior: math.Log(noStory), mend: m})
}

// fits are the litres between which the k-th visit's has to lie for its tank to be anything like the others.
func (l *log) fits(k int, ref *level) (low, high float64) {
	const far = 0.8 // ln
	room, _ := l.room(l.visits[k].date)
	high = 1.3 * room
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
			v := inAnotherUnit(c.number, u, c.unit, max(2, decimals(c.number)), otherUnit*l.thinksIn(u))
			v.prior += math.Log(u.ToBase(1) / c.unit.ToBase(1)) // a figure in a larger unit stands for more litres either way
			all = append(all, v)
		}
	}
	usually := -1
	if len(l.visits) > fewFills {
		usually = l.sheets.decimals("volume", c.unit, l.book)
	}
	all = append(append(all, pointsOf(c.number, usually)...), digitSlips(c.number, badValue)...)
	return merged(styled(all, usually))
}

// fewFills are too few to tell with how many decimals an owner writes a volume.
const fewFills = 4

// pointsOf are the volumes whose decimal point has gone astray. A figure to the last litre stands for ten times as many volumes as one
// to the tenth.
func pointsOf(written string, usually int) []variant {
	all := pointSlips(written, 3)
	for i := range all {
		v := &all[i]
		exact := decimals(strings.TrimRight(v.number, "0"))
		for usually >= 0 && decimals(v.number) > max(usually, exact) {
			v.number = strings.TrimSuffix(v.number[:len(v.number)-1], ".")
		}
		v.prior += math.Ln10 * float64(max(0, decimals(written)-exact))
	}
	return all
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

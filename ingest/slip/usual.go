package slip

import (
	"math"

	"brimlog/ingest/quantity"
)

// usual is what a log is like as a whole: medians, and deviations on the log scale.
type usual struct {
	km, lnKm float64 // between visits
	kmTail   tail
	litres   float64 // of a brim fill
	alone    tail    // of ln litres
	kmMissed tail    // where a fill was left out
	kmPart   tail    // about a partial fill
	freely   tail    // of ln litres beside a fill that was left out
	pace     float64 // ln of days per km
	paceTail tail
	scatter  float64 // of ln litres per km about the neighbours
	capacity float64 // litres: by the fills, or the largest that the vehicle's document names
	price    tail

	metTerm, unmetTerm float64 // what it counts that a reading is met by a pin, or not

	trip float64 // km of a noted drive
}

// whatIsUsual measures it. A young log is taken for an ordinary one.
func (l *log) whatIsUsual() usual {
	var km, litres, pace []float64
	for i := range l.visits {
		v := &l.visits[i]
		if v.full && v.litres > 0 {
			litres = append(litres, math.Log(v.litres))
		}
		if i == 0 || v.missed {
			continue
		}
		if d := v.count() - l.visits[i-1].count(); d > 1 {
			km = append(km, math.Log(d))
			pace = append(pace, math.Log(max(0.3, v.day-l.visits[i-1].day)/d))
		}
	}
	u := usual{km: 400, litres: 40, pace: math.Log(10.0 / 400), scatter: 0.08} // common practice
	kmSd, paceSd, litreSd := 0.4, 0.7, 0.35
	if len(km) > 0 {
		var m float64
		m, kmSd = middleOr(km, kmSd)
		u.km = math.Exp(m)
		u.pace, paceSd = middleOr(pace, paceSd)
	}
	if len(litres) > 0 {
		var m float64
		m, litreSd = middleOr(litres, litreSd)
		u.litres = math.Exp(m)
		u.capacity = 1.25 * math.Exp(litres[len(litres)*9/10]) // they are sorted now
	}
	most := 0.0
	for _, h := range l.held {
		most = max(most, quantity.Or(h.litres, 0))
	}
	if most > 0 {
		u.capacity = most
	}
	u.lnKm, u.trip = math.Log(u.km), l.usualTrip()
	u.shape(clamp(kmSd, 0.2, 0.8), clamp(paceSd, 0.35, 1), clamp(litreSd, 0.15, 0.6))
	return u
}

// middleOr is the median, and the deviation weighed against the one expected before.
func middleOr(x []float64, before float64) (median, sd float64) {
	median, sd = middle(x)
	return median, blendSd(sd, before, len(x))
}

// shape sets how figures lie about their usual: wide enough for holidays, barns and part fills, and all of it assumed.
func (u *usual) shape(km, pace, litres float64) {
	u.kmTail = newTail(km, 0.15, 1.1)
	u.kmPart = newTail(max(km, 0.6), 0.3, 1.5)
	u.kmMissed = newTail(math.Hypot(km, 0.35), 0.2, 1.6)
	u.paceTail = newTail(pace, 0.08, 1.8)
	u.alone = newTail(litres, 0.2, 0.8)
	u.freely = newTail(0.6, 0.3, 1.2)
	u.price = newTail(0.06, 0.1, 0.2)
}

func (l *log) usualTrip() float64 {
	var km []float64
	for _, t := range l.book.Trips {
		if t.Km > 0 {
			km = append(km, t.Km)
		}
	}
	if len(km) < 3 {
		return 40 // common practice
	}
	return medianOf(km)
}

// blendSd weighs a measured deviation against the one expected before anything was measured.
func blendSd(measured, before float64, n int) float64 {
	const worth = 5 // figures
	return math.Sqrt((worth*before*before + float64(n)*measured*measured) / (worth + float64(n)))
}

func clamp(x, low, high float64) float64 { return min(max(x, low), high) }

// measureScatter is how far a tank lies from its neighbours, as a rule.
func (l *log) measureScatter() {
	var away []float64
	for i := range l.tanks {
		if m, n := l.beside(i); n > 1 {
			away = append(away, l.tanks[i].y-m)
		}
	}
	_, sd := middle(away)
	if len(away) > 0 {
		l.usual.scatter = clamp(blendSd(sd, 0.08, len(away)), 0.03, 0.25)
	}
}

// beside is the median of the tanks on both sides of the i-th.
func (l *log) beside(i int) (median float64, n int) {
	var y [2 * reach]float64
	for k := max(0, i-reach); k < min(len(l.tanks), i+reach+1); k++ {
		if k != i {
			y[n] = l.tanks[k].y
			n++
		}
	}
	return medianOf(y[:n]), n
}

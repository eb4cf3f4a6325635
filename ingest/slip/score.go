package slip

import (
	"math"

	"brimlog/ingest/quantity"
)

// What is held against a log on the log scale, beside what is merely unusual.
const (
	goneBack   = -30 // a reading below the one before
	unreadable = -9  // a figure taken for unknown: any figure might stand there
	overRoom   = -9  // more fuel than goes into the tank
)

// score is how likely a run of visits is, on the log scale, given what is usual for the log and the level around them. It counts
// the same figures whatever story they tell, so scores of stories about the same rows compare.
func (l *log) score(visits []visit, v *level) float64 {
	var tanks [maxTanks]span
	n, sum := 0, 0.0
	w := walk{}
	last, lastDay := quantity.Unknown, 0.0
	for i := range visits {
		at := &visits[i]
		sum += l.priceTerm(at) + l.roomTerm(at.litres) + l.pinTerm(at)
		count := at.count()
		if d := count - last; quantity.Known(d) {
			sum += l.wayTerm(d, at.day-lastDay, at.missed)
		}
		if quantity.Known(count) {
			last, lastDay = count, at.day
		}
		t, closed := w.next(at, i)
		switch {
		case i == 0:
		case closed && n < maxTanks:
			tanks[n] = t
			n++
			sum += -math.Log(max(t.litres, 0.5))
		case !quantity.Known(at.litres):
			sum += unreadable
		case at.full && quantity.Known(count):
			sum += l.aloneTerm(at.litres)
		default:
			sum -= math.Log(max(10, l.usual.capacity)) // a partial fill may be any
		}
	}
	return sum + v.ln(tanks[:n])
}

// wayTerm is how likely a distance is between two visits, and the days for it.
func (l *log) wayTerm(km, days float64, missed bool) float64 {
	if km < -oneFigure {
		return goneBack
	}
	u := &l.usual
	d := max(km, 1)
	usually, t := math.Log(u.km), u.kmTail
	if missed {
		usually += math.Ln2
		t = tail{math.Hypot(t.sd, 0.35), 0.2, 1.6}
	}
	days = max(days, 0.3)
	return max(t.ln(math.Log(d)-usually), -8) - math.Log(max(d, 20)) +
		max(u.paceTail.ln(math.Log(days/d)-u.pace), -10) - math.Log(days)
}

// roomTerm is for fuel that has to go into the tank.
func (l *log) roomTerm(litres float64) float64 {
	if !quantity.Known(litres) {
		return 0
	}
	over := litres/l.usual.capacity - 1.08
	if !l.usual.declared {
		over -= 0.15
	}
	return overRoom / (1 + math.Exp(-30*over))
}

// aloneTerm is how likely a brim fill is of which no tank is known.
func (l *log) aloneTerm(litres float64) float64 {
	return tail{l.usual.litreSd, 0.2, 0.8}.ln(math.Log(max(litres, 0.1)/l.usual.litres)) - math.Log(max(litres, 0.5))
}

// priceTerm is how likely the cost is of that much fuel.
func (l *log) priceTerm(v *visit) float64 {
	if !quantity.Known(v.cost) || !quantity.Known(v.price) || v.cost <= 0 {
		return 0
	}
	if !quantity.Known(v.litres) {
		return -1 // it might be any
	}
	return l.usual.price.ln(math.Log(v.cost/v.litres) - v.price)
}

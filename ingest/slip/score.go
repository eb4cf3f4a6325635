package slip

import (
	"math"

	"brimlog/ingest/quantity"
)

// What is held against a log on the log scale, beside what is merely unusual.
const (
	goneBack   = -30 // a reading below the one before
	unreadable = -9  // a figure taken for unknown: any figure might stand there
	costWrong  = -6  // a price that cannot be: the cost may be the slip itself
	overNeck   = -3  // a little more fuel than the document says that the tank holds
	overRoom   = -8  // more than any tank would take for its size
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
		sum += at.single
		count := at.count()
		if d := count - last; quantity.Known(d) {
			sum += l.wayTerm(d, at.day-lastDay, at.missed, i > 0 && !(at.brimmed() && visits[i-1].brimmed()))
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
			sum += l.aloneTerm(at.litres, at.missed)
		default:
			sum -= math.Log(max(10, l.usual.capacity)) // a partial fill may be any
		}
	}
	return sum + v.ln(tanks[:n])
}

// brimmed tells whether a visit was meant to be to the brim: then it comes as late as those do.
func (v *visit) brimmed() bool { return v.full || v.short }

// byItself is what counts for a visit whatever its neighbours are: kept with it, because most visits of a run stay as they
// are while one is judged.
func (l *log) byItself(v *visit) float64 { return l.priceTerm(v) + l.roomTerm(v) + l.pinTerm(v) }

// singles sets it for all visits.
func (l *log) singles() {
	for i := range l.visits {
		l.visits[i].single = l.byItself(&l.visits[i])
	}
}

// wayTerm is how likely a distance is between two visits, and the days for it.
func (l *log) wayTerm(km, days float64, missed, partial bool) float64 {
	if km < -oneFigure {
		return goneBack
	}
	if partial && km < oneFigure && days < 1 {
		return oneStop
	}
	u := &l.usual
	way, time := math.Log(max(km, 1)), math.Log(max(days, 0.3))
	likely := 0.0
	switch {
	case missed:
		likely = u.kmMissed.ln(way - u.lnKm - math.Ln2)
	case partial:
		likely = u.kmPart.ln(way - u.lnKm + 0.3)
	default:
		likely = u.kmTail.ln(way - u.lnKm)
	}
	return max(likely, -8) - max(way, ln20) + max(u.paceTail.ln(time-way-u.pace), -10) - time
}

// oneStop is for a part fill that is filled up where it stood, at another pump or on another card: one visit in fifty, where the next
// reading is told to some km.
const oneStop = -3.9 - ln20

const ln20 = 2.995732273553991 // readings are not told apart by less than some km

// roomTerm is for fuel that has to go into the tank.
func (l *log) roomTerm(v *visit) float64 {
	if !quantity.Known(v.litres) {
		return 0
	}
	room, told := l.room(v.date)
	over := v.litres/room - 1
	if !told {
		over -= 0.2
	}
	if over < -0.1 {
		return 0
	}
	return overNeck/(1+math.Exp(-40*(over-0.08))) + overRoom/(1+math.Exp(-30*(over-0.35)))
}

// aloneTerm is how likely a brim fill is of which no tank is known.
func (l *log) aloneTerm(litres float64, missed bool) float64 {
	t := &l.usual.alone
	if missed {
		t = &l.usual.freely
	}
	return t.ln(math.Log(max(litres, 0.1)/l.usual.litres)) - math.Log(max(litres, 0.5))
}

// priceTerm is how likely the cost is of that much fuel.
func (l *log) priceTerm(v *visit) float64 {
	if !quantity.Known(v.cost) || !quantity.Known(v.price) || v.cost <= 0 {
		return 0
	}
	if !quantity.Known(v.litres) {
		return -1 // it might be any
	}
	return max(l.usual.price.ln(math.Log(v.cost/v.litres)-v.price), costWrong)
}

package slip

import (
	"math"
	"sort"
)

// reach is how many tanks on each side tell what was usual.
const reach = 5

// A level is what the tanks within a window are expected to use, told by those on both sides of it. Where the two sides differ there
// may have been a step between them: after any of the window's tanks.
type level struct {
	pooled, before, after float64 // ln litres per km
	tailP, tailB, tailA   tail
	stepped               float64 // chance of a step
	pooledUse, usualL     float64
	scatter               float64
	hasBefore, hasAfter   bool
}

const (
	rareStep  = 0.06 // chance of a step within a window
	stepSize  = 0.2  // ln
	rareTank  = 0.05 // share of tanks that are out of the ordinary: a caravan, a holiday
	oddTank   = 0.14 // ln: by how much
	tripShare = 0.6  // of the scatter's variance: that of single drives
	brim      = 1.2  // litres: how far a brim mark is off; neighbours share it
)

// level looks at the tanks that end before the visit from, and those that begin after the visit to.
func (l *log) level(from, to int) level {
	ends := sort.Search(len(l.tanks), func(i int) bool { return l.tanks[i].close > from })
	begins := sort.Search(len(l.tanks), func(i int) bool { return l.tanks[i].open >= to })
	var yB, yA [reach]float64
	nB, nA := 0, 0
	for i := ends - 1; i >= 0 && nB < reach; i-- {
		yB[nB] = l.tanks[i].y
		nB++
	}
	for i := begins; i < len(l.tanks) && nA < reach; i++ {
		yA[nA] = l.tanks[i].y
		nA++
	}
	s := l.usual.scatter
	v := level{usualL: l.usual.litres, scatter: s, hasBefore: nB > 0, hasAfter: nA > 0}
	all := append(append(make([]float64, 0, 2*reach), yB[:nB]...), yA[:nA]...)
	v.pooled, v.tailP = l.middleOf(all)
	v.pooledUse = math.Exp(v.pooled)
	v.before, v.tailB = l.middleOf(yB[:nB])
	v.after, v.tailA = l.middleOf(yA[:nA])
	v.stepped = rareStep
	if nB > 0 && nA > 0 {
		apart := math.Hypot(v.tailB.sd, v.tailA.sd)
		noise := math.Sqrt(max(1e-6, apart*apart-2*s*s))
		d := v.after - v.before
		odds := math.Exp(lnNormal(d, math.Hypot(noise, stepSize))-lnNormal(d, noise)) * rareStep / (1 - rareStep)
		v.stepped = odds / (1 + odds)
	}
	return v
}

// middleOf is the median of tanks and how the next one lies about it.
func (l *log) middleOf(y []float64) (float64, tail) {
	s := l.usual.scatter
	if len(y) == 0 {
		return math.Log(0.105), newTail(0.42, 0.03, 0.8) // any vehicle: 4.5 to 24 L/100 km is nineteen in twenty, common practice
	}
	sd := s * math.Sqrt(1+1.57/float64(len(y))) // the variance of a median is pi/2 times that of a mean
	return medianOf(y), newTail(sd, rareTank, math.Hypot(sd, oddTank))
}

// ln is how likely tanks in a row are.
func (v *level) ln(tanks []span) float64 {
	if len(tanks) == 0 {
		return 0
	}
	pooled := math.Log(1 - v.stepped)
	for i := range tanks {
		pooled += v.lnTank(&v.tailP, &tanks[i], v.pooled)
	}
	if !v.hasBefore || !v.hasAfter || v.stepped < 1e-4 {
		return pooled
	}
	var before, after [maxTanks]float64
	n := min(len(tanks), maxTanks)
	sum := 0.0
	for i := range n {
		before[i] = v.lnTank(&v.tailB, &tanks[i], v.before)
		after[i] = v.lnTank(&v.tailA, &tanks[i], v.after)
		sum += after[i]
	}
	each := math.Log(v.stepped / float64(n+1))
	total := lnAdd(pooled, each+sum)
	for i := range n {
		sum += before[i] - after[i]
		total = lnAdd(total, each+sum)
	}
	return total
}

const maxTanks = 30

// lnTank is the log density of a tank about a level. In a tank that asks for little the brim's error weighs more, and few drives
// even out less.
func (v *level) lnTank(t *tail, tank *span, level float64) float64 {
	if asked := tank.asked * v.pooledUse; asked < 0.9*v.usualL {
		weight := max(asked, 1)
		if asked < brim*few { // an error in litres is none in logs any more
			weight = max(weight, lnMean(asked, tank.litres))
		}
		own, all := brim*math.Sqrt2/weight, brim*math.Sqrt2/v.usualL
		fewDrives := tripShare * v.scatter * v.scatter * max(0, v.usualL/weight-1)
		sd := math.Sqrt(max(t.sd*t.sd, t.sd*t.sd+own*own-all*all+fewDrives))
		wider := newTail(sd, rareTank, math.Hypot(sd, oddTank))
		return wider.ln(tank.y - level)
	}
	return t.ln(tank.y - level)
}

// few times a brim's error a tank has to ask for to be told from a brim's error.
const few = 4

// lnMean is the logarithmic mean of two figures: their difference over it is the difference of their logs.
func lnMean(a, b float64) float64 {
	if d := math.Log(b / a); abs(d) > 1e-6 {
		return (b - a) / d
	}
	return a
}

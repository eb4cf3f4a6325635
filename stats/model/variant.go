package model

import (
	"math"

	"gonum.org/v1/gonum/floats"
)

// A variant is a history continued through one observation in one way: with an unnamed step or without, with
// an ordinary brim or a badly missed one, with a small effect of the work done or a large one.
type variant struct {
	from       *history
	logW       float64
	gain, drop float64   // of the mean and of the covariance along ph
	ph         []float64 // covariance times slope
	onset      float64   // variance of an unnamed step
	brim       float64   // variance added to the brim,
	effect     float64   // to the effect of work,
	relax      float64   // and to how one drives after it
	next       int       // the brim's slot
	hBrim      float64   // slope in it
	hEffect    float64
	slot       int // the effect's
	large      bool
	hRelax     float64
	recent     uint32
}

// weigh lists the ways in which a history may go on, with their weights.
func (p *pool) weigh(h *history, t *passage) {
	s := p.scatter
	y, fuel := p.design(h, t)
	nu := t.Y - y
	ph := p.times(h)
	variance := 0.0
	for _, i := range p.at {
		variance += p.h[i] * ph[i]
	}
	driving := p.driving(t.Obs)
	known := variance + t.Var
	if t.Work != nil {
		known += t.Work.DirtyVar
	}
	_, next := p.brims(h)
	slot := p.slot(slotFold)
	if t.begins {
		slot = p.slot(slotTrack)
	}
	base := variant{from: h, ph: ph, next: next, hBrim: p.h[next], slot: slot, hEffect: p.h[slot], hRelax: p.h[p.slot(slotRelax)]}
	for _, w := range p.works(t) {
		v := base
		v.effect, v.relax, v.recent, v.large = w.effect, w.relax, w.mark, w.large
		part := known + v.effect*sq(v.hEffect) + v.relax*sq(v.hRelax)
		p.outlook.add(math.Exp(h.logW)*w.share, y, part+driving*(1+tailShare*(tailFactor*tailFactor-1)))
		logW := h.logW + math.Log(w.share)
		quiet := logW + t.none
		p.variants = append(p.variants, v.scored(quiet+logMet, nu, part, driving))
		if t.quiet {
			continue
		}
		missed := v
		missed.brim, missed.recent = (brimFactor*brimFactor-1)*s.Brim*s.Brim, v.recent|markBrim
		p.variants = append(p.variants, missed.scored(quiet+logMissed, nu, part+missed.brim/sq(fuel), driving))
		lost := v
		lost.recent = v.recent | markLost
		p.variants = append(p.variants, lost.scored(quiet+logLost, nu, part+lostSd*lostSd, driving))
		v.onset = onsetSd * onsetSd
		p.variants = append(p.variants, v.scored(logW+t.stepped, nu, part+v.onset, driving))
	}
}

func (a *outlook) add(weight, mean, variance float64) {
	a.mean += weight * mean
	a.square += weight * (mean*mean + variance)
}

func (a *outlook) join(weight float64, b outlook) {
	a.mean += weight * b.mean
	a.square += weight * b.square
}

func (a outlook) sd() float64 { return math.Sqrt(max(0, a.square-a.mean*a.mean)) }

// driving is the variance of the driving itself, tails apart.
func (p *pool) driving(o *Obs) float64 {
	s := p.scatter
	return s.Driving*s.Driving*(1-s.Wander)*(wholeShare+(1-wholeShare)*o.Clump/typicalClump) + s.Unnoted*s.Unnoted*o.Unnoted
}

// Logarithms that every step asks for.
var (
	logOrdinary, logTail       = math.Log1p(-tailShare), math.Log(tailShare)
	logMet, logMissed, logLost = math.Log1p(-brimTail - lostShare), math.Log(brimTail), math.Log(lostShare)
)

// A way is one part of the priors of what work does: its effect, and how one drives after it.
type way struct {
	share, effect, relax float64
	mark                 uint32
	large                bool // of the tracked effect: never forgotten
}

var plainWay = []way{{share: 1}}

// works lists the parts of the mixture that the work in an observation brings.
func (p *pool) works(t *passage) []way {
	w := t.Work
	if w == nil {
		return plainWay
	}
	effects := []way{{share: 1}}
	if t.fold || t.begins {
		large := (1 - narrowShare) * w.Scale // forty small jobs are no random walk
		effects = []way{{share: 1 - large, effect: sq(narrowSd * w.Scale)}, {share: large, effect: sq(wideSd * w.Scale), mark: markWide, large: t.begins}}
	}
	p.ways = p.ways[:0]
	for _, e := range effects {
		if w.RelaxVar == 0 {
			p.ways = append(p.ways, e)
			continue
		}
		p.ways = append(p.ways, way{e.share * (1 - relaxShare), e.effect, 0, e.mark, e.large})
		p.ways = append(p.ways, way{e.share * relaxShare, e.effect, w.RelaxVar, e.mark | markRelax, e.large})
	}
	return p.ways
}

// scored weighs the residual nu under the two parts of the driving's scatter, an ordinary one and a wide one
// for headwinds and traffic jams, and finds the one normal that stands for both afterwards.
func (v variant) scored(logW, nu, known, driving float64) variant {
	s1, s2 := known+driving, known+driving*tailFactor*tailFactor
	l1 := logOrdinary - 0.5*(math.Log(2*math.Pi*s1)+nu*nu/s1)
	l2 := logTail - 0.5*(math.Log(2*math.Pi*s2)+nu*nu/s2)
	rest := math.Exp(-math.Abs(l1 - l2)) // of the lesser part, against the greater
	w1, w2 := 1/(1+rest), rest/(1+rest)
	if l2 > l1 {
		w1, w2 = w2, w1
	}
	mean := w1/s1 + w2/s2
	spread := w1*sq(1/s1-mean) + w2*sq(1/s2-mean)
	v.gain, v.drop = nu*mean, mean-nu*nu*spread
	v.logW = logW + max(l1, l2) + math.Log1p(rest)
	return v
}

// times is covariance times slope.
func (p *pool) times(h *history) []float64 {
	if cap(h.ph) < p.n {
		h.ph = make([]float64, p.n)
	}
	ph := h.ph[:p.n]
	for i := range ph {
		ph[i] = 0
		if h.p[i*p.n+i] == 0 {
			continue // nothing uncertain, nothing shared
		}
		ph[i] = floats.Dot(h.p[i*p.n:(i+1)*p.n], p.h)
	}
	return ph
}

// follow makes the histories that the kept variants stand for.
func (p *pool) follow(kept []variant) {
	uses := map[*history]int{}
	for _, v := range kept {
		uses[v.from]++
	}
	old := p.histories
	p.histories = make([]*history, 0, len(kept))
	for _, v := range kept {
		h := v.from
		if uses[h]--; uses[h] > 0 {
			h = p.copyOf(h)
		}
		p.histories = append(p.histories, h)
	}
	for _, h := range old {
		if _, used := uses[h]; !used {
			p.spare = append(p.spare, h)
		}
	}
	for i, v := range kept {
		p.update(p.histories[i], v)
	}
}

// update conditions a history on its observation.
func (p *pool) update(h *history, v variant) {
	n := p.n
	ph := append(p.ph[:0], v.ph...)
	p.ph = ph
	if v.onset > 0 {
		p.widen(h, 0, v.onset)
		ph[0] += v.onset
		o := p.slot(p.steps)
		p.widen(h, o, v.onset)
		h.p[o*n] += v.onset
		h.p[o] += v.onset
		ph[o] += v.onset
		h.onsets |= 1
	}
	for _, a := range [...]struct {
		slot            int
		variance, slope float64
	}{{v.next, v.brim, v.hBrim}, {v.slot, v.effect, v.hEffect}, {p.slot(slotRelax), v.relax, v.hRelax}} {
		if a.variance > 0 {
			p.widen(h, a.slot, a.variance)
			ph[a.slot] += a.variance * a.slope
		}
	}
	h.recent |= v.recent
	h.large = h.large || v.large
	h.logW = v.logW
	for i, a := range ph {
		if a != 0 {
			h.x[i] += a * v.gain
			floats.AddScaled(h.p[i*n:(i+1)*n], -v.drop*a, ph)
		}
	}
}

func sq(x float64) float64 { return x * x }

package model

import (
	"math"

	"gonum.org/v1/gonum/floats"
)

// Slots of the state, behind the static coefficients. Static coefficient 0 is the level.
const (
	slotBrimA = iota // the shared ends of odd and even observations, litres
	slotBrimB
	slotWander
	slotRelax
	slotRunIn
	slotSegment // the unnoted mix between two jobs
	slotFold    // effect of work, folded into the level after its observation
	slotTrack   // effect that a branch is about
	slotOnset   // level less the last healthy level, as a branch found it
	slotSince   // steps since the branch
	slotCount
)

// Marks of what else branched, markBits for each observation.
const (
	markBrim uint32 = 1 << iota
	markWide
	markRelax
	markLost
	markBits = 4
)

// A history is one way in which the log may have come about: it says when unnamed steps happened.
type history struct {
	logW   float64
	x      []float64
	p      []float64 // covariance, n x n
	onsets uint32    // bit k: a step k observations ago
	recent uint32    // what else branched lately: sooner forgotten
	large  bool      // the tracked effect is taken from the wide part of its prior
	swap   bool      // which brim slot holds the end of the last observation
	ph     []float64 // scratch: covariance times slope
}

func (p *pool) slot(k int) int { return p.statics + k }

// brims are the slots of the last end and of the next.
func (p *pool) brims(h *history) (last, next int) {
	if h.swap {
		return p.slot(slotBrimB), p.slot(slotBrimA)
	}
	return p.slot(slotBrimA), p.slot(slotBrimB)
}

func (p *pool) fresh() *history {
	if k := len(p.spare); k > 0 {
		h := p.spare[k-1]
		p.spare = p.spare[:k-1]
		return h
	}
	return &history{x: make([]float64, p.n), p: make([]float64, p.n*p.n)}
}

func (p *pool) copyOf(h *history) *history {
	c := p.fresh()
	copy(c.x, h.x)
	copy(c.p, h.p)
	c.logW, c.onsets, c.recent, c.large, c.swap = h.logW, h.onsets, h.recent, h.large, h.swap
	return c
}

// reset makes coordinate i independent of the rest, with that mean and variance.
func (p *pool) reset(h *history, i int, mean, variance float64) {
	p.scale(h, i, 0)
	h.x[i] = mean
	h.p[i*p.n+i] = variance
}

// scale multiplies coordinate i.
func (p *pool) scale(h *history, i int, f float64) {
	h.x[i] *= f
	if h.p[i*p.n+i] == 0 {
		return
	}
	for j := range p.n {
		h.p[i*p.n+j] *= f
		h.p[j*p.n+i] *= f
	}
}

// widen adds variance to coordinate i.
func (p *pool) widen(h *history, i int, variance float64) { h.p[i*p.n+i] += variance }

// addTo adds coordinate i to coordinate to.
func (p *pool) addTo(h *history, i, to int) {
	h.x[to] += h.x[i]
	for j := range p.n {
		h.p[to*p.n+j] += h.p[i*p.n+j]
	}
	for j := range p.n {
		h.p[j*p.n+to] += h.p[j*p.n+i]
	}
}

// merge makes one history of those that no longer differ in what is remembered of them.
func (p *pool) merge() {
	out := p.histories[:0]
	for _, h := range p.histories {
		if g := same(out, h); g != nil {
			p.mergeInto(g, h)
			p.spare = append(p.spare, h)
		} else {
			out = append(out, h)
		}
	}
	p.histories = out
}

func same(hs []*history, h *history) *history {
	for _, g := range hs {
		if g.onsets == h.onsets && g.recent == h.recent && g.large == h.large {
			return g
		}
	}
	return nil
}

// mergeInto gives g the mean and covariance of both, by weight.
func (p *pool) mergeInto(g, h *history) {
	top := max(g.logW, h.logW)
	wg, wh := math.Exp(g.logW-top), math.Exp(h.logW-top)
	g.logW = top + math.Log(wg+wh)
	wg, wh = wg/(wg+wh), wh/(wg+wh)
	floats.Scale(wg, g.p)
	floats.AddScaled(g.p, wh, h.p)
	floats.SubTo(p.ph[:p.n], g.x, h.x)
	for i, d := range p.ph[:p.n] {
		if d != 0 {
			floats.AddScaled(g.p[i*p.n:(i+1)*p.n], wg*wh*d, p.ph[:p.n])
		}
	}
	for i := range p.n {
		g.x[i] = wg*g.x[i] + wh*h.x[i]
	}
}

// suspect weighs each history by how likely it makes a call for repair, and leaves the pool's own weight as it was
// but for what its histories say of that.
func (p *pool) suspect(factor float64) {
	o := p.slot(p.steps)
	sum := 0.0
	for _, h := range p.histories {
		if h.onsets&(1<<(min(faultTanks, p.age)+1)-1) != 0 {
			worse := 0.5 * math.Erfc(-h.x[o]/math.Sqrt(2*max(h.p[o*p.n+o], 1e-12)))
			h.logW += math.Log1p((factor - 1) * worse)
		}
		sum += math.Exp(h.logW)
	}
	for _, h := range p.histories {
		h.logW -= math.Log(sum)
	}
	p.logL += math.Log(sum)
}

package model

import (
	"cmp"
	"math"
	"slices"
)

// The filter knows plain numbers alone: one observation a step, a state of static coefficients, the error
// that two neighbouring observations share, a slow wander, transients, and steps of the level at unknown
// times. What one normal cannot carry it carries as a handful of histories, each normal, with weights.

// An Obs is one observation: y = level + x'b + ln(1 + e'b) + what the slots add + scatter.
type Obs struct {
	Y       float64
	Km      float64   // its length; transients and wander fade along it
	Gap     float64   // length unobserved before it
	X       []float64 // per static coefficient; X[0], the level's, is 1
	E       []float64
	Clump   float64 // sum of the squared shares of its parts: 1 for one part, small for many
	Unnoted float64 // share of it driven in a mix nobody noted
	Var     float64 // variance known beforehand
	Chained bool    // shares an end with the observation before
	Healthy bool    // the owner vouches for it
	Work    *Work
}

// Work is what was done within an observation.
type Work struct {
	After     float64 // share of the length after it
	Scale     float64 // of the prior of its effect
	DirtyMean float64
	DirtyVar  float64
	RelaxVar  float64
	RunInMean float64
	RunInVar  float64
	LevelVar  float64 // of an apparent step that is no effect
	Fault     float64 // how many times likelier it makes it that something had lately gone wrong before it; 0 and 1 say nothing
	Pretended bool    // nobody did anything: a step is looked for, and nothing else begins
}

// A Scatter is one point of the grid: what a filter takes as known of the noise.
type Scatter struct {
	Driving float64 // log-scale deviation of an observation of typical length
	Wander  float64 // share of Driving's variance that wanders slowly
	Brim    float64 // litres
	Unnoted float64 // log-scale deviation of an observation nobody noted
	Doubt   float64 // factor on the width of the priors that are in doubt
	logW    float64
}

// A role is what a pool makes of the work in an observation.
type role struct {
	tracked float64 // coefficient of the tracked effect: 0 without one
	begins  bool    // the tracked effect begins with this observation
	fold    bool    // the work's effect is folded into the level
	quiet   bool    // nothing unusual happens: no step, no missed brim
}

// A pool is the set of histories under one scatter.
type pool struct {
	n, statics int
	scatter    Scatter
	histories  []*history
	logL       float64 // of all observations so far, weight of the scatter included
	steps      int     // the slot that unnamed steps are added up in
	age        int     // observations since that began
	spare      []*history
	h          []float64
	at         []int // where h is not 0
	ph         []float64
	live       []int // where ph is not 0
	ways       []way
	variants   []variant
	ahead      ahead
}

// ahead is what a pool expected of its last observation: mean and mean square over its histories.
type ahead struct{ mean, square float64 }

// newPool starts a pool from the priors of the static coefficients.
func newPool(mean, sd []float64, s Scatter) *pool {
	n := len(mean) + slotCount
	p := &pool{n: n, statics: len(mean), scatter: s, logL: s.logW, steps: slotOnset, h: make([]float64, n)}
	h := p.fresh()
	copy(h.x, mean)
	for i, d := range sd {
		h.p[i*n+i] = d * d
	}
	w := p.slot(slotWander)
	h.p[w*n+w] = s.Wander * s.Driving * s.Driving
	p.histories = []*history{h}
	return p
}

// clone is a pool of its own with the same histories.
func (p *pool) clone() *pool {
	c := &pool{n: p.n, statics: p.statics, scatter: p.scatter, logL: p.logL, steps: p.steps, age: p.age, h: make([]float64, p.n)}
	for _, h := range p.histories {
		c.histories = append(c.histories, c.copyOf(h))
	}
	return c
}

// step takes all histories through one observation.
func (p *pool) step(o *Obs, as role) {
	p.variants, p.ahead = p.variants[:0], ahead{}
	for _, h := range p.histories {
		p.predict(h, o, as)
		p.weigh(h, o, as)
	}
	best, sum := math.Inf(-1), 0.0
	for i := range p.variants {
		best = max(best, p.variants[i].logW)
	}
	likely := p.variants[:0]
	for _, v := range p.variants {
		if v.logW > best-negligible {
			sum += math.Exp(v.logW - best)
		}
		if v.logW > best-pruneBelow {
			likely = append(likely, v)
		}
	}
	p.logL += best + math.Log(sum)
	p.variants = likely
	slices.SortStableFunc(p.variants, func(a, b variant) int { return cmp.Compare(b.logW, a.logW) })
	keep, kept := 0, 0.0
	for keep < len(p.variants) && keep < poolSize {
		kept += math.Exp(p.variants[keep].logW - best)
		keep++
	}
	for i := range p.variants[:keep] {
		p.variants[i].logW -= best + math.Log(kept) // those kept stand for all
	}
	p.follow(p.variants[:keep])
	for _, h := range p.histories {
		p.settle(h, o, as)
	}
	p.merge()
	p.age++
}

// branched begins to add up the steps of a branch apart from those before it.
func (p *pool) branched() {
	p.steps, p.age = slotSince, 0
}

// predict takes a history to the observation: what faded, what is new.
func (p *pool) predict(h *history, o *Obs, as role) {
	s := p.scatter
	phi := math.Exp(-(o.Km + o.Gap) / wanderKm)
	p.scale(h, p.slot(slotWander), phi)
	p.widen(h, p.slot(slotWander), s.Wander*s.Driving*s.Driving*(1-phi*phi))
	if o.Gap > 0 {
		p.scale(h, p.slot(slotRelax), math.Exp(-o.Gap/relaxKm))
		p.scale(h, p.slot(slotRunIn), math.Exp(-o.Gap/runInKm))
	}
	last, next := p.brims(h)
	if !o.Chained {
		p.reset(h, last, 0, s.Brim*s.Brim)
	}
	p.reset(h, next, 0, s.Brim*s.Brim)
	if w := o.Work; w != nil {
		r, q := p.slot(slotRelax), p.slot(slotRunIn)
		p.reset(h, r, 0, h.p[r*p.n+r])
		if w.RunInVar > 0 {
			p.reset(h, q, h.x[q]+w.RunInMean, h.p[q*p.n+q]+w.RunInVar)
		}
		if !w.Pretended {
			p.reset(h, p.slot(slotSegment), 0, segmentSd*segmentSd)
		}
		p.widen(h, 0, w.LevelVar)
	}
	if as.begins {
		p.reset(h, p.slot(slotTrack), 0, 0)
	}
}

// design fills p.h, the slope of the observation in the state, and gives its prediction and the fuel that it
// stands for.
func (p *pool) design(h *history, o *Obs, as role) (y, fuel float64) {
	clear(p.h)
	extra := 0.0
	for i := range p.statics {
		p.h[i] = o.X[i]
		y += o.X[i] * h.x[i]
		extra += o.E[i] * h.x[i]
	}
	extra = max(extra, -0.5) // no start gives half the fuel back
	y += math.Log1p(extra)
	for i, e := range o.E {
		p.h[i] += e / (1 + extra)
	}
	after, ranIn := 1.0, 1.0
	if w := o.Work; w != nil {
		after = w.After
		y += w.DirtyMean
		if w.RunInVar > 0 {
			ranIn = w.After
		}
		if as.fold {
			p.h[p.slot(slotFold)] = w.After
		}
	}
	for _, c := range [...]struct {
		slot int
		h    float64
	}{
		{slotWander, 1}, {slotSegment, o.Unnoted}, {slotTrack, as.tracked},
		{slotRelax, fading(o.Km, after, relaxKm)}, {slotRunIn, fading(o.Km, ranIn, runInKm)},
	} {
		i := p.slot(c.slot)
		p.h[i] = c.h
		y += c.h * h.x[i]
	}
	fuel = o.Km * math.Exp(y)
	last, next := p.brims(h)
	p.h[last], p.h[next] = -1/fuel, 1/fuel
	y -= h.x[last] / fuel
	p.at = p.at[:0]
	for i, c := range p.h {
		if c != 0 {
			p.at = append(p.at, i)
		}
	}
	return y, fuel
}

// fading is the mean, over a length, of what begins at 1 where the share after is still to go and fades.
func fading(km, after, fade float64) float64 {
	return fade / km * -math.Expm1(-after*km/fade)
}

// settle takes a history past the observation.
func (p *pool) settle(h *history, o *Obs, as role) {
	after, ranIn := 1.0, 1.0
	if w := o.Work; w != nil {
		after = w.After
		if w.RunInVar > 0 {
			ranIn = w.After
		}
		if as.fold {
			f := p.slot(slotFold)
			p.addTo(h, f, 0)
			if h.onsets&(1<<min(p.age+1, onsetMemory)-1) != 0 {
				p.addTo(h, f, p.slot(p.steps))
			}
			p.reset(h, f, 0, 0)
		}
	}
	p.scale(h, p.slot(slotRelax), math.Exp(-after*o.Km/relaxKm))
	p.scale(h, p.slot(slotRunIn), math.Exp(-ranIn*o.Km/runInKm))
	if p.steps == slotOnset && (o.Healthy || h.onsets == 1<<(onsetMemory-1)) {
		// Vouched for, or so long ago that it has become the vehicle's own level.
		p.reset(h, p.slot(slotOnset), 0, 0)
	}
	h.swap = !h.swap
	h.onsets = h.onsets << 1 & (1<<onsetMemory - 1)
	h.recent = h.recent << markBits & (1<<(markBits*recentMemory) - 1)
}

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
	whole   bool    // the pass over the whole log: it waits longer before it drops an account
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
	ways       []way
	variants   []variant
	best       float64 // of their weights
	outlook    outlook
}

// outlook is what a pool expected of its last observation: mean and mean square over its histories.
type outlook struct{ mean, square float64 }

// newPool starts a pool from the priors of the static coefficients.
func newPool(mean, sd []float64, s Scatter) *pool {
	n := len(mean) + slotCount
	p := &pool{n: n, statics: len(mean), scatter: s, logL: s.logW, steps: slotOnset, h: make([]float64, n), ph: make([]float64, n)}
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
func (p *pool) clone() *pool { return p.above(math.Inf(-1)) }

// above is a pool of its own with the histories that weigh no less than the least given; they stand for all.
func (p *pool) above(least float64) *pool {
	c := &pool{n: p.n, statics: p.statics, scatter: p.scatter, logL: p.logL, steps: p.steps, age: p.age, h: make([]float64, p.n), ph: make([]float64, p.n)}
	sum := 0.0
	for _, h := range p.histories {
		if h.logW >= least {
			sum += math.Exp(h.logW)
			c.histories = append(c.histories, c.copyOf(h))
		}
	}
	if len(c.histories) < len(p.histories) {
		for _, h := range c.histories {
			h.logW -= math.Log(sum)
		}
	}
	return c
}

// consider lists the ways in which the pool's histories may go on through one observation, and gives the weight of the best.
func (p *pool) consider(t *passage) float64 {
	p.variants, p.outlook = p.variants[:0], outlook{}
	for _, h := range p.histories {
		p.predict(h, t)
		p.weigh(h, t)
	}
	p.best = math.Inf(-1)
	for i := range p.variants {
		p.best = max(p.best, p.variants[i].logW)
	}
	return p.logL + p.best
}

// choose goes on with those that weigh more than the least given, at most poolSize of them, and tells whether there are any.
func (p *pool) choose(t *passage, least float64) bool {
	least -= p.logL
	best, sum := p.best, 0.0
	if best < least {
		return false
	}
	likely := p.variants[:0]
	for _, v := range p.variants {
		if v.logW > best-negligible {
			sum += math.Exp(v.logW - best)
		}
		if v.logW >= least {
			likely = append(likely, v)
		}
	}
	p.logL += best + math.Log(sum)
	slices.SortStableFunc(likely, func(a, b variant) int { return cmp.Compare(b.logW, a.logW) })
	likely = likely[:min(len(likely), poolSize)]
	kept := 0.0
	for _, v := range likely {
		kept += math.Exp(v.logW - best)
	}
	for i := range likely {
		likely[i].logW -= best + math.Log(kept) // those kept stand for all
	}
	p.variants = likely
	p.follow(likely)
	for _, h := range p.histories {
		p.settle(h, t)
	}
	p.merge()
	p.age++
	return true
}

// branched begins to add up the steps of a branch apart from those before it.
func (p *pool) branched() {
	p.steps, p.age = slotSince, 0
}

// predict takes a history to the observation: what faded, what is new.
func (p *pool) predict(h *history, t *passage) {
	s := p.scatter
	p.scale(h, p.slot(slotWander), t.wander)
	p.widen(h, p.slot(slotWander), s.Wander*s.Driving*s.Driving*(1-t.wander*t.wander))
	if t.Gap > 0 {
		p.scale(h, p.slot(slotRelax), t.gapRelax)
		p.scale(h, p.slot(slotRunIn), t.gapRunIn)
	}
	last, next := p.brims(h)
	if !t.Chained {
		p.reset(h, last, 0, s.Brim*s.Brim)
	}
	p.reset(h, next, 0, s.Brim*s.Brim)
	if w := t.Work; w != nil && !w.Pretended {
		r, q := p.slot(slotRelax), p.slot(slotRunIn)
		p.reset(h, r, 0, h.p[r*p.n+r])
		if w.RunInVar > 0 {
			p.reset(h, q, h.x[q]+w.RunInMean, h.p[q*p.n+q]+w.RunInVar)
		}
		p.reset(h, p.slot(slotSegment), 0, segmentSd*segmentSd)
		p.widen(h, 0, w.LevelVar)
	}
	if t.begins {
		p.reset(h, p.slot(slotTrack), 0, 0)
	}
}

// design fills p.h, the slope of the observation in the state, and gives its prediction and the fuel that it
// stands for.
func (p *pool) design(h *history, t *passage) (y, fuel float64) {
	clear(p.h)
	extra := 0.0
	for i := range p.statics {
		p.h[i] = t.X[i]
		y += t.X[i] * h.x[i]
		extra += t.E[i] * h.x[i]
	}
	extra = max(extra, -0.5) // no start gives half the fuel back
	y += math.Log1p(extra)
	for i, e := range t.E {
		p.h[i] += e / (1 + extra)
	}
	if w := t.Work; w != nil {
		y += w.DirtyMean
		if t.fold {
			p.h[p.slot(slotFold)] = w.After
		}
	}
	for _, c := range [...]struct {
		slot int
		h    float64
	}{
		{slotWander, 1}, {slotSegment, t.Unnoted}, {slotTrack, t.tracked},
		{slotRelax, t.relaxSlope}, {slotRunIn, t.runInSlope},
	} {
		i := p.slot(c.slot)
		p.h[i] = c.h
		y += c.h * h.x[i]
	}
	fuel = t.Km * math.Exp(y)
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

// settle takes a history past the observation.
func (p *pool) settle(h *history, t *passage) {
	if t.Work != nil && t.fold {
		f := p.slot(slotFold)
		p.addTo(h, f, 0)
		if h.onsets&(1<<min(p.age+1, onsetMemory)-1) != 0 {
			p.addTo(h, f, p.slot(p.steps))
		}
		p.reset(h, f, 0, 0)
	}
	p.scale(h, p.slot(slotRelax), t.relaxLeft)
	p.scale(h, p.slot(slotRunIn), t.runInLeft)
	if p.steps == slotOnset && (t.Healthy || h.onsets == 1<<(onsetMemory-1)) {
		// Vouched for, or so long ago that it has become the vehicle's own level.
		p.reset(h, p.slot(slotOnset), 0, 0)
	}
	h.swap = !h.swap
	h.onsets = h.onsets << 1 & (1<<onsetMemory - 1)
	h.recent = h.recent << markBits & (1<<(markBits*recentMemory) - 1)
}

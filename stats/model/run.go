package model

import (
	"math"
	"runtime"
	"sync"

	"brimlog/stats/calc"
)

// lanes are the pools of one filter, one for each scatter of the grid.
type lanes []*pool

// newLanes opens a lane for every point of the grid.
func newLanes(d *Design) lanes {
	unnoted := unnotedGrid
	if !d.unnoted {
		unnoted = weighted{{0, 1}} // every lane would be the same
	}
	var out lanes
	for _, s := range drivingGrid {
		for _, b := range brimGrid {
			for _, w := range wanderGrid {
				for _, q := range doubtGrid {
					for _, u := range unnoted {
						scatter := Scatter{Driving: s.value, Wander: w.value, Brim: b.value, Unnoted: u.value, Doubt: q.value,
							logW: math.Log(s.weight * b.weight * w.weight * q.weight * u.weight)}
						mean, sd := d.prior(scatter.Doubt)
						out = append(out, newPool(mean, sd, scatter))
					}
				}
			}
		}
	}
	return out
}

func (d *Design) prior(doubt float64) (mean, sd []float64) {
	for _, p := range d.Priors {
		width := p.Sd
		if p.Doubt {
			width *= doubt
		}
		mean, sd = append(mean, p.Mean), append(sd, width)
	}
	return mean, sd
}

func (l lanes) clone() lanes {
	out := make(lanes, len(l))
	for i, p := range l {
		out[i] = p.clone()
	}
	return out
}

func (l lanes) step(o *Obs, as role) {
	for _, p := range l {
		p.step(o, as)
	}
}

// logL is the log likelihood of all observations so far, over the whole grid.
func (l lanes) logL() float64 {
	x := make([]float64, len(l))
	for i, p := range l {
		x[i] = p.logL
	}
	return calc.LogSum(x)
}

// thinned drops the lanes that explain far less than the best.
func (l lanes) thinned() lanes {
	best := math.Inf(-1)
	for _, p := range l {
		best = max(best, p.logL)
	}
	out := l[:0]
	for _, p := range l {
		if p.logL > best-laneBelow {
			out = append(out, p)
		}
	}
	return out
}

// effect adds the posterior of c'x, for the coordinates given, to m, with weights relative to top.
func (l lanes) effect(m calc.Mixture, logShare, top float64, slots ...int) calc.Mixture {
	for _, p := range l {
		for _, h := range p.histories {
			weight := math.Exp(p.logL + h.logW + logShare - top)
			if weight < 1e-7 {
				continue
			}
			mean, variance := 0.0, 0.0
			for _, a := range slots {
				i := p.slot(a)
				mean += h.x[i]
				for _, b := range slots {
					variance += h.p[i*p.n+p.slot(b)]
				}
			}
			m = append(m, calc.Normal{Weight: weight, Mean: mean, Sd: math.Sqrt(max(0, variance))})
		}
	}
	return m
}

// faulted is the posterior chance that an unnamed step is remembered.
func (l lanes) faulted() float64 {
	top, with, all := l.logL(), 0.0, 0.0
	for _, p := range l {
		for _, h := range p.histories {
			w := math.Exp(p.logL + h.logW - top)
			all += w
			if h.onsets != 0 {
				with += w
			}
		}
	}
	return with / all
}

// Evidence is what the log says of one piece of work after one tank, from nothing later.
type Evidence struct {
	Tank    int          // index
	LogOdds float64      // of 'it changed' against 'it did not'
	Effect  calc.Mixture // of the log-scale effect, given that it changed
	Healthy calc.Mixture // of effect plus the unnamed steps before it
	Faulted float64      // chance that such a step came before
}

// A Question asks for the evidence of the work in one tank.
type Question struct {
	Tank  int
	Work  *Work // nil: as the log has it; else pretended
	Tanks int   // how many tanks to follow it
	Brief bool  // odds and effect alone
}

// Ask answers all questions in one pass over the log: the filter runs once, and each question branches off
// just before its tank. Answers are in the order of the questions, which must be in the order of tanks.
func (d *Design) Ask(questions []Question) [][]Evidence {
	answers := make([][]Evidence, len(questions))
	main := newLanes(d)
	slots := make(chan struct{}, runtime.GOMAXPROCS(0))
	var wg sync.WaitGroup
	next := 0
	for i := range d.Obs {
		for ; next < len(questions) && questions[next].Tank == i; next++ {
			q, k, from := questions[next], next, main.clone()
			slots <- struct{}{}
			wg.Go(func() {
				answers[k] = d.branch(from, q)
				<-slots
			})
		}
		if next == len(questions) {
			break
		}
		main.step(&d.Obs[i], role{fold: true, onset: true})
		main = main.thinned()
	}
	wg.Wait()
	return answers
}

// branch follows one piece of work: without an effect, with a small one and with a large one.
func (d *Design) branch(from lanes, q Question) []Evidence {
	faulted := from.faulted()
	without, small, large := from, from.clone(), from.clone()
	var out []Evidence
	for i := q.Tank; i < min(len(d.Obs), q.Tank+q.Tanks); i++ {
		o := d.Obs[i]
		as := role{tracked: 1, fold: true}
		narrow, wide := as, as
		none := role{fold: true}
		if i == q.Tank {
			if q.Work != nil {
				o.Work = q.Work
			}
			as = role{tracked: o.Work.After}
			narrow, wide = as, as
			narrow.sd, wide.sd = narrowSd*o.Work.Scale, wideSd*o.Work.Scale
			none = role{}
		}
		without.step(&o, none)
		small.step(&o, narrow)
		large.step(&o, wide)
		e := evidence(without, small, large)
		e.Tank, e.Faulted = i, faulted
		if q.Brief {
			e.Healthy = nil
		}
		out = append(out, e)
	}
	return out
}

func evidence(without, small, large lanes) Evidence {
	s, l := math.Log(narrowShare)+small.logL(), math.Log(1-narrowShare)+large.logL()
	top := calc.LogSum([]float64{s, l})
	e := Evidence{LogOdds: top - without.logL()}
	e.Effect = small.effect(nil, math.Log(narrowShare), top, slotTrack)
	e.Effect = large.effect(e.Effect, math.Log(1-narrowShare), top, slotTrack).Thinned(1e-3)
	e.Healthy = small.effect(nil, math.Log(narrowShare), top, slotTrack, slotOnset)
	e.Healthy = large.effect(e.Healthy, math.Log(1-narrowShare), top, slotTrack, slotOnset).Thinned(1e-3)
	return e
}

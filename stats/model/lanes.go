package model

import (
	"math"

	"gonum.org/v1/gonum/floats"
	"gonum.org/v1/gonum/stat/distuv"

	"brimlog/stats/calc"
)

// lanes are the pools of one filter, one for each scatter of the grid.
type lanes []*pool

// newLanes opens a lane for every point of the grid. Its points are spread evenly over the priors of the
// scatters by an additive recurrence with the powers of the root of x^5 = x + 1 (the generalised golden ratio), so that few
// suffice. At each, the priors in doubt are tried in both their widths.
func newLanes(d *Design) lanes {
	var out lanes
	for k := range scatterCount {
		u := spread(k)
		for _, doubt := range []struct{ factor, share float64 }{{1, 1 - doubtShare}, {doubtFactor, doubtShare}} {
			mean, sd := d.prior(doubt.factor)
			out = append(out, newPool(mean, sd, Scatter{
				Driving: drivingScatter.at(u[0]), Brim: brimScatter.at(u[1]), Unnoted: unnotedScatter.at(u[2]),
				Wander: wanderMost * u[3] * u[3], Doubt: doubt.factor, logW: math.Log(doubt.share / scatterCount),
			}))
		}
	}
	return out
}

// spread is the k-th point of four numbers between 0 and 1.
func spread(k int) (u [4]float64) {
	const root = 1.1673039782614187 // of x^5 = x + 1
	a := 1.0
	for i := range u {
		a /= root
		u[i] = math.Mod(0.5+a*float64(k+1), 1)
	}
	return u
}

// A lognormal is a prior of a scatter: median, and deviation of its logarithm.
type lognormal struct{ median, spread float64 }

func (l lognormal) at(u float64) float64 {
	return l.median * math.Exp(l.spread*distuv.UnitNormal.Quantile(u))
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

// likely are the lanes that a brief answer is read from: the rest explain the log less than a twentieth as well as the best.
func (l lanes) likely() (out lanes) {
	best := math.Inf(-1)
	for _, p := range l {
		best = max(best, p.logL)
	}
	for _, p := range l {
		if p.logL > best-briefBelow {
			out = append(out, p)
		}
	}
	return out
}

func (l lanes) clone() lanes {
	out := make(lanes, len(l))
	for i, p := range l {
		out[i] = p.clone()
	}
	return out
}

// fork is a copy to ask after one piece of work in, without the accounts that are too unlikely to be followed there.
func (l lanes) fork() (out lanes) {
	best := math.Inf(-1)
	for _, p := range l {
		for _, h := range p.histories {
			best = max(best, p.logL+h.logW)
		}
	}
	for _, p := range l {
		if c := p.above(best - pruneBelow - p.logL); len(c.histories) > 0 {
			out = append(out, c)
		}
	}
	return out
}

// step takes all lanes through one observation, and gives what was expected of it. What explains the log far less than the
// best account under any scatter is dropped, and with it the lanes that nothing is left of.
func (l lanes) step(o *Obs, as role) (lanes, outlook) {
	t, best := pass(o, as), math.Inf(-1)
	expected, top := outlook{}, l.logL()
	for _, p := range l {
		best = max(best, p.consider(t))
		expected.join(math.Exp(p.logL-top), p.outlook)
	}
	least := best - pruneBelow
	if as.whole {
		least = best - pruneWhole
	}
	out := l[:0]
	for _, p := range l {
		if p.choose(t, least) {
			out = append(out, p)
		}
	}
	return out, expected
}

// suspect takes in that work was called for: who repairs does so because something seems to have gone wrong of
// late, so accounts with a recent step towards more fuel gain. With work and without an effect of it alike.
func (l lanes) suspect(w *Work) {
	if w == nil || w.Fault <= 1 {
		return
	}
	for _, p := range l {
		p.suspect(w.Fault)
	}
}

// logL is the log likelihood of all observations so far, over the whole grid.
func (l lanes) logL() float64 {
	x := make([]float64, len(l))
	for i, p := range l {
		x[i] = p.logL
	}
	return floats.LogSumExp(x)
}

// effect is the posterior of the sum of some slots, with weights relative to top.
func (l lanes) effect(top float64, slots ...int) (m calc.Mixture) {
	for _, p := range l {
		for _, h := range p.histories {
			weight := math.Exp(p.logL + h.logW - top)
			if weight < 1e-6 {
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

// along is the posterior of c'x over the static coefficients.
func (l lanes) along(c []float64) calc.Mixture {
	var m calc.Mixture
	top := l.logL()
	for _, p := range l {
		for _, h := range p.histories {
			weight := math.Exp(p.logL + h.logW - top)
			if weight < 1e-7 {
				continue
			}
			mean, variance := 0.0, 0.0
			for i, a := range c {
				mean += a * h.x[i]
				for j, b := range c {
					variance += a * b * h.p[i*p.n+j]
				}
			}
			m = append(m, calc.Normal{Weight: weight, Mean: mean, Sd: math.Sqrt(max(0, variance))})
		}
	}
	return m
}

// settled averages the coefficients and the scatters over lanes and histories.
func (l lanes) settled() Settled {
	s := Settled{Mean: make([]float64, l[0].statics)}
	top, total := l.logL(), 0.0
	for _, p := range l {
		for _, h := range p.histories {
			w := math.Exp(p.logL + h.logW - top)
			total += w
			for i := range s.Mean {
				s.Mean[i] += w * h.x[i]
			}
			s.Driving += w * p.scatter.Driving
			s.Brim += w * p.scatter.Brim
			s.Unnoted += w * p.scatter.Unnoted
		}
	}
	for i := range s.Mean {
		s.Mean[i] /= total
	}
	s.Driving /= total
	s.Brim /= total
	s.Unnoted /= total
	return s
}

package model

import (
	"math"

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
		}
	}
	for i := range s.Mean {
		s.Mean[i] /= total
	}
	s.Driving /= total
	s.Brim /= total
	return s
}

package model

import (
	"cmp"
	"math"
	"math/rand/v2"
	"slices"

	"gonum.org/v1/gonum/floats"
)

// How long until a question is decided is read off futures drawn from the posterior, not from the estimate: an
// estimate that happens to be large now would promise too much. A future takes the effect, the level and the
// coefficients from one account of the log, and its tanks from the recent ones.

const (
	futures     = 60
	futureLanes = 2 // of the grid: the likeliest
	futureKept  = 3 // histories of each pool
	recentTanks = 6
)

// wait gives the chance that the question is decided within 1, 2, ... tanks.
func (d *Design) wait(b rivals, q Question) []float64 {
	b = b.narrowed()
	rng := rand.New(rand.NewPCG(1974, uint64(q.Tank)))
	decided := make([]float64, q.Horizon)
	for range futures {
		if k := d.future(b.clone(), q, rng); k < q.Horizon {
			decided[k]++
		}
	}
	sum := 0.0
	for k, n := range decided {
		sum += n / futures
		decided[k] = sum
	}
	return decided
}

// narrowed keeps what a forecast needs of each account: the likeliest scatters, and a few histories under each. They stand for
// all, so the odds stay what they are.
func (b rivals) narrowed() rivals { return rivals{b.without.narrowed(), b.with.narrowed()} }

func (l lanes) narrowed() lanes {
	sorted := append(lanes(nil), l...)
	slices.SortStableFunc(sorted, func(a, b *pool) int { return cmp.Compare(b.logL, a.logL) })
	var out lanes
	for _, p := range sorted[:min(futureLanes, len(l))] {
		out = append(out, p.kept(futureKept))
	}
	lost := l.logL() - out.logL()
	for _, p := range out {
		p.logL += lost
	}
	return out
}

func (b rivals) clone() rivals { return rivals{b.without.clone(), b.with.clone()} }

// kept is a pool of the heaviest histories alone.
func (p *pool) kept(n int) *pool {
	c := p.clone()
	slices.SortStableFunc(c.histories, func(a, b *history) int { return cmp.Compare(b.logW, a.logW) })
	c.histories = c.histories[:min(n, len(c.histories))]
	sum := 0.0
	for _, h := range c.histories {
		sum += math.Exp(h.logW)
	}
	for _, h := range c.histories {
		h.logW -= math.Log(sum)
	}
	return c
}

// future draws one and counts the tanks, less one, until the question is decided.
func (d *Design) future(b rivals, q Question, rng *rand.Rand) int {
	w := b.draw(rng)
	n := len(d.Obs)
	for k := range q.Horizon {
		o := d.Obs[n-1-(k%min(recentTanks, n))]
		o.Work, o.Gap, o.Chained, o.Healthy = nil, 0, true, false
		o.Y = w.observe(&o, rng)
		quiet := role{quiet: true}
		b.without, _ = b.without.step(&o, quiet)
		b.with, _ = b.with.step(&o, role{quiet: true, tracked: 1})
		e := b.evidence(true)
		e.Tank, e.Tanks = n+k, n+k-q.Tank+1
		if q.Decided(e) {
			return k
		}
	}
	return q.Horizon
}

// A world is a truth drawn from the posterior, with what goes on by itself in it.
type world struct {
	p    *pool
	x    *history
	with float64 // 1 where the work has an effect
}

// draw takes a truth from the two accounts, each by its weight.
func (b rivals) draw(rng *rand.Rand) *world {
	u := rng.Float64()
	top := floats.LogSumExp([]float64{b.without.logL(), b.with.logL()})
	w := &world{}
	pick := func(l lanes, with float64) bool {
		for _, p := range l {
			for _, h := range p.histories {
				w.p, w.x, w.with = p, h, with
				if u -= math.Exp(p.logL + h.logW - top); u < 0 {
					return true
				}
			}
		}
		return false
	}
	if !pick(b.without, 0) {
		pick(b.with, 1)
	}
	w.p = w.p.clone()
	w.x = w.p.copyOf(w.x)
	w.x.jitter(w.p.n, rng)
	return w
}

// jitter draws the state from the history's normal and leaves nothing uncertain. The covariance may be singular, and its square
// root must not turn with its last digits as eigenvectors do: so a Cholesky factor that passes over what has no variance left.
func (h *history) jitter(n int, rng *rand.Rand) {
	root := make([]float64, n*n)
	for k := range n {
		row := root[k*n : k*n+k]
		z := rng.NormFloat64()
		left := h.p[k*n+k] - floats.Dot(row, row)
		if left <= 1e-12*h.p[k*n+k] {
			continue
		}
		d := math.Sqrt(left)
		h.x[k] += d * z
		root[k*n+k] = d
		for i := k + 1; i < n; i++ {
			root[i*n+k] = (h.p[i*n+k] - floats.Dot(root[i*n:i*n+k], row)) / d
			h.x[i] += root[i*n+k] * z
		}
	}
	clear(h.p)
}

// observe draws the world's next tank.
func (w *world) observe(o *Obs, rng *rand.Rand) float64 {
	p, s := w.p, w.p.scatter
	t := pass(o, role{tracked: w.with})
	phi := t.wander
	i := p.slot(slotWander)
	w.x.x[i] = phi*w.x.x[i] + s.Driving*math.Sqrt(s.Wander*(1-phi*phi))*rng.NormFloat64()
	_, next := p.brims(w.x)
	w.x.x[next] = s.Brim * rng.NormFloat64()
	y, fuel := p.design(w.x, t)
	y += w.x.x[next] / fuel
	sd := math.Sqrt(p.driving(o))
	if rng.Float64() < tailShare {
		sd *= tailFactor
	}
	p.settle(w.x, t)
	return y + math.Hypot(sd, math.Sqrt(o.Var))*rng.NormFloat64()
}

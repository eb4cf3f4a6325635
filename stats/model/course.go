package model

import "math"

// A Settled says what the whole log makes of the coefficients.
type Settled struct {
	Mean    []float64 // of the design's coefficients
	Driving float64   // log-scale scatter of a tank of typical length
	Brim    float64   // litres
	Unnoted float64   // log-scale scatter of a tank that nobody noted
}

// LookBack is how many tanks a step may lie back before the model takes it for the vehicle's own level.
const LookBack = onsetMemory - 1

// A Course is what one pass over a log found on its way, tank by tank.
type Course struct {
	Settled
	Expected, Sd []float64 // of ln(fuel/distance), before the tank was seen
	Step         []float64 // chance that an unnamed step came with the tank, once the next twenty-two were seen
	Then         []float64 // chance that one came with it and another with one of those
	Missed       []float64 // chance that its closing brim was badly missed, once the next two were seen
	Lost         []float64 // chance that its figures say nothing, likewise
	end          lanes
}

func newCourse(n int) Course {
	return Course{Expected: make([]float64, n), Sd: make([]float64, n), Step: make([]float64, n), Then: make([]float64, n), Missed: make([]float64, n), Lost: make([]float64, n)}
}

// shares are the lanes' weights.
func (l lanes) shares() []float64 {
	top := l.logL()
	out := make([]float64, len(l))
	for i, p := range l {
		out[i] = math.Exp(p.logL - top)
	}
	return out
}

// record notes the chances of what branched: of tanks that are about to be forgotten, or of all at the end.
func (c *Course) record(l lanes, i int, last bool) {
	shares := l.shares()
	for bit := 1; bit < onsetMemory; bit++ {
		if t := i + 1 - bit; t >= 0 && (last || bit == onsetMemory-1) {
			c.Step[t] = l.chance(shares, func(h *history) bool { return h.onsets>>bit&1 == 1 })
			c.Then[t] = l.chance(shares, func(h *history) bool { return h.onsets>>bit&1 == 1 && h.onsets&(1<<bit-1) != 0 })
		}
	}
	for back := range recentMemory - 1 {
		if t := i - back; t >= 0 && (last || back == recentMemory-2) {
			shift := markBits * (back + 1)
			c.Missed[t] = l.chance(shares, func(h *history) bool { return h.recent>>shift&markBrim != 0 })
			c.Lost[t] = l.chance(shares, func(h *history) bool { return h.recent>>shift&markLost != 0 })
		}
	}
}

// chance is the posterior chance of what holds for a history.
func (l lanes) chance(shares []float64, holds func(*history) bool) float64 {
	sum := 0.0
	for k, p := range l {
		for _, h := range p.histories {
			if holds(h) {
				sum += shares[k] * math.Exp(h.logW)
			}
		}
	}
	return sum
}

// Next is what would be expected of a tank like the recent ones, and Suppose what the chances of a step in the
// newest tanks would be if it came out at y.
func (d *Design) Next() Obs {
	n := min(recentTanks, len(d.Obs))
	o := d.Obs[len(d.Obs)-1]
	o.Work, o.Gap, o.Chained, o.Healthy = nil, 0, true, false
	o.X, o.E = make([]float64, len(d.Priors)), make([]float64, len(d.Priors))
	o.Km, o.Clump, o.Unnoted, o.Var = 0, 0, 0, 0
	for _, r := range d.Obs[len(d.Obs)-n:] {
		f := 1 / float64(n)
		o.Km, o.Clump, o.Unnoted, o.Var = o.Km+f*r.Km, o.Clump+f*r.Clump, o.Unnoted+f*r.Unnoted, o.Var+f*r.Var
		for k := range o.X {
			o.X[k] += f * r.X[k]
			o.E[k] += f * r.E[k]
		}
	}
	return o
}

// Suppose gives, for a next tank o, its expected mean and deviation, and the chance of a step within each of
// the newest tanks (the last element is the supposed one).
func (c *Course) Suppose(o Obs, tanks int) (mean, sd float64, steps []float64) {
	l := c.end.clone()
	l, expected := l.step(&o, role{fold: true, whole: true})
	shares := l.shares()
	for bit := min(tanks, onsetMemory-1); bit >= 1; bit-- {
		steps = append(steps, l.chance(shares, func(h *history) bool { return h.onsets>>bit&1 == 1 }))
	}
	return expected.mean, expected.sd(), steps
}

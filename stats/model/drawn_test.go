package model

import (
	"math"
	"math/rand/v2"

	"gonum.org/v1/gonum/stat/distuv"
)

// A drawn log has a truth: coefficients, scatters, steps, brims and the effect of its job are drawn from what the
// model itself believes, then the tanks from them. Over many such logs its odds and intervals must keep their word.
type drawn struct {
	d       *Design
	job     int
	changed bool
	effect  float64
}

// A plan is the kind of log that is drawn.
type plan struct {
	before, after int
	unnoted       float64 // share of the driving that nobody noted
	fault         bool    // the job is a repair: likelier where something went wrong
}

// draw makes one log. A repair that nobody would have called for is drawn again.
func (p plan) draw(rng *rand.Rand, changed bool) drawn {
	for {
		l, worse := p.attempt(rng, changed)
		if !p.fault || worse || rng.Float64() < 1/faultFactor {
			return l
		}
	}
}

// columns are the coefficients of a drawn log.
var columns = []int{level, cold, town, unnoted, start, startCold}

func (p plan) attempt(rng *rand.Rand, changed bool) (drawn, bool) {
	d := &Design{}
	s := Scatter{
		Driving: drivingScatter.at(rng.Float64()), Brim: brimScatter.at(rng.Float64()), Unnoted: unnotedScatter.at(rng.Float64()),
		Wander: wanderMost * sq(rng.Float64()), Doubt: 1,
	}
	if rng.Float64() < doubtShare {
		s.Doubt = doubtFactor
	}
	for _, c := range columns {
		d.Priors = append(d.Priors, priors[c])
	}
	mean, sd := d.prior(s.Doubt)
	truth := make([]float64, len(mean))
	for i := range truth {
		truth[i] = mean[i] + sd[i]*rng.NormFloat64()
	}
	l := drawn{d: d, job: p.before, changed: changed}
	work := Work{After: rng.Float64(), Scale: 1, DirtyMean: dirty, DirtyVar: dirty * dirty, RelaxVar: relaxSd * relaxSd}
	if p.fault {
		work.Fault = faultFactor
	}
	if changed {
		size := narrowSd
		if rng.Float64() >= narrowShare {
			size = wideSd
		}
		l.effect = size * rng.NormFloat64()
	}
	relax := 0.0
	if rng.Float64() < relaxShare {
		relax = relaxSd * rng.NormFloat64()
	}
	wander, mix := s.Driving*math.Sqrt(s.Wander)*rng.NormFloat64(), 0.0
	brim, onset, since := s.Brim*rng.NormFloat64(), 0.0, 0.0
	var lately []bool // whether a step came with each tank
	season := 2 * math.Pi * rng.Float64()
	for i := range p.before + p.after {
		o := skeleton(rng, season+float64(i)/4, p.unnoted)
		o.Chained = i > 0
		phi := math.Exp(-o.Km / wanderKm)
		wander = phi*wander + s.Driving*math.Sqrt(s.Wander*(1-phi*phi))*rng.NormFloat64()
		closing, strange := s.Brim*rng.NormFloat64(), 0.0
		hazard := -math.Expm1(-o.Km / OnsetKm)
		stepped := false
		switch u := rng.Float64(); {
		case u < hazard:
			onset += onsetSd * rng.NormFloat64()
			stepped = true
		case u < hazard+(1-hazard)*brimTail:
			closing *= brimFactor
		case u < hazard+(1-hazard)*(brimTail+lostShare):
			strange = lostSd * rng.NormFloat64()
		}
		y, starts := onset+wander+strange, 0.0
		for k := range truth {
			y += o.X[k] * truth[k]
			starts += o.E[k] * truth[k]
		}
		y += math.Log1p(max(starts, -0.5))
		if i >= p.before {
			after, noise := 1.0, 0.0
			if i == p.before {
				w := work
				o.Work = &w
				mix = segmentSd * rng.NormFloat64()
				after, noise = w.After, w.DirtyMean+math.Sqrt(w.DirtyVar)*rng.NormFloat64()
			}
			y += after*l.effect + noise + relax*math.Exp(-since/relaxKm)*relaxKm/o.Km*-math.Expm1(-after*o.Km/relaxKm)
			since += after * o.Km
		} else {
			lately = append(lately, stepped)
		}
		y += mix * o.Unnoted
		scatter := math.Sqrt(s.Driving*s.Driving*(1-s.Wander)*(wholeShare+(1-wholeShare)*o.Clump/typicalClump) + s.Unnoted*s.Unnoted*o.Unnoted)
		if rng.Float64() < tailShare {
			scatter *= tailFactor
		}
		fuel := o.Km * math.Exp(y)
		o.Y = y + scatter*rng.NormFloat64() + math.Sqrt(o.Var)*rng.NormFloat64() + (closing-brim)/fuel
		brim = closing
		d.Obs = append(d.Obs, o)
	}
	worse := false
	for _, stepped := range lately[max(0, len(lately)-faultTanks):] {
		worse = worse || stepped && onset > 0
	}
	return l, worse
}

// skeleton is a tank with its conditions and without its fuel.
func skeleton(rng *rand.Rand, season, unnotedShare float64) Obs {
	noted := 1 - unnotedShare*(0.5+0.5*rng.Float64())
	coldness := max(0, 9+8*math.Cos(season)+2*rng.NormFloat64())
	starts := 1.0/25 + rng.Float64()/20
	share := min(0.9, max(0.05, 0.4+0.2*rng.NormFloat64()))
	return Obs{
		Km: 330 + 180*rng.Float64(), Clump: 0.1 + 0.15*rng.Float64(), Unnoted: 1 - noted, Var: 1e-6,
		X: []float64{1, coldness, noted * share, 1 - noted, 0, 0}, E: []float64{0, 0, 0, 0, starts, starts * coldness / 15},
	}
}

// path asks for the evidence after every tank since the job.
func (l drawn) path() []Evidence {
	a, _ := l.d.Ask([]Question{{Tank: l.job, Tanks: len(l.d.Obs) - l.job, Brief: true}})
	return a[0].Path
}

// uniform is the p value, by Kolmogorov's limit, of numbers being evenly spread between 0 and 1.
func uniform(sorted []float64) float64 {
	n := float64(len(sorted))
	d := 0.0
	for i, u := range sorted {
		d = max(d, math.Abs(u-float64(i)/n), math.Abs(u-float64(i+1)/n))
	}
	x := d * (math.Sqrt(n) + 0.12 + 0.11/math.Sqrt(n)) // Stephens' correction for few values
	p := 0.0
	for k := 1.0; k < 100; k++ {
		p += 2 * math.Pow(-1, k-1) * math.Exp(-2*k*k*x*x)
	}
	return min(1, max(0, p))
}

// atMost is the chance of counting so many or more out of n where each has chance p.
func atMost(count, n int, p float64) float64 {
	return 1 - distuv.Binomial{N: float64(n), P: p}.CDF(float64(count)-1)
}

// step takes one pool alone through an observation.
func (p *pool) step(o *Obs, as role) {
	t := pass(o, as)
	p.choose(t, p.consider(t)-pruneBelow)
}

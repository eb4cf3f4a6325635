package model

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/floats"
	"gonum.org/v1/gonum/integrate/quad"
	"gonum.org/v1/gonum/mat"

	"brimlog/stats/calc"
)

// The same log by another road: every coefficient, every brim, every tank's wander and every transient is an unknown of its
// own, kept to the end, and all tanks so far are solved for at once. Only the rules are shared with the filter: fuel
// and starts are reckoned at what was expected of the tank, and a tank's two-part scatter is one normal afterwards.

// dense is a joint normal of all unknowns, with what was observed of it.
type dense struct {
	mean []float64
	cov  *mat.SymDense
	rows [][]float64 // slopes of the observations
	seen []float64   // observed
	r    []float64   // their variances
	logL float64
}

// given are mean and covariance of the unknowns after what was seen.
func (d *dense) given() (*mat.VecDense, *mat.Dense) {
	k, n := len(d.mean), len(d.rows)
	mean, cov := mat.NewVecDense(k, append([]float64{}, d.mean...)), mat.DenseCopyOf(d.cov)
	if n == 0 {
		return mean, cov
	}
	h := mat.NewDense(n, k, nil)
	residual := mat.NewVecDense(n, nil)
	for i, row := range d.rows {
		h.SetRow(i, row)
		residual.SetVec(i, d.seen[i]-mat.Dot(mat.NewVecDense(k, row), mean))
	}
	var hp, s, gain, moved, less mat.Dense
	hp.Mul(h, d.cov)
	s.Mul(&hp, h.T())
	for i := range n {
		s.Set(i, i, s.At(i, i)+d.r[i])
	}
	if err := gain.Solve(&s, &hp); err != nil { // S^-1 H P
		panic(err)
	}
	moved.Mul(gain.T(), residual)
	mean.AddVec(mean, moved.ColView(0))
	less.Mul(hp.T(), &gain)
	cov.Sub(cov, &less)
	return mean, cov
}

// see takes in y, of slope h about the unknowns' means, under a scatter of two parts on top of a known variance.
func (d *dense) see(y, expected float64, h []float64, known, driving float64) {
	mean, cov := d.given()
	slope := mat.NewVecDense(len(h), h)
	eta := mat.Dot(slope, mean)
	v := mat.Inner(slope, cov, slope)
	nu := y - expected
	parts := []struct{ share, r float64 }{{1 - tailShare, known + driving}, {tailShare, known + driving*tailFactor*tailFactor}}
	var posterior calc.Mixture // of h times the unknowns
	var logs []float64
	for _, p := range parts {
		s := v + p.r
		log := math.Log(p.share) - 0.5*(math.Log(2*math.Pi*s)+nu*nu/s)
		logs = append(logs, log)
		posterior = append(posterior, calc.Normal{Weight: math.Exp(log), Mean: eta + v/s*nu, Sd: math.Sqrt(v * p.r / s)})
	}
	d.logL += floats.LogSumExp(logs)
	// The one observation that would have led from the normal before to mean and deviation of the two parts.
	m, u := posterior.Mean(), posterior.Sd()*posterior.Sd()
	r := 1 / (1/u - 1/v)
	d.rows, d.seen, d.r = append(d.rows, h), append(d.seen, eta+(m-eta)*(v+r)/v), append(d.r, r)
}

// A denseJob is what was done within one tank, in one of the ways that its prior has.
type denseJob struct {
	tank   int
	work   Work
	effect float64 // variance; 0 for none
	relax  float64
}

// denseLog lays out the unknowns of a log and solves it tank by tank. at is the index of the effect.
func denseLog(obs []Obs, mean, sd []float64, s Scatter, job denseJob) (d *dense, at int) {
	d = &dense{}
	var variance []float64
	unknown := func(mean, v float64) int {
		d.mean, variance = append(d.mean, mean), append(variance, v)
		return len(d.mean) - 1
	}
	for i := range mean {
		unknown(mean[i], sd[i]*sd[i])
	}
	at = unknown(0, job.effect)
	relax := unknown(0, job.relax)
	ranIn := unknown(job.work.RunInMean, job.work.RunInVar)
	segment := unknown(0, segmentSd*segmentSd)
	apparent := unknown(0, job.work.LevelVar)
	wander := make([]int, len(obs))
	for i := range obs {
		wander[i] = unknown(0, s.Wander*s.Driving*s.Driving)
	}
	opens, closes := make([]int, len(obs)), make([]int, len(obs))
	for i, o := range obs {
		if opens[i] = unknown(0, s.Brim*s.Brim); i > 0 && o.Chained {
			opens[i] = closes[i-1]
		}
		closes[i] = unknown(0, s.Brim*s.Brim)
	}
	d.cov = mat.NewSymDense(len(d.mean), nil)
	for i, v := range variance {
		d.cov.SetSym(i, i, v)
	}
	for i := range obs {
		km := 0.0
		for j := i + 1; j < len(obs); j++ {
			km += obs[j].Km + obs[j].Gap
			d.cov.SetSym(wander[i], wander[j], s.Wander*s.Driving*s.Driving*math.Exp(-km/wanderKm))
		}
	}

	since := 0.0 // km from the job to the tank's beginning
	for i, o := range obs {
		now, _ := d.given()
		h := make([]float64, len(d.mean))
		starts, expected := 0.0, 0.0
		for k := range mean {
			h[k] = o.X[k]
			starts += o.E[k] * now.AtVec(k)
		}
		h[wander[i]] = 1
		noise := o.Var
		if i >= job.tank {
			after := 1.0
			if i == job.tank {
				after, since = job.work.After, 0
				noise += job.work.DirtyVar
				expected += job.work.DirtyMean
			} else {
				since += o.Gap
			}
			h[at], h[segment], h[apparent] = after, o.Unnoted, 1
			h[relax] = meanFade(since, after, o.Km, relaxKm)
			if job.work.RunInVar > 0 {
				h[ranIn] = meanFade(since, after, o.Km, runInKm)
			}
			since += after * o.Km
		}
		for k := range h {
			expected += h[k] * now.AtVec(k)
		}
		expected += math.Log(1 + starts)
		for k := range mean {
			h[k] += o.E[k] / (1 + starts)
		}
		fuel := o.Km * math.Exp(expected)
		h[opens[i]], h[closes[i]] = -1/fuel, 1/fuel
		expected -= now.AtVec(opens[i]) / fuel
		own := s.Driving * s.Driving * (1 - s.Wander) * (0.4 + 0.6*o.Clump/0.2)
		d.see(o.Y, expected, h, noise, own+s.Unnoted*s.Unnoted*o.Unnoted)
	}
	return d, at
}

// meanFade is the mean over a tank of what fades from 1 with the distance since the job, by quadrature.
func meanFade(since, after, km, fade float64) float64 {
	return quad.Fixed(func(x float64) float64 { return math.Exp(-(since + x) / fade) }, 0, after*km, 64, nil, 0) / km
}

// denseCase is a log of 20 tanks with everything that varies: lengths, gaps, starts, unnoted driving, a wild tank.
func denseCase() (obs []Obs, mean, sd []float64) {
	mean, sd = []float64{math.Log(0.115), 0.004, 0.16, 0.4}, []float64{0.5, 0.0012, 0.05, 0.4}
	for i := range 20 {
		a, b, c := math.Sin(1.7*float64(i)), math.Sin(2.9*float64(i)+1), math.Sin(4.3*float64(i)+2)
		o := Obs{
			Km: 400 + 110*a, Chained: i > 0 && i != 6, X: []float64{1, 9 + 8*b, 0.4 + 0.3*c, 0}, E: []float64{0, 0, 0, 0.08 + 0.04*a},
			Clump: 0.2 + 0.1*b, Unnoted: max(0, 0.5*c), Var: 2e-6,
		}
		if i == 6 {
			o.Gap = 270
		}
		o.Y = math.Log(0.118) + 0.0045*o.X[1] + 0.14*o.X[2] + math.Log1p(0.5*o.E[3]) + 0.03*math.Sin(7.1*float64(i)+0.5)
		if i == 4 {
			o.Y += 0.15
		}
		if i >= 12 {
			o.Y -= 0.1
		}
		obs = append(obs, o)
	}
	return obs, mean, sd
}

var denseScatter = Scatter{Driving: 0.026, Wander: 0.15, Brim: 0.9, Unnoted: 0.05}

// A job of which nothing is known but its effect, followed for eight tanks.
func TestFilterAgreesWithDenseSolve(t *testing.T) {
	checkDense(t, Work{After: 0.35, Scale: 1}, 20)
}

// A job with all that may come with one. Three tanks on, while the filter still tells all its ways apart.
func TestFilterAgreesWithDenseSolveOfTransients(t *testing.T) {
	checkDense(t, Work{
		After: 0.35, Scale: 0.5, DirtyMean: 0.03, DirtyVar: 9e-4, RelaxVar: sq(0.03),
		RunInMean: runInMean, RunInVar: runInSd * runInSd, LevelVar: apparentSd * apparentSd,
	}, 15)
}

func checkDense(t *testing.T, work Work, until int) {
	t.Helper()
	const job = 12
	obs, mean, sd := denseCase()
	obs = obs[:until]
	without, with := lanes{newPool(mean, sd, denseScatter)}, lanes{newPool(mean, sd, denseScatter)}
	ordinary := 0.0
	for i := range obs {
		o := obs[i]
		plain, tracked := role{quiet: true}, role{quiet: true}
		if i >= job {
			tracked.tracked = 1
		}
		if i == job {
			o.Work = &work
			tracked.tracked, tracked.begins = work.After, true
		}
		without.step(&o, plain)
		with.step(&o, tracked)
		ordinary += math.Log1p(-brimTail-lostShare) - (o.Km+o.Gap)/OnsetKm
	}

	relaxes := []denseJob{{relax: 0}}
	weights := []float64{0}
	if work.RelaxVar > 0 {
		relaxes, weights = []denseJob{{relax: 0}, {relax: work.RelaxVar}}, []float64{math.Log(1 - relaxShare), math.Log(relaxShare)}
	}
	large := (1 - narrowShare) * work.Scale
	var logWithout, logWith []float64
	var effect calc.Mixture
	for k, way := range relaxes {
		way.tank, way.work = job, work
		d, _ := denseLog(obs, mean, sd, denseScatter, way)
		logWithout = append(logWithout, weights[k]+d.logL)
		for _, size := range []struct{ share, sd float64 }{{1 - large, narrowSd}, {large, wideSd}} {
			way.effect = sq(size.sd * work.Scale)
			d, at := denseLog(obs, mean, sd, denseScatter, way)
			log := weights[k] + math.Log(size.share) + d.logL
			m, c := d.given()
			logWith = append(logWith, log)
			effect = append(effect, calc.Normal{Weight: math.Exp(log), Mean: m.AtVec(at), Sd: math.Sqrt(c.At(at, at))})
		}
	}
	agree(t, "log likelihood without an effect", without.logL()-ordinary, floats.LogSumExp(logWithout), 1e-8)
	agree(t, "log likelihood with an effect", with.logL()-ordinary, floats.LogSumExp(logWith), 1e-8)
	got := with.effect(with.logL(), slotTrack)
	if len(got) != len(effect) {
		t.Errorf("%d parts, want %d", len(got), len(effect))
	}
	agree(t, "mean effect", got.Mean(), effect.Mean(), 1e-8)
	agree(t, "its deviation", got.Sd(), effect.Sd(), 1e-8)
	if odds := with.logL() - without.logL(); odds < 1 || math.Abs(effect.Mean()) < 0.02 {
		t.Errorf("log odds %.2f, effect %.3f: the case has nothing to say", odds, effect.Mean())
	}
	t.Logf("effect %.4f ± %.4f, log odds %.3f", effect.Mean(), effect.Sd(), with.logL()-without.logL())
}

package engine

import (
	"math"

	"brimlog/ingest/ahead"
	"brimlog/ingest/quantity"
)

// A Comparison is an engine in its present tune against the same engine healthy.
type Comparison struct {
	Fuel [Kinds]float64 // fuel for the same work; 1 = as healthy

	// Full-throttle torque at 1500, 2500 and 4000 rev/min against healthy, and what a healthy one gives there in bar.
	Torque        [3]float64
	HealthyTorque [3]float64

	IdleVacuum, HealthyIdleVacuum float64 // inHg
	Cranking, HealthyCranking     float64 // bar, as a compression gauge would show
	Idles                         bool    // it can hold its idle at all
	Unreached                     int     // how many of the four loads full throttle no longer carries
	Worst                         Balance // the largest failings of the accounts over all points
}

// hopeless caps a ratio where the engine hardly runs: past it no owner drives on to measure.
const hopeless = 3.0

// Compare runs both states over the points. The error is a *BoundError.
func Compare(e Engine, t Tune) (Comparison, error) {
	all, err := CompareEach(e, t)
	if err != nil {
		return Comparison{}, err
	}
	return all[0], nil
}

// CompareEach is Compare for several tunes of one engine, whose healthy state is run once.
func CompareEach(e Engine, tunes ...Tune) ([]Comparison, error) {
	if err := e.Check(); err != nil {
		return nil, err
	}
	e = e.orCommon()
	for _, t := range tunes {
		if err := t.Check(); err != nil {
			return nil, err
		}
	}
	cranking := e.cranked(0, 0)
	leaks := map[float64]float64{} // by the loss that they make: tunes taken apart share theirs
	for _, t := range tunes {
		loss := quantity.Or(t.CompressionLoss, 0)
		if _, found := leaks[loss]; !found {
			leaks[loss] = e.leakFor(loss, cranking)
		}
	}
	healthy := e.healthy()
	all := make([]Comparison, len(tunes))
	var running ahead.Group
	for i, t := range tunes {
		running.Go(func() { all[i] = e.compare(t, leaks[quantity.Or(t.CompressionLoss, 0)], healthy, cranking) })
	}
	running.Wait()
	return all, nil
}

// compare sets one tune, with its leak, beside the healthy state. An unmeasured tune is the healthy state itself.
func (e Engine) compare(t Tune, leak float64, healthy [points]Outcome, cranking float64) Comparison {
	tuned, cranks := healthy, cranking
	if t.Measured() {
		phase := quantity.Or(t.CamPhaseDeg, 0)
		tuned = e.outcomes(phase, leak, func(c *cylinder, i int, p point) Outcome {
			c.dead = t.Dead
			return c.carryFrom(1000*healthy[i].ManifoldKPa, p, e.tunedFeed(p, t, healthy[i].Cycle))
		})
		if phase != 0 || leak > 0 {
			cranks = e.cranked(phase, leak)
		}
	}
	c := Comparison{
		IdleVacuum:        vacuum(tuned[idling].ManifoldKPa * 1000),
		HealthyIdleVacuum: vacuum(healthy[idling].ManifoldKPa * 1000),
		Cranking:          cranks, HealthyCranking: cranking,
		Idles: tuned[idling].Reached,
	}
	c.weigh(healthy, tuned)
	return c
}

// healthy is the engine as it should be, at each of the points.
func (e Engine) healthy() [points]Outcome {
	return e.outcomes(0, 0, func(c *cylinder, _ int, p point) Outcome { return c.carry(p, e.healthyFeed(p)) })
}

// outcomes runs one cylinder over the points, each by itself.
func (e Engine) outcomes(phase, leak float64, carry func(*cylinder, int, point) Outcome) (out [points]Outcome) {
	var running ahead.Group
	for i, p := range e.points() {
		running.Go(func() { out[i] = carry(newCylinder(e, phase, leak, p.rpm), i, p) })
	}
	running.Wait()
	return out
}

func (e Engine) healthyFeed(p point) feed {
	if p.idle {
		return func(float64) (float64, float64, float64) { return e.idleLambda(), -idleSpark, 0 }
	}
	return func(manifold float64) (float64, float64, float64) {
		return e.cruiseLambda() * e.enrichment(manifold), math.NaN(), bestHalf(manifold)
	}
}

// tunedFeed has the three couplings: vacuum lost to a late cam or spark opens the circuit for full load, takes back
// the vacuum advance, and what the cam did to the distributor is in the tune's ignition error.
func (e Engine) tunedFeed(p point, t Tune, healthy Cycle) feed {
	late := t.IgnitionError()
	if p.idle {
		lambda := quantity.Or(t.LambdaIdle, e.idleLambda())
		return func(float64) (float64, float64, float64) { return lambda, -(idleSpark + late), 0 }
	}
	lambda := quantity.Or(t.Lambda, e.cruiseLambda())
	set := healthy.SparkDeg - vacuumAdvance(healthy.ManifoldKPa*1000) + late
	return func(manifold float64) (float64, float64, float64) {
		return lambda * e.enrichment(manifold), -(set + vacuumAdvance(manifold)), 0
	}
}

// weigh fills in the ratios.
func (c *Comparison) weigh(healthy, tuned [points]Outcome) {
	var ratio [points]float64
	for i := range points {
		ratio[i] = fuelRatio(healthy[i], tuned[i])
		if !tuned[i].Reached && i != idling {
			c.Unreached++
		}
		for _, b := range []Balance{healthy[i].Balance, tuned[i].Balance} {
			c.Worst.MassPct = max(c.Worst.MassPct, math.Abs(b.MassPct))
			c.Worst.EnergyPct = max(c.Worst.EnergyPct, math.Abs(b.EnergyPct))
		}
	}
	for kind := range share {
		for i, w := range share[kind] {
			c.Fuel[kind] += w * ratio[i]
		}
	}
	for i, p := range []int{fullLow, fullMiddle, fullHigh} {
		c.HealthyTorque[i] = healthy[p].BMEP
		c.Torque[i] = max(0, tuned[p].BMEP/healthy[p].BMEP)
	}
}

// fuelRatio is fuel for the same work. Where full throttle gives less than the work, the rest is fetched at the same
// rate by a lower gear or a longer pull; past hopeless, and where the charge is blown out again, it is hopeless.
func fuelRatio(healthy, tuned Outcome) float64 {
	work := max(tuned.BMEP, healthy.BMEP/hopeless)
	ratio := tuned.FuelKg / healthy.FuelKg * healthy.BMEP / work
	switch {
	case !tuned.Reached && tuned.BMEP <= healthy.BMEP/hopeless, ratio > hopeless, ratio < 1/hopeless:
		return hopeless
	}
	return ratio
}

package engine

import (
	"math"
	"testing"

	"brimlog/ingest/quantity"
)

// A reading that moves a little moves the answer a little, wherever it stands: a sweep is split until every stretch of it is all
// but straight, which one with a jump in it never becomes.
func TestNoJumps(t *testing.T) {
	healthy, sound := ours.healthy(), ours.cranked(0, 0)
	for name, r := range map[string]struct {
		low, high float64
		set       func(*Tune, float64)
	}{
		"cam_phase_deg":    {-36, 36, func(u *Tune, x float64) { u.CamPhaseDeg = x }},
		"ignition_deg":     {-30, 30, func(u *Tune, x float64) { u.IgnitionDeg = x }},
		"lambda":           {0.70, 1.30, func(u *Tune, x float64) { u.Lambda = x }},
		"lambda_idle":      {0.70, 1.20, func(u *Tune, x float64) { u.LambdaIdle = x }},
		"compression gone": {0, 0.5, func(u *Tune, x float64) { u.CompressionLoss = x }},
		"one cylinder's compression_bar": {1, 10, func(u *Tune, x float64) {
			bars := []float64{10, 10, 10, 10, 10, x}
			u.CompressionLoss, u.Dead = LossFromBar(bars, quantity.Unknown), DeadFromBar(bars)
		}},
	} {
		fuel := func(x float64) float64 {
			tune := Unmeasured()
			r.set(&tune, x)
			return inTown(tune, healthy, sound)
		}
		const stretches = 6
		wide := (r.high - r.low) / stretches
		least, most := math.Inf(1), math.Inf(-1)
		for i := range stretches {
			a := r.low + float64(i)*wide
			fa, fb := fuel(a), fuel(a+wide)
			least, most = min(least, fa, fb), max(most, fa, fb)
			if x := jump(fuel, a, a+wide, fa, fb, 7); !math.IsNaN(x) {
				t.Errorf("%s: the fuel jumps near %.4g", name, x)
			}
		}
		if most-least < 0.004 {
			t.Errorf("%s: the fuel changes by %.4f over the whole sweep", name, most-least)
		}
	}
}

// jump is where a function of that value at either end still bends by half of what counts as a jump, after so many splits; NaN
// where it does not.
func jump(of func(float64) float64, a, b, fa, fb float64, splits int) float64 {
	const counts = 0.004 // of the fuel
	middle := (a + b) / 2
	fm := of(middle)
	switch {
	case math.Abs(fm-(fa+fb)/2) < counts/2:
		return math.NaN()
	case splits == 0:
		return middle
	}
	if x := jump(of, a, middle, fa, fm, splits-1); !math.IsNaN(x) {
		return x
	}
	return jump(of, middle, b, fm, fb, splits-1)
}

// inTown is the town's fuel ratio by the points that make most of it.
func inTown(tune Tune, healthy [points]Outcome, sound float64) float64 {
	leak := ours.leakFor(quantity.Or(tune.CompressionLoss, 0), sound)
	sum, weight := 0.0, 0.0
	for _, i := range []int{idling, slow, pulling} {
		p := ours.points()[i]
		c := newCylinder(ours, quantity.Or(tune.CamPhaseDeg, 0), leak, p.rpm)
		c.dead = tune.Dead
		o := c.carryFrom(1000*healthy[i].ManifoldKPa, p, ours.tunedFeed(p, tune, healthy[i].Cycle))
		sum, weight = sum+share[Town][i]*fuelRatio(healthy[i], o), weight+share[Town][i]
	}
	return sum / weight
}

// What nobody tells of an engine is taken as usual: telling just that changes nothing.
func TestNoJumpWhereAKeyAppears(t *testing.T) {
	u := quantity.Unknown
	bare := Engine{DisplacementCC: u, Cylinders: u, CompressionRatio: u, IdleRPM: u, Card: UnknownCard()}
	late := func(tune *Tune) { tune.CamPhaseDeg, tune.Lambda = -12, 0.95 }
	want := compare(t, bare, late)
	for name, tell := range map[string]func(*Engine){
		"cylinders":    func(e *Engine) { e.Cylinders = 4 },
		"displacement": func(e *Engine) { e.DisplacementCC = 1800 },
		"ratio":        func(e *Engine) { e.CompressionRatio = 8.8 },
		"idle":         func(e *Engine) { e.IdleRPM = 800 },
		"card":         func(e *Engine) { e.Card = touring },
	} {
		e := bare
		tell(&e)
		if got := compare(t, e, late); got.Fuel != want.Fuel || got.Torque != want.Torque {
			t.Errorf("%s told as it was taken anyhow turns %v into %v", name, want.Fuel, got.Fuel)
		}
	}
}

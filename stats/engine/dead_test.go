package engine

import (
	"math"
	"testing"
)

// Common practice: a cylinder that does not fire costs about its share of the fuel and its friction, 20 to 35 % in a four, 7 to
// 15 % in an eight; and it takes its share of the torque, and some for being turned.
func TestDeadCylinder(t *testing.T) {
	for _, e := range others[:2] {
		for _, c := range []struct{ cylinders, low, high float64 }{{4, 20, 35}, {8, 7, 15}} {
			e.DisplacementCC, e.Cylinders = e.DisplacementCC/e.Cylinders*c.cylinders, c.cylinders
			got := compare(t, e, func(u *Tune) { u.Dead = 1 / c.cylinders })
			for k := range Kinds {
				if more := 100 * (got.Fuel[k] - 1); k != Track && (more < c.low || more > c.high) {
					t.Errorf("%g cc, one of %g dead, %v: %+.1f %% fuel, want %g to %g", e.DisplacementCC, c.cylinders, k, more, c.low, c.high)
				}
			}
			for i, torque := range got.Torque {
				if lost := 1 - torque; lost < 1/c.cylinders || lost > 1.5/c.cylinders {
					t.Errorf("%g cc, one of %g dead: torque %d falls by %.0f %%", e.DisplacementCC, c.cylinders, i, 100*lost)
				}
			}
			if got.IdleVacuum > got.HealthyIdleVacuum-0.3 || got.Worst.MassPct > 0.1 || got.Worst.EnergyPct > 0.1 {
				t.Errorf("%g cc, one of %g dead: %+v", e.DisplacementCC, c.cylinders, got)
			}
		}
	}
}

// A cylinder that loses its pressure bit by bit fires less and less often, and is then no leak as well.
func TestDeadFromBar(t *testing.T) {
	for _, c := range []struct {
		bars       []float64
		dead, loss float64
	}{
		{[]float64{10, 10, 10, 10}, 0, 0},
		{[]float64{10, 10, 10, 5}, 0, 0.125},
		{[]float64{10, 10, 10, 3.75}, 0.125, 0.5 * 0.625 / 4},
		{[]float64{10, 10, 10, 2.5}, 0.25, 0},
		{[]float64{10, 0, 10, 0}, 0.5, 0},
		{[]float64{3, 3, 3, 3}, 0, 0}, // alike: a gauge or a starter as likely as all four
		{[]float64{0, 0}, 0, math.NaN()},
		{nil, 0, math.NaN()},
	} {
		if got := DeadFromBar(c.bars); math.Abs(got-c.dead) > 1e-9 {
			t.Errorf("%v: %g dead, want %g", c.bars, got, c.dead)
		}
		if got := LossFromBar(c.bars, math.NaN()); math.IsNaN(got) != math.IsNaN(c.loss) || math.Abs(got-c.loss) > 1e-9 {
			t.Errorf("%v: %g of the compression gone, want %g", c.bars, got, c.loss)
		}
	}
	none := Unmeasured()
	if none.Measured() {
		t.Error("nothing measured counts as measured")
	}
	if none.Dead = 0.25; !none.Measured() {
		t.Error("a dead cylinder counts as unmeasured")
	}
}

package model

import (
	"math"
	"testing"
)

// A call for repair speaks for a lately risen consumption, in the main pass and in a branch alike; for one that fell it says
// nothing.
func TestRepairIsCalledForByMoreFuelAlone(t *testing.T) {
	for _, branch := range []bool{false, true} {
		for _, c := range []struct{ step, low, high float64 }{{0.2, 0.8 * math.Log(faultFactor), math.Log(faultFactor) + 1e-9}, {-0.2, -0.01, 0.1}} {
			p := newPool([]float64{math.Log(0.115)}, []float64{0.5}, Scatter{Driving: 0.026, Brim: 0.7})
			for i := range 16 {
				if branch && i == 10 {
					p.branched()
				}
				o := Obs{Km: 400, Clump: 0.2, X: []float64{1}, E: []float64{0}, Chained: i > 0, Y: math.Log(0.11) + 0.02*math.Sin(5.3*float64(i))}
				if i >= 12 {
					o.Y += c.step
				}
				p.step(&o, role{fold: true})
			}
			before := p.logL
			p.suspect(faultFactor)
			if gain := p.logL - before; gain < c.low || gain > c.high {
				t.Errorf("branch %v, a step of %+.1f: the call speaks for it by %.2f, want %.2f to %.2f", branch, c.step, gain, c.low, c.high)
			}
		}
	}
}

package engine

import (
	"math"
	"testing"
)

// With the valves shut, the walls deaf, the burn at a stroke and one specific heat, the cycle is the textbook's Otto
// cycle, whose efficiency is 1 - r^(1-gamma) (any textbook of thermodynamics).
func TestIdealCycle(t *testing.T) {
	for _, c := range []struct{ gamma, ratio, want float64 }{
		{1.4, 8, 0.5647}, {1.4, 9, 0.5848}, {1.4, 10, 0.6019},
		{1.3, 8, 0.4641}, {1.3, 9, 0.4827}, {1.3, 10, 0.4988},
	} {
		cyl := newCylinder(Engine{DisplacementCC: 2000, Cylinders: 4, CompressionRatio: c.ratio, Card: touring}, 0, 0, 3000)
		cyl.gas = gas{a: rGas / (c.gamma - 1)}
		cyl.heatless = true
		clear(cyl.intake)
		clear(cyl.exhaust)
		r := cyl.begin(operating{rpm: 3000, manifold: 60e3, pipe: outside})
		r.perSecond = 6 * 3000
		r.burn = wiebe{spark: -2, duration: 4 / wiebeEnd}
		r.heatPerKg = 1.2e6
		sum := r.cycle()
		if got := sum.work / sum.heat; math.Abs(got-c.want) > 0.001 {
			t.Errorf("gamma %g, ratio %g: efficiency %.4f, want %.4f", c.gamma, c.ratio, got, c.want)
		}
	}
}

// The critical pressure ratio and the choked flow of a perfect gas are textbook formulas.
func TestFlow(t *testing.T) {
	const k, p, temp, area = portGamma, 2e5, 350.0, 1e-4
	critical := math.Pow(2/(k+1), k/(k-1))
	choked := area * p * math.Sqrt(k/(rGas*temp)) * math.Pow(2/(k+1), (k+1)/(2*(k-1)))
	for _, down := range []float64{0.1, 0.3, critical - 0.02} {
		if got := flow(area, p, temp, down*p); math.Abs(got/choked-1) > 1e-9 {
			t.Errorf("flow to %.2f of the pressure is %.3g kg/s, want it choked at %.3g", down, got, choked)
		}
	}
	last := math.Inf(1)
	for down := critical; down <= 1; down += 0.001 {
		got := flow(area, p, temp, down*p)
		if got > last*(1+1e-12) {
			t.Fatalf("flow rises as the pressures level, at %.3f", down)
		}
		last = got
	}
	if got := flow(area, p, temp, p); got != 0 {
		t.Errorf("flow between equal pressures is %g", got)
	}
}

// Geometry against its own definition: the volume at the dead centres, and its change against a difference quotient.
func TestVolume(t *testing.T) {
	g := newGeometry(500e-6, 9)
	top, _ := g.volume(0)
	bottom, _ := g.volume(180)
	if math.Abs(bottom/top-9) > 1e-9 || math.Abs(bottom-top-500e-6) > 1e-12 {
		t.Errorf("volumes %g and %g, want a ratio of 9 and 500 cc between them", top, bottom)
	}
	for deg := -170.0; deg < 540; deg += 13 {
		_, dv := g.volume(deg)
		a, _ := g.volume(deg - 0.01)
		b, _ := g.volume(deg + 0.01)
		if want := (b - a) / 0.02; math.Abs(dv-want) > 1e-9 {
			t.Errorf("dV at %g is %g, want %g", deg, dv, want)
		}
	}
}

package engine

import (
	"math"
	"testing"
)

// ours is the engine of the demo's vehicle.
var ours = Engine{DisplacementCC: 2600, Cylinders: 6, CompressionRatio: 8.8, IdleRPM: 750, Card: Card{20, 56, 56, 20, 40}}

// others are engines of other makes of cylinder: a small four, a large eight, an injected four with a warm cam.
var others = []Engine{
	{DisplacementCC: 1000, Cylinders: 4, CompressionRatio: 8.5, IdleRPM: 850, Card: Card{10, 50, 50, 10, 36}},
	{DisplacementCC: 5000, Cylinders: 8, CompressionRatio: 8.2, IdleRPM: 600, Card: Card{24, 64, 66, 22, 42}},
	{DisplacementCC: 2000, Cylinders: 4, CompressionRatio: 9.5, IdleRPM: 850, Injection: true, Card: Card{24, 64, 64, 24, 38}},
	ours,
}

// at runs a healthy engine at one manifold pressure with a mixture and where half is to be burnt.
func at(e Engine, rpm, manifold, lambda, centre float64) Cycle {
	op := operating{rpm: rpm, manifold: manifold, pipe: pipePressure(rpm, manifold), lambda: lambda, spark: math.NaN(), centre: centre}
	return newCylinder(e, 0, 0, rpm).begin(op).settle(op)
}

// Heywood, section 9.1 and common practice: best torque has half burnt 8 to 12 degrees after top centre, where it is flat, so half
// a degree more is allowed; 5 degrees off best spark cost about 1 %, 10 degrees 3 to 4 %, early as late, and a little more on a
// light throttle, where friction takes a greater share.
func TestBestSpark(t *testing.T) {
	for _, e := range others {
		for _, run := range []struct{ rpm, manifold, latest, most5, most10 float64 }{{2500, 98e3, 12, 0.013, 0.042}, {2000, 50e3, 13, 0.016, 0.055}} {
			best, centre := 0.0, 0.0
			var curve []float64
			for c := 0.0; c < 25; c += 0.5 {
				y := at(e, run.rpm, run.manifold, 1, c)
				curve = append(curve, y.BMEP)
				if y.BMEP > best {
					best, centre = y.BMEP, c
				}
			}
			if centre < 8 || centre > run.latest { // a light throttle burns slowly, and a small cylinder loses more heat
				t.Errorf("%g cc at %g rev/min, %g kPa: half burnt at %g, want 8 to 12", e.DisplacementCC, run.rpm, run.manifold/1e3, centre)
			}
			for i := 1; i < len(curve); i++ { // one top, and no ripple that a solver left
				if rises := float64(i)*0.5 <= centre; rises && curve[i] < curve[i-1]*(1-1e-4) || !rises && curve[i] > curve[i-1]*(1+1e-4) {
					t.Errorf("%g cc at %g rev/min, %g kPa: torque ripples at %g, %.4f after %.4f", e.DisplacementCC, run.rpm, run.manifold/1e3, float64(i)*0.5, curve[i], curve[i-1])
				}
			}
			spark := at(e, run.rpm, run.manifold, 1, centre).SparkDeg
			for _, off := range []struct{ deg, low, high float64 }{{5, 0.005, run.most5}, {10, 0.024, run.most10}} {
				for _, sign := range []float64{-1, 1} {
					op := operating{rpm: run.rpm, manifold: run.manifold, pipe: pipePressure(run.rpm, run.manifold), lambda: 1, spark: -spark + sign*off.deg}
					y := newCylinder(e, 0, 0, run.rpm).begin(op).settle(op)
					if lost := 1 - y.BMEP/best; lost < off.low || lost > off.high {
						t.Errorf("%g cc, %g kPa: %g degrees off best spark cost %.2f %%, want %g to %g", e.DisplacementCC, run.manifold/1e3, sign*off.deg, 100*lost, 100*off.low, 100*off.high)
					}
				}
			}
		}
	}
}

// Common practice, Heywood section 7.1: best power lies at lambda 0.87 to 0.92, best economy at 1.05 to 1.15.
func TestBestMixture(t *testing.T) {
	for _, e := range others {
		strongest, thriftiest := 0.0, math.Inf(1)
		power, economy := 0.0, 0.0
		for l := 0.75; l < 1.3; l += 0.01 {
			if y := at(e, 2500, 98e3, l, 9); y.BMEP > strongest {
				strongest, power = y.BMEP, l
			}
			c := newCylinder(e, 0, 0, 2000)
			y := c.carry(point{rpm: 2000, bmep: 2.5}, func(float64) (float64, float64, float64) { return l, math.NaN(), 9 })
			if y.FuelKg < thriftiest {
				thriftiest, economy = y.FuelKg, l
			}
		}
		if power < 0.865 || power > 0.925 || economy < 1.045 || economy > 1.155 {
			t.Errorf("%g cc: strongest at lambda %.2f, thriftiest at %.2f", e.DisplacementCC, power, economy)
		}
	}
}

// gramsPerKWh is the brake fuel consumption.
func (c Cycle) gramsPerKWh(sweptM3 float64) float64 {
	return c.FuelKg * 1e3 / (c.BMEP * 1e5 * sweptM3 / 3.6e6)
}

// Common practice for petrol engines of the time: at full load 260 to 330 g/kWh, volumetric efficiency 0.72 to 0.88 where they pull
// best; without pressure waves in the pipes, and with mild cams, it has fallen to 0.68 at 4000 rev/min.
func TestFullLoad(t *testing.T) {
	for _, e := range others {
		healthy := e.healthy()
		for p, least := range map[int]float64{fullLow: 0.72, fullMiddle: 0.72, fullHigh: 0.72} {
			y := healthy[p]
			if g := y.gramsPerKWh(e.DisplacementCC * 1e-6 / e.Cylinders); g < 260 || g > 330 {
				t.Errorf("%g cc at %g rev/min: %.0f g/kWh", e.DisplacementCC, y.RPM, g)
			}
			if y.Filling < least || y.Filling > 0.88 {
				t.Errorf("%g cc at %g rev/min: volumetric efficiency %.3f", e.DisplacementCC, y.RPM, y.Filling)
			}
		}
		// idle: 0.30 to 0.32 L/h a litre (US DOE fact 861), older carburettors to 0.50 (common practice)
		y := healthy[idling]
		litres := y.FuelKg * e.Cylinders * y.RPM / 2 * 60 / 0.745 / (e.DisplacementCC / 1000)
		if litres < 0.25 || litres > 0.52 {
			t.Errorf("%g cc idles on %.2f L/h a litre", e.DisplacementCC, litres)
		}
		// published workshop text: 17 to 21 inHg at a steady idle
		if v := vacuum(y.ManifoldKPa * 1000); v < 16 || v > 22 {
			t.Errorf("%g cc idles at %.1f inHg", e.DisplacementCC, v)
		}
	}
}

// Finer steps must not move the answer.
func TestStepsAreFineEnough(t *testing.T) {
	for _, rpm := range []float64{600, 1500, 4000} {
		op := operating{rpm: rpm, manifold: 45e3, pipe: outside, lambda: 1, spark: -20}
		coarse := newCylinder(ours, 18, 0, rpm)
		fine := newCylinder(ours, 18, 0, rpm/4)
		a, b := coarse.begin(op).settle(op), fine.begin(op).settle(op)
		if math.Abs(a.FuelKg/b.FuelKg-1) > 0.002 || math.Abs(a.IMEP-b.IMEP) > 0.02 {
			t.Errorf("%g rev/min: %d steps give %g kg and %.3f bar, %d steps %g and %.3f", rpm, len(coarse.deg)/2, a.FuelKg, a.IMEP, len(fine.deg)/2, b.FuelKg, b.IMEP)
		}
	}
}

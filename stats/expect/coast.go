package expect

import (
	"math"

	"gonum.org/v1/gonum/integrate/quad"
)

// Turning wheels and shafts count as so much more mass: rolling out of gear, and pulling in top gear (spans of 0.03 to
// 0.05).
const (
	coastInertia = 0.04
	pullInertia  = 0.05
)

// A resistance is what holds a vehicle back on the level, N: a part that does not change, and one with the square of
// the speed.
type resistance struct{ plain, square float64 } // N, N s2/m2

func (f figures) resistance(mass float64) resistance {
	return resistance{mass * gravity * f.rolling, 0.5 * airDensity(f.airC, f.altitudeM) * f.area}
}

func (r resistance) at(v float64) float64 { return r.plain + r.square*v*v }

// coast is the seconds from one speed down to another, m/s, out of gear.
func (r resistance) coast(mass, from, to float64) float64 {
	return mass * (1 + coastInertia) * quad.Fixed(func(v float64) float64 { return 1 / r.at(v) }, to, from, 12, nil, 0)
}

// pull is the seconds from one speed up to another in top gear with the throttle open; force (N) is what the wheels
// push with at a speed. It is infinite where they can't.
func (r resistance) pull(mass, from, to float64, force func(v float64) float64) float64 {
	for _, v := range []float64{from, (from + to) / 2, to} {
		if force(v) <= r.at(v) {
			return math.Inf(1)
		}
	}
	return mass * (1 + pullInertia) * quad.Fixed(func(v float64) float64 { return 1 / (force(v) - r.at(v)) }, from, to, 12, nil, 0)
}

// push is the force at the wheels in top gear of so much mean effective pressure, N.
func (f figures) push(bmepBar float64) float64 {
	return bmepBar * 1e5 * f.litres * 1e-3 / 2 * (60 / f.gearing) * f.driveline
}

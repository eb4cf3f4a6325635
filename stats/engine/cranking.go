package engine

import (
	"math"

	"brimlog/ingest/quantity"
)

// Cranking is how a compression test is taken: throttle wedged open, all plugs out, warm (common practice).
const crankingRPM = 200

// gaugeShare is what a gauge shows of the pressure reckoned without leak: rings leak at the starter's speed, and the
// gauge's own hose holds some back (common practice: 11 to 12 bar at a ratio of 8.8; here 11.7).
const gaugeShare = 0.72

// CrankingBar is the pressure that a gauge in the plug hole should show for a cam that stands phase degrees off its
// card. Gauges and starters differ by a tenth either way: the ratio of two such figures is what tells.
func (e Engine) CrankingBar(phase float64) (float64, error) {
	if err := first(e.Check(), Within("cam_phase_deg", phase, -50, 50, "crank degrees")); err != nil {
		return 0, err
	}
	return e.orCommon().cranked(phase, 0), nil
}

// cranked is the same with a leak (m2) beyond a sound engine's.
func (e Engine) cranked(phase, leak float64) float64 {
	c := newCylinder(e, phase, leak, crankingRPM)
	op := operating{rpm: crankingRPM, manifold: outside, pipe: outside, lambda: 1, motored: true}
	return gaugeShare * (c.begin(op).settle(op).PeakBar - outside/1e5)
}

// tellable is the smallest share of cranking pressure that matters.
const tellable = 0.002

// leakFor is the leak (m2) that takes that share off the sound engine's cranking pressure. At the starter's speed a small hole has
// time to show; running, the same hole matters far less.
func (e Engine) leakFor(loss, sound float64) float64 {
	if !(loss > tellable) {
		return 0
	}
	leak := 0.8e-6 * e.DisplacementCC / e.Cylinders / 450
	for range 6 {
		got := 1 - e.cranked(0, leak)/sound
		// what is kept falls all but as 1 / (1 + leak)
		leak *= loss / (1 - loss) * (1 - got) / got
		if math.Abs(got-loss) < tellable {
			break
		}
	}
	return leak
}

// LossFromBar is the mean share by which cylinders that fire fall short of the pressure that each should show, bar; where that
// is Unknown the best of them stands for it. Those that do not fire are DeadFromBar's. It is Unknown without a cylinder.
func LossFromBar(cylinders []float64, healthy float64) float64 {
	best, sum := 0.0, 0.0
	for _, bar := range cylinders {
		best = max(best, bar)
	}
	should := quantity.Or(healthy, best)
	if !(should > 0) {
		return quantity.Unknown
	}
	for _, bar := range cylinders {
		sum += (1 - misses(bar, best)) * max(0, 1-bar/should)
	}
	return sum / float64(len(cylinders))
}

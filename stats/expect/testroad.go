package expect

import (
	"math"

	"gonum.org/v1/gonum/stat"
	"gonum.org/v1/gonum/stat/distuv"

	"brimlog/ingest/quantity"
	"brimlog/stats/engine"
)

// A testRoad is the vehicle, draw by draw, on a level road.
type testRoad struct {
	figures []figures
	mass    []float64
	z       [][factors]float64
}

func (c car) testRoad(r Roads) testRoad {
	road := testRoad{z: standard()}
	sd := widths(c.Vehicle, r)
	for i := range road.z {
		f := c.figures(r, sd, &road.z[i])
		road.figures = append(road.figures, f)
		road.mass = append(road.mass, f.mass+quantity.Or(r.LoadKg, 0))
	}
	return road
}

// times are logarithms of what the watch may show, draw by draw: the seconds reckoned and the owner's own scatter. A
// time taken while healthy puts them right, and lends its scatter too.
func (r testRoad) times(t Timing, reckoned, healthy func(i int) float64) []float64 {
	repeat := quantity.Or(t.Repeat, UsualRepeat)
	out := make([]float64, draws)
	for i := range out {
		out[i] = math.Log(min(reckoned(i), forever))
		if quantity.Known(t.Healthy) {
			out[i] += math.Log(t.Healthy / min(healthy(i), forever))
		}
	}
	if quantity.Known(t.Healthy) {
		repeat *= math.Sqrt2
	}
	for i := range out {
		out[i] += repeat * r.z[i][byLevel]
	}
	return out
}

// credible is a timing without a healthy time that can't be one.
func (r testRoad) credible(t Timing, reckoned func(i int) float64, doubts func(TimedRun, []float64) string) Timing {
	if !quantity.Known(t.Healthy) {
		return t
	}
	alone := t
	alone.Healthy = quantity.Unknown
	logs := r.times(alone, reckoned, reckoned)
	if doubts(TimedRun{Taken: quantity.Figure(t.Healthy), Healthy: rangeOf(logs)}, logs) != "" {
		return alone
	}
	return t
}

// forever is where a watch is put away, s.
const forever = 600.0

func (r testRoad) coasted(t Timing) *TimedRun {
	from, to := max(t.FromKmh, t.ToKmh)/3.6, min(t.FromKmh, t.ToKmh)/3.6
	seconds := func(i int) float64 {
		return r.figures[i].resistance(r.mass[i]).coast(r.mass[i], from, to)
	}
	t = r.credible(t, seconds, coastDoubts)
	logs := r.times(t, seconds, seconds)
	healthy := rangeOf(logs)
	run := &TimedRun{FromKmh: t.FromKmh, ToKmh: t.ToKmh, Healthy: healthy, AsTuned: healthy, Taken: quantity.Figure(t.Seconds)}
	run.Chance = chanceBeyond(logs, t.Seconds, -1)
	mass := stat.Mean(r.mass, nil) * (1 + coastInertia)
	run.ExtraForce = quantity.Figure(mass * (from - to) * (1/t.Seconds - 1/float64(healthy.Mid)))
	run.question(coastDoubts(*run, logs))
	return run
}

// pulled allows for the extra force that the coast-down found, so that a dragging brake is not laid at the engine's
// door.
func (r testRoad) pulled(t Timing, tuned tunes, extra float64) *TimedRun {
	from, to := min(t.FromKmh, t.ToKmh)/3.6, max(t.FromKmh, t.ToKmh)/3.6
	seconds := func(weak bool, extra float64) func(i int) float64 {
		return func(i int) float64 {
			f := r.figures[i]
			state := tuned.of(r.z[i])
			against := f.resistance(r.mass[i])
			against.plain += extra
			breathing := math.Exp(fullLoadWidth * r.z[i][byTune])
			return against.pull(r.mass[i], from, to, func(v float64) float64 {
				return f.push(breathing * fullLoad(state, weak, v*3.6*1000/f.gearing))
			})
		}
	}
	healthy := seconds(false, 0)
	run := &TimedRun{FromKmh: t.FromKmh, ToKmh: t.ToKmh, Taken: quantity.Figure(t.Seconds), ExtraForce: quantity.Figure(quantity.Unknown)}
	t = r.credible(t, healthy, pullDoubts)
	logs := r.times(t, healthy, healthy)
	run.Healthy = rangeOf(logs)
	run.AsTuned = rangeOf(r.times(t, seconds(true, 0), healthy))
	dragged := logs
	if extra != 0 {
		dragged = r.times(t, seconds(false, extra), healthy)
	}
	run.Chance = chanceBeyond(dragged, t.Seconds, +1)
	run.question(pullDoubts(*run, logs))
	return run
}

// fullLoadWidth is what the cycle model's full-load torque is uncertain by (makes differ in breathing).
const fullLoadWidth = 0.08

// fullLoad is the mean effective pressure with the throttle open at a speed, bar, between the three that the model ran.
func fullLoad(c engine.Comparison, weak bool, rpm float64) float64 {
	at := func(i int) float64 {
		if weak {
			return c.HealthyTorque[i] * c.Torque[i]
		}
		return c.HealthyTorque[i]
	}
	switch {
	case rpm < 2500:
		return at(0) + (at(1)-at(0))*between((rpm-1500)/1000, -0.5, 1)
	default:
		return max(0, at(1)+(at(2)-at(1))*between((rpm-2500)/1500, 0, 1.5))
	}
}

// departure is by how many of their own deviations a time lies above those that are healthy.
func departure(healthy []float64, seconds float64) float64 {
	mean, sd := stat.MeanStdDev(healthy, nil)
	return (math.Log(seconds) - mean) / sd
}

// chanceBeyond is how surely a time lies beyond what is healthy, towards sign.
func chanceBeyond(healthy []float64, seconds, sign float64) quantity.Figure {
	return quantity.Figure(distuv.UnitNormal.CDF(sign * departure(healthy, seconds)))
}

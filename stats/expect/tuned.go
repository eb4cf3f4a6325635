package expect

import (
	"fmt"
	"math"

	"brimlog/ingest/quantity"
	"brimlog/stats/engine"
)

// tunes are the engine's states that the readings leave possible, each as likely: one, or two where nobody knows
// whether the ignition was set again since the cam moved.
type tunes []engine.Comparison

func statesOf(t engine.Tune) []engine.Tune {
	moved := math.Abs(quantity.Or(t.CamPhaseDeg, 0))
	if moved < 0.1 || t.DistributorReset || quantity.Known(t.IgnitionDeg) {
		return []engine.Tune{t}
	}
	reset := t
	reset.DistributorReset = true
	return []engine.Tune{t, reset}
}

// asHealthy is the state of an engine of which nothing was measured: no model need run for it.
var asHealthy = func() tunes {
	c := engine.Comparison{Idles: true}
	for k := range c.Fuel {
		c.Fuel[k] = 1
	}
	return tunes{c}
}()

// of is the state that a row of draws falls to.
func (t tunes) of(z [factors]float64) engine.Comparison {
	if z[byReset] > 0 {
		return t[len(t)-1]
	}
	return t[0]
}

// modelWidth is what the cycle model's logarithm of a ratio is uncertain by, as a share of itself; the mean gap to a
// second model of the same kind is of that order.
const modelWidth = 0.35

// effects are the logarithms of the fuel ratio on each kind of road, draw by draw.
func (t tunes) effects(d *draw) (out [engine.Kinds][]float64) {
	for k := range out {
		out[k] = make([]float64, draws)
		for i := range d.z {
			out[k][i] = math.Log(t.of(d.z[i]).Fuel[k]) * math.Exp(modelWidth*d.z[i][byTune])
		}
	}
	return out
}

// tunedAll is the total of the mix in the present tune.
func (d *draw) tunedAll(t tunes) []float64 {
	logs := make([]float64, draws)
	effect := t.effects(d)
	healthy := make([]float64, draws)
	d.total(healthy, [engine.Kinds][]float64{})
	d.total(logs, effect)
	for i := range logs {
		logs[i] += d.all[i] - healthy[i]
	}
	return logs
}

// byRoad is the answer by kind of road.
func (d *draw) byRoad(t tunes) (out []RoadAnswer) {
	effect := t.effects(d)
	tuned := make([]float64, draws)
	for k := range engine.Kinds {
		share := 0.0
		for i := range tuned {
			tuned[i] = d.kinds[k][i] + effect[k][i]
			share += d.mix[k][i] / draws
		}
		out = append(out, RoadAnswer{k.String(), quantity.Figure(share), rangeOf(d.kinds[k]), rangeOf(tuned)})
	}
	return out
}

// notes say what limits the tuned range.
func (t tunes) notes() (notes []string) {
	if len(t) > 1 {
		notes = append(notes, fmt.Sprintf("whether the ignition was set again since the cam moved is not known: the cam as measured costs %.0f %% in mixed driving if it was, %.0f %% if the distributor turned with it; a timing light tells",
			100*(t[1].Fuel[engine.Mixed]-1), 100*(t[0].Fuel[engine.Mixed]-1)), engine.LightCaution())
	}
	if !t[0].Idles {
		notes = append(notes, "in this tune the engine would not hold its idle")
	}
	if n := t[0].Unreached; n > 0 {
		notes = append(notes, fmt.Sprintf("in this tune %d of the 4 loads that were tried lie beyond full throttle; the figure is a rough one", n))
	}
	return notes
}

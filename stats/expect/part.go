package expect

import (
	"cmp"
	"math"
	"slices"

	"brimlog/ingest/quantity"
	"brimlog/stats/engine"
)

// A Part is one of the readings that the tune is made of, and what it costs by itself.
type Part struct {
	Name    string          `json:"name"` // cam, ignition, mixture, compression
	FuelPct quantity.Figure `json:"fuel_pct"`
}

// A single is a tune that is off in one respect.
type single struct {
	name string
	tune engine.Tune
}

// Readings nearer than this to what they should be cost nothing worth a name (common practice).
const (
	nearDeg    = 1.5
	nearLambda = 0.03
	nearLoss   = 0.01
)

// partsOf takes a tune apart into what is off.
func partsOf(t engine.Tune, injection bool) (all []single) {
	add := func(name string, off bool, set func(*engine.Tune)) {
		if off {
			s := single{name, engine.Unmeasured()}
			set(&s.tune)
			all = append(all, s)
		}
	}
	cruise, idle := engine.HealthyLambda(injection)
	off := func(x, want, near float64) bool { return quantity.Known(x) && math.Abs(x-want) >= near }
	add("cam", off(t.CamPhaseDeg, 0, nearDeg), func(s *engine.Tune) { s.CamPhaseDeg, s.DistributorReset = t.CamPhaseDeg, true })
	add("ignition", off(t.IgnitionDeg, 0, nearDeg), func(s *engine.Tune) { s.IgnitionDeg = t.IgnitionDeg })
	add("mixture", off(t.Lambda, cruise, nearLambda) || off(t.LambdaIdle, idle, nearLambda), func(s *engine.Tune) { s.Lambda, s.LambdaIdle = t.Lambda, t.LambdaIdle })
	add("compression", off(t.CompressionLoss, 0, nearLoss) || t.Dead > 0, func(s *engine.Tune) { s.CompressionLoss, s.Dead = t.CompressionLoss, t.Dead })
	return all
}

// A study is what the cycle model makes of a question: the tune as a whole, and its parts.
type study struct {
	tunes
	parts []single
	alone tunes // in the order of the parts; none where there is one part only, or none
}

// study runs the cycle model once for everything that the answer needs, and not at all where nothing was measured.
func (q Question) study() (study, error) {
	if !q.runsModel() {
		return study{tunes: asHealthy}, nil
	}
	states := statesOf(q.Tune)
	s := study{parts: partsOf(q.Tune, q.Vehicle.Engine.FuelSystem == "injection")}
	if len(s.parts) > 1 {
		for _, p := range s.parts {
			states = append(states, p.tune)
		}
	}
	all, err := engine.CompareEach(usualEngine(q.Vehicle.Engine), states...)
	if err != nil {
		return study{}, err
	}
	whole := len(statesOf(q.Tune))
	s.tunes, s.alone = all[:whole], all[whole:]
	return s, nil
}

// runsModel tells whether anything asks for the cycle model.
func (q Question) runsModel() bool { return q.Tune.Measured() || q.Pull != nil }

// parts is what each costs on these roads, the costliest first. A part that is the only one costs what the whole does.
func (d *draw) parts(s study) []Part {
	out := []Part{}
	for i, p := range s.parts {
		state := s.tunes
		if len(s.alone) > 0 {
			state = s.alone[i : i+1]
		}
		out = append(out, Part{p.name, pctOver(rangeOf(d.tunedAll(state)).Mid, rangeOf(d.all).Mid)})
	}
	slices.SortStableFunc(out, func(a, b Part) int { return cmp.Compare(math.Abs(float64(b.FuelPct)), math.Abs(float64(a.FuelPct))) })
	return out
}

// balance is the worst that the accounts of mass and energy fail by, over all states that the model ran.
func (s study) balance() (worst engine.Balance) {
	for _, c := range slices.Concat(s.tunes, s.alone) {
		worst.MassPct, worst.EnergyPct = max(worst.MassPct, c.Worst.MassPct), max(worst.EnergyPct, c.Worst.EnergyPct)
	}
	return worst
}

package expect

import (
	"encoding/json"
	"strings"
	"testing"

	"brimlog/ingest/quantity"
)

// The model reports how far its accounts of mass and energy fail to close, where it ran: to 0.1 % by the contract.
func TestBalanceIsReported(t *testing.T) {
	q := asked(heron(), UnknownRoads())
	if a := ask(t, q); a.Balance != nil {
		t.Errorf("the model did not run, and its accounts close to %+v", *a.Balance)
	}
	q.Tune.CamPhaseDeg, q.Tune.Lambda, q.Tune.Dead = -18, 0.9, 1.0/6
	a := ask(t, q)
	if a.Balance == nil || !(a.Balance.MassPct > 0 && a.Balance.MassPct < 0.1) || !(a.Balance.EnergyPct > 0 && a.Balance.EnergyPct < 0.1) {
		t.Errorf("accounts %+v", a.Balance)
	}
	if b, err := json.Marshal(a); err != nil || !strings.Contains(string(b), `"balance":{"mass_pct":`) {
		t.Errorf("%v: %s", err, b)
	}
}

// One cylinder of six without compression costs its share of the fuel and more, and is a part by that name.
func TestDeadCylinderInLitres(t *testing.T) {
	q := asked(heron(), UnknownRoads())
	q.Tune = TuneFrom(map[string][]float64{"compression_bar": {11, 11, 11, 2, 11, 11}}, quantity.Unknown, false)
	a := ask(t, q)
	if len(a.Parts) != 1 || a.Parts[0].Name != "compression" || a.TunePct < 14 || a.TunePct > 25 {
		t.Errorf("%.1f %%, parts %v", a.TunePct, a.Parts)
	}
}

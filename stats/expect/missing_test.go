package expect

import (
	"math"
	"strings"
	"testing"

	"brimlog/ingest/quantity"
)

func TestWiderBecause(t *testing.T) {
	v := heron()
	full := ask(t, asked(v, UnknownRoads()))
	for _, m := range full.Missing {
		if strings.HasPrefix(m.Key, "engine.") || strings.HasPrefix(m.Key, "driveline.") || m.Key == "year" {
			t.Errorf("%s was told and is called missing", m.Key)
		}
	}
	v.Driveline.KmhPer1000RPM, v.Body.MassKg = quantity.Unknown, quantity.Unknown
	a := ask(t, asked(v, UnknownRoads()))
	if len(a.WiderBecause) < 3 || !strings.HasPrefix(a.WiderBecause[0], "body.mass_kg") && !strings.HasPrefix(a.WiderBecause[0], "driveline.kmh_per_1000rpm") {
		t.Errorf("what matters most comes first: %q", a.WiderBecause)
	}
	for i := 1; i < len(a.Missing); i++ {
		if a.Missing[i].NarrowerPct > a.Missing[i-1].NarrowerPct {
			t.Errorf("out of order: %v", a.Missing)
		}
	}
}

// What the list promises is what telling gives: each key in turn is told as the middle has it, and the narrowing read off the
// answer. The vehicles want mass, displacement or both, whose draws hang together, or little.
func TestListPromisesWhatTellingGives(t *testing.T) {
	u := quantity.Unknown
	for name, untell := range map[string]func(*Question){
		"nothing told":           func(q *Question) { q.Vehicle = blank() },
		"no mass":                func(q *Question) { q.Vehicle.Body.MassKg = u },
		"no displacement":        func(q *Question) { q.Vehicle.Engine.DisplacementCC, q.Vehicle.Driveline.KmhPer1000RPM = u, u },
		"neither":                func(q *Question) { q.Vehicle.Engine.DisplacementCC, q.Vehicle.Body.MassKg = u, u },
		"little, healthy before": func(q *Question) { q.Vehicle.Driveline.KmhPer1000RPM, q.Healthy = u, Level{12, 0.04} },
	} {
		q := asked(heron(), UnknownRoads())
		untell(&q)
		a := ask(t, q)
		for _, m := range a.Missing {
			told := q
			for _, key := range tellings {
				if key.key == m.Key && key.tell != nil {
					key.tell(&told.Vehicle, &told.Roads, car{q.Vehicle})
					key.tell(&told.Vehicle, &told.HealthyRoads, car{q.Vehicle})
				}
			}
			c, err := newCar(told.Vehicle)
			if err != nil {
				t.Fatal(err)
			}
			d, _ := told.drawn(c, asTold)
			got := 100 * (1 - rangeOf(d.all).width()/a.Healthy.width())
			for _, key := range tellings {
				if key.key == m.Key && key.tell != nil && math.Abs(max(0, got)-m.NarrowerPct) > 0.1 {
					t.Errorf("%s: %s was to narrow the range by %.1f %%, and narrows it by %.1f", name, m.Key, m.NarrowerPct, got)
				}
			}
		}
		if name == "neither" && (len(a.Missing) == 0 || a.Missing[0].Key != "body.mass_kg" && a.Missing[0].Key != "engine.displacement_cc") {
			t.Errorf("without mass and displacement the first to tell is %v", a.Missing)
		}
	}
}

package suspect

import (
	"encoding/json"
	"strings"
	"testing"

	"brimlog/ingest/book"
)

// The story of the demo: late ignition stands first or second before the timing is measured, first after.
func TestLateIgnition(t *testing.T) {
	e := heronLate()
	before := Rank(e)
	if first, second := before.Suspects[0].Cause, before.Suspects[1].Cause; first != "ign_retarded" && second != "ign_retarded" {
		t.Errorf("before the timing is measured %s and %s stand in front", first, second)
	}
	e.Readings = []book.Reading{{Name: "ignition_deg", Text: "-9", Values: []float64{-9}}}
	after := Rank(e)
	if first := after.Suspects[0]; first.Cause != "ign_retarded" || first.Chance <= chances(before)["ign_retarded"] {
		t.Errorf("after the timing was found 9 degrees late %s stands first with %.2f", first.Cause, first.Chance)
	}
	e.Readings[0] = book.Reading{Name: "ignition_deg", Text: "0", Values: []float64{0}}
	if first := Rank(e).Suspects[0].Cause; first == "ign_retarded" {
		t.Error("late ignition still stands first with the timing found right")
	}
}

// Two faults at once are named when one does not explain what is known.
func TestTwoAtOnce(t *testing.T) {
	e := heronLate()
	e.Excess, e.ExcessSD = 0.17, 0.03
	e.Readings = []book.Reading{{Name: "ignition_deg", Text: "-9", Values: []float64{-9}}, {Name: "hubs", Text: "one_hot"}}
	r := Rank(e)
	if len(r.Together) == 0 || strings.Join(r.Together[0].Causes, " ") != "brake_bind ign_retarded" && strings.Join(r.Together[0].Causes, " ") != "ign_retarded brake_bind" {
		t.Fatalf("together: %v, want late ignition with a dragging brake", r.Together)
	}
	for _, s := range r.Suspects[:2] {
		if s.Cause != "ign_retarded" && s.Cause != "brake_bind" {
			t.Errorf("%s stands among the first two", s.Cause)
		}
		if len(s.Because) == 0 || !strings.Contains(s.Because[0], "together with") {
			t.Errorf("%s: because %q does not name the other", s.Cause, s.Because)
		}
	}
	if single := Rank(heronLate()); len(single.Together) > 0 {
		t.Errorf("late ignition alone explains it, yet together: %v", single.Together)
	}
}

func TestReasonsNameTheEvidence(t *testing.T) {
	e := heronLate()
	e.Readings = []book.Reading{{Name: "vacuum_needle", Text: "steady"}, {Name: "ignition_deg", Text: "-9", Values: []float64{-9}}}
	for _, s := range Rank(e).Suspects {
		because, against := strings.Join(s.Because, "\n"), strings.Join(s.Against, "\n")
		switch s.Cause {
		case "ign_retarded":
			for _, want := range []string{"ignition_deg=-9", "distributor overhauled", "poor pull at part throttle from low revs (moderate)", "to 1 for"} {
				if !strings.Contains(because, want) {
					t.Errorf("late ignition: because lacks %q:\n%s", want, because)
				}
			}
		case "ign_advanced":
			if !strings.Contains(against, "no knocking") || !strings.Contains(against, "to 1 against") {
				t.Errorf("early ignition: against lacks the missing knock:\n%s", against)
			}
		}
	}
}

func TestOnlyWhatTheVehicleHas(t *testing.T) {
	e := Nothing()
	e.FuelSystem = injection
	for _, s := range Rank(e).Suspects {
		c := Standard().Causes[Standard().rank[s.Cause]]
		if c.Only == carburettor && s.Chance != 0 {
			t.Errorf("%s: chance %v on an injected engine", s.Cause, s.Chance)
		}
	}
	for _, c := range Rank(e).NextChecks {
		if c.Check == "choke_look" {
			t.Error("asks to look at the choke of an injected engine")
		}
	}
}

// The documents carry null, not zero, where nobody can say what it costs.
func TestReportAsJSON(t *testing.T) {
	b, err := json.Marshal(Rank(heronLate()))
	if err != nil {
		t.Fatal(err)
	}
	var doc struct {
		Stop     []any
		Suspects []struct {
			Cause            string
			Because, Against []string
			Extra            *float64 `json:"extra_fuel_pct"`
		}
		NextChecks []map[string]any `json:"next_checks"`
	}
	if err := json.Unmarshal(b, &doc); err != nil {
		t.Fatal(err)
	}
	for _, s := range doc.Suspects {
		if s.Because == nil || s.Against == nil || (s.Extra == nil) != (s.Cause == NotListed) {
			t.Errorf("%s: because %v, against %v, extra %v", s.Cause, s.Because, s.Against, s.Extra)
		}
	}
	for _, key := range []string{"check", "minutes", "bits", "tells_apart", "caution"} {
		if _, ok := doc.NextChecks[0][key]; !ok {
			t.Errorf("next_checks lack %q", key)
		}
	}
	if doc.Stop == nil {
		t.Error("stop is null, want an empty list")
	}
}

// The cycle model's figure for this engine replaces the table's, in the cost and in the reckoning.
func TestCycleModelOverrules(t *testing.T) {
	e := heronLate()
	e.ExtraFuelPct = map[string]float64{"ign_retarded": 6.2}
	for _, s := range Rank(e).Suspects {
		if s.Cause == "ign_retarded" {
			if s.ExtraFuelPct != 6.2 {
				t.Errorf("costs %v, want the model's 6.2", s.ExtraFuelPct)
			}
			if plain := chances(Rank(heronLate()))["ign_retarded"]; s.Chance <= plain {
				t.Errorf("6 %% more is what the model says, yet the chance fell from %.3f to %.3f", plain, s.Chance)
			}
		}
	}
}

func TestWordsThatAreNotUnderstood(t *testing.T) {
	e := heronLate()
	want := chances(Rank(e))
	e.Seen = map[string]string{"smoke": "purple", "mood": "bad"}
	r := Rank(e)
	sameChances(t, chances(r), want)
	if len(r.Notes) != 2 || !strings.Contains(r.Notes[0], "purple") || !strings.Contains(r.Notes[1], "mood") {
		t.Errorf("notes: %q", r.Notes)
	}
	e.Seen = map[string]string{"smoke": "Grey", "smell": "fuel"}
	if notes := Rank(e).Notes; len(notes) > 0 {
		t.Errorf("other words for the same are not understood: %q", notes)
	}
}

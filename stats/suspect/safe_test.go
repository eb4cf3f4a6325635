package suspect

import (
	"encoding/json"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"brimlog/ingest/book"
)

func offers(r Report, id string) bool {
	return slices.ContainsFunc(r.NextChecks, func(c NextCheck) bool { return c.Check == id })
}

// What says 'do not start' takes back the checks of a cold engine for which it is started or cranked; overheating does not:
// from stone cold the coolant may be watched.
func TestNothingTurnsThatMustNot(t *testing.T) {
	for readings, turns := range map[string]bool{
		"oil_pressure_bar=0.4": false, "cam_phase_deg=-30": false, "leak=wet": false, "oil_dip=thin": false, "thermostat_c=112": true, "ignition_deg=11": true,
	} {
		w, _ := Standard().weigh(Nothing()) // so that only what is safe decides, not what is likely
		e := Nothing()
		e.Readings = readingsOf(t, readings)
		stops := Standard().stops(e)
		if len(stops) == 0 {
			t.Fatalf("%s: nothing says stop", readings)
		}
		r := Report{NextChecks: w.nextChecks(stops)}
		for _, id := range []string{"coolant_look", "fuel_delivery"} {
			if offers(r, id) != turns {
				t.Errorf("%s: %s is offered: %v", readings, id, !turns)
			}
		}
		if !offers(r, "logbook_look") {
			t.Errorf("%s: not even the logbook may be read", readings)
		}
	}
	for _, c := range Standard().Checks {
		if c.State == "cold" && strings.Contains(c.How, "start it") && !c.Turns {
			t.Errorf("%s starts the engine, and the table does not say that it turns", c.ID)
		}
	}
}

// A timed run is offered once there is something to hold it against.
func TestTimedRunsNeedSomethingToBeHeldAgainst(t *testing.T) {
	for id, reading := range map[string]string{"coast_down": "coast_s", "timed_pull": "pull_s"} {
		e := Nothing()
		if offers(Rank(e), id) {
			t.Errorf("%s is offered, and its time would tell nothing", id)
		}
		own := e
		own.Baseline = []book.Reading{{Name: reading, Text: "20", Values: []float64{20}}}
		e.Expected = map[string]Figure{reading: {20, 1}}
		if !offers(Rank(own), id) || !offers(Rank(e), id) {
			t.Errorf("%s is not offered though there is something to hold it against", id)
		}
	}
}

// An earlier figure of nought is no figure to hold anything against.
func TestEarlierFigureOfNought(t *testing.T) {
	for _, name := range []string{"compression_bar", "coast_s", "fuel_pressure_bar"} {
		e := Nothing()
		e.Baseline = []book.Reading{{Name: name, Text: "0/0", Values: []float64{0, 0}}}
		e.Readings = []book.Reading{{Name: name, Text: "10/10", Values: []float64{10, 10}}}
		if _, err := json.Marshal(Rank(e)); err != nil {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// A number without its scatter would make nonsense of every chance.
func TestNumberWithoutScatter(t *testing.T) {
	dir := t.TempDir()
	if err := os.CopyFS(dir, os.DirFS("table")); err != nil {
		t.Fatal(err)
	}
	file := filepath.Join(dir, "signs", "figures.toml")
	b, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(file, []byte(strings.Replace(string(b), "sd = 2.5\n", "", 1)), 0o644); err != nil {
		t.Fatal(err)
	}
	if _, err := Load(os.DirFS(dir)); err == nil || !strings.Contains(err.Error(), "own_sd") {
		t.Errorf("error %v, want one that names own_sd", err)
	}
}

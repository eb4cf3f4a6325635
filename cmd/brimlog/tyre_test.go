package main

import (
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// 205R16 exchanged for 7.50R16: true = 1.092 x shown, uncorrected consumption reads 9.2 % too high (diameters of the UN
// regulations, from memory).
func TestTyre(t *testing.T) {
	near := func(doc map[string]any, name string, want, within float64) {
		t.Helper()
		if got, _ := doc[name].(float64); math.Abs(got-want) > within {
			t.Errorf("%s is %v, want %g", name, doc[name], want)
		}
	}
	doc := document(t, "tyre", "--original", "205R16", "--fitted", "7.50R16")
	near(doc, "odometer_correction", 1.092, 0.001)
	near(doc, "reads_too_high_pct", 9.2, 0.05)
	if doc["reading"] != "odometer_correction=1.092" || doc["book"] != nil {
		t.Errorf("%v", doc)
	}
	near(document(t, "tyre", "--original", "205R16", "--fitted", "7.50R16", "--before", "0.97"), "odometer_correction", 1.092*0.97, 0.001)
	doc = document(t, "tyre", "--true", "20", "--shown", "12 mi")
	near(doc, "odometer_correction", 20/(12*1.609344), 1e-9)
	out, _, _ := called(t, "tyre", "--true", "20", "--shown", "21")
	if !strings.Contains(out, "reads 4.8 % too low") || !strings.Contains(out, "a passenger reading") {
		t.Error(out)
	}
}

func TestTyreRefusesWhatItCannotUse(t *testing.T) {
	for _, c := range []struct {
		args   []string
		status int
		want   string
	}{
		{nil, statusUsage, "want --original and --fitted, or --true and --shown"},
		{[]string{"--original", "205R16"}, statusUsage, "want --original and --fitted"},
		{[]string{"--original", "round", "--fitted", "205R16"}, statusUsage, `--original: tyre size: want one like 205R16, 185/70R14 or 7.50-16, got "round"`},
		{[]string{"--true", "far", "--shown", "20"}, statusUsage, "--true: "},
		{[]string{"--true", "20", "--shown", "60"}, statusUsage, "odometer_correction: want 0.5 to 2, got 0.333333"},
		{[]string{"--original", "165R13", "--fitted", "165R13", "--before", "0"}, statusUsage, "the correction before: want 0.5 to 2, got 0,"},
		{[]string{"--original", "165R13", "--fitted", "165R13", "--before", "-1"}, statusUsage, "the correction before: want 0.5 to 2, got -1,"},
		{[]string{"--original", "165R13", "--fitted", "165R13", "--before", "40"}, statusUsage, "the correction before: want 0.5 to 2, got 40,"},
		{[]string{"--original", "7.50-16", "--fitted", "145R13", "--before", "0.6"}, statusUsage, "odometer_correction: want 0.5 to 2, got 0.4"},
		{[]string{"--true", "20", "--shown", "19", "--write"}, statusFailed, "want a logbook to write into"},
	} {
		out, complaint, status := called(t, append([]string{"tyre"}, c.args...)...)
		if status != c.status || !strings.Contains(complaint, c.want) || out != "" {
			t.Errorf("%q: exit %d, %q; want exit %d, %q", c.args, status, complaint, c.status, c.want)
		}
	}
}

func TestTyreInALogbook(t *testing.T) {
	dir := logbook(t, map[string]string{
		"vehicle.toml": "name = \"Heron\"\n[show]\ndistance = \"mi\"\n[odometer]\ncorrection = 0.98\n",
		"work.csv":     "id,date,kind,area,readings\ntyres,2025-03-01,fit,tyres,\nbrakes,2025-04-01,repair,brakes,\n",
	})
	out, complaint, status := called(t, "tyre", "-b", dir, "--true", "20", "--shown", "19.5", "--write", "--id", "posts", "--date", "2025-05-01")
	if status != statusDone || !strings.Contains(out, "holds from tyres on (2025-03-01)") || !strings.Contains(out, "20 miles true, 19.5 miles shown") {
		t.Errorf("exit %d, %s%s", status, out, complaint)
	}
	text, _ := os.ReadFile(filepath.Join(dir, "work.csv"))
	if !strings.Contains(string(text), "posts,2025-05-01,measure,odometer,odometer_correction=1.026") {
		t.Errorf("work.csv:\n%s", text)
	}
	if doc := document(t, "tyre", "-b", dir, "--original", "165R13", "--fitted", "165R13"); doc["odometer_correction"] != 0.98 {
		t.Errorf("the instrument's own correction is left out: %v", doc)
	}
}

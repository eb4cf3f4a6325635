package main

import (
	"path/filepath"
	"strings"
	"testing"
)

// heronBook is the demo's folder.
func heronBook(t *testing.T) string {
	t.Helper()
	dir, err := filepath.Abs("../../testdata/heron")
	if err != nil {
		t.Fatal(err)
	}
	return dir
}

func figureIn(t *testing.T, doc map[string]any, path ...string) float64 {
	t.Helper()
	var at any = doc
	for _, p := range path {
		at = at.(map[string]any)[p]
	}
	x, ok := at.(float64)
	if !ok {
		t.Fatalf("%v is %v, want a number", path, at)
	}
	return x
}

func TestExpectHeron(t *testing.T) {
	dir := heronBook(t)
	doc := document(t, "expect", "-b", dir)
	healthy, measured := figureIn(t, doc, "healthy", "mid"), figureIn(t, doc, "measured", "mid")
	if low, high := figureIn(t, doc, "healthy", "low"), figureIn(t, doc, "healthy", "high"); !(low < healthy && healthy < high && high < 1.4*low) {
		t.Errorf("healthy %v", doc["healthy"])
	}
	// the brake drags by 11 %; what is not known of the car is about as wide
	if excess := figureIn(t, doc, "excess_pct"); measured < healthy || excess < 1 || excess > 22 {
		t.Errorf("with the brake dragging it takes %.1f %% more than healthy", excess)
	}
	if since := doc["since"].(map[string]any); since["shift"] != true {
		t.Errorf("measured since %v, want the shift that no job accounts for", since)
	}
	if figureIn(t, doc, "chance_above_healthy") < 0.6 {
		t.Errorf("chance %v", doc["chance_above_healthy"])
	}
	// nothing that was read of its tune is amiss
	if tune := figureIn(t, doc, "tune_pct"); tune < -1 || tune > 1 {
		t.Errorf("the tune as read costs %.1f %%", tune)
	}
	for _, name := range []string{"book", "as_of", "notes", "as_tuned", "wider_because", "by_road", "timed", "caution"} {
		if doc[name] == nil {
			t.Errorf("the document lacks %s", name)
		}
	}
}

// While the ignition stood late, and after it was read, the reading explains a part of what the pump showed.
func TestExpectLateIgnition(t *testing.T) {
	dir := heronBook(t)
	doc := document(t, "expect", "-b", dir, "--as-of", "2025-01-11")
	if tune := figureIn(t, doc, "tune_pct"); tune < 1 || tune > 12 {
		t.Errorf("late ignition costs %.1f %%, want a few", tune)
	}
	out, _, status := called(t, "expect", "-b", dir, "--as-of", "2025-01-11")
	if flat := strings.Join(strings.Fields(out), " "); status != statusDone || !strings.Contains(flat, "the ignition as measured") || !strings.Contains(flat, "ignition_deg=") {
		t.Errorf("exit %d\n%s", status, out)
	}
	if strings.Contains(out, "L/100") {
		t.Errorf("an owner who thinks in mpg is told\n%s", out)
	}
	for _, line := range strings.Split(out, "\n") {
		if n := len([]rune(line)); n > 100 {
			t.Errorf("a line of %d columns: %s", n, line)
		}
	}
	if metric, _, _ := called(t, "expect", "-b", dir, "--economy", "l_100km"); !strings.Contains(metric, "L/100 km") || strings.Contains(metric, "mpg") {
		t.Errorf("asked for in L/100 km:\n%s", metric)
	}
}

// A vehicle with nothing but a name still has an answer, and is told what to tell first.
func TestExpectOfABlankVehicle(t *testing.T) {
	dir := logbook(t, map[string]string{"vehicle.toml": "name = \"Wren\"\n"})
	doc := document(t, "expect", "-b", dir)
	if doc["excess_pct"] != nil || doc["chance_above_healthy"] != nil || doc["measured"].(map[string]any)["mid"] != nil {
		t.Errorf("nothing measured: %v, %v, %v", doc["excess_pct"], doc["chance_above_healthy"], doc["measured"])
	}
	why := doc["wider_because"].([]any)
	if len(why) < 5 || !strings.HasPrefix(why[0].(string), "body.mass_kg") {
		t.Errorf("wider because %v", why)
	}
	out, _, _ := called(t, "expect", "-b", dir)
	for _, want := range []string{"should return", "vehicle.toml, [engine] displacement_cc", "on usual roads", "a passenger reads the watch"} {
		if !strings.Contains(strings.Join(strings.Fields(out), " "), want) {
			t.Errorf("the answer lacks %q:\n%s", want, out)
		}
	}
	// four figures narrow it
	told := logbook(t, map[string]string{"vehicle.toml": "name = \"Wren\"\nyear = 1974\n[engine]\ndisplacement_cc = 2600\ncylinders = 6\n[body]\nmass_kg = 1380\n"})
	narrow := document(t, "expect", "-b", told)
	wide := figureIn(t, doc, "healthy", "high") / figureIn(t, doc, "healthy", "low")
	if got := figureIn(t, narrow, "healthy", "high") / figureIn(t, narrow, "healthy", "low"); got > 0.8*wide {
		t.Errorf("told four figures the range spans a factor of %.2f, told none %.2f", got, wide)
	}
}

func TestExpectRefusesWhatNoVehicleIs(t *testing.T) {
	for _, c := range []struct{ key, want string }{
		{"[engine]\ndisplacement_cc = 0", `vehicle.toml:3: column "engine.displacement_cc": want a number from 20 to 20000, got 0`},
		{"[body]\nmass_kg = 40000", `vehicle.toml:3: column "body.mass_kg": want a number from 50 to 20000, got 40000`},
		{"[engine]\ncompression_ratio = 2", `vehicle.toml:3: column "engine.compression_ratio": want a number from 3 to 25, got 2`},
		{"[engine]\ndisplacement_cc = 30", `vehicle.toml:3: column "engine.displacement_cc": want 50 to 12000 cc, got 30`},
		{"[body]\nmass_kg = 9000", `vehicle.toml:3: column "body.mass_kg": want 250 to 7500 kg, got 9000`},
		{"[engine]\ncompression_ratio = 16", `vehicle.toml:3: column "engine.compression_ratio": want 4 to 14, got 16`},
		{"engine.cam.intake_opens_btdc = 70\n[[from]]\njob = \"x\"\nengine.cam.intake_opens_btdc = 75", `vehicle.toml: column "engine.cam.intake_opens_btdc": want -20 to 60 degrees, got 70`},
	} {
		dir := logbook(t, map[string]string{"vehicle.toml": "name = \"Wren\"\n" + c.key + "\n"})
		out, complaint, status := called(t, "expect", "-b", dir)
		if status != statusFailed || !strings.Contains(complaint, c.want) || strings.Count(complaint, "\n") != 1 || out != "" {
			t.Errorf("%s: exit %d, %s", c.key, status, complaint)
		}
	}
	if _, complaint, status := called(t, "expect", "--book", "nowhere"); status != statusFailed || !strings.Contains(complaint, "nowhere") {
		t.Errorf("no logbook: exit %d, %s", status, complaint)
	}
	if _, _, status := called(t, "expect", "more"); status != statusUsage {
		t.Errorf("an argument too many: exit %d", status)
	}
}

// A reading past which an engine soon breaks is told before anything else.
func TestExpectCaution(t *testing.T) {
	dir := logbook(t, map[string]string{"vehicle.toml": "name = \"Wren\"\n", "work.csv": "id,date,kind,area,readings\nlight,2025-03-01,measure,ignition,ignition_deg=14\n"})
	out, _, _ := called(t, "expect", "-b", dir)
	if lines := strings.Split(out, "\n"); !strings.Contains(strings.Join(lines[:4], "\n"), "CAUTION: the spark is far too early") {
		t.Errorf("no caution at the top:\n%s", out)
	}
}

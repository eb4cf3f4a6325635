package main

import (
	"bufio"
	"bytes"
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"brimlog/stats/engine"
)

// called is one call of the program from within a folder without a logbook.
func called(t *testing.T, args ...string) (out, complaint string, status int) {
	t.Helper()
	t.Setenv("BRIMLOG_BOOK", "")
	t.Chdir(t.TempDir())
	var o, e bytes.Buffer
	status = (&app{in: strings.NewReader(""), out: &o, err: &e}).run(args)
	return o.String(), e.String(), status
}

// document is what a call prints with --json.
func document(t *testing.T, args ...string) map[string]any {
	t.Helper()
	out, complaint, status := called(t, append(args, "--json")...)
	doc := map[string]any{}
	if err := json.Unmarshal([]byte(out), &doc); err != nil || status != statusDone {
		t.Fatalf("%q: exit %d, %v, %s%s", args, status, err, out, complaint)
	}
	return doc
}

// logbook writes a folder of files.
func logbook(t *testing.T, files map[string]string) string {
	t.Helper()
	dir := t.TempDir()
	for name, text := range files {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	return dir
}

// The worked examples (common practice), from every side.
func TestCamFromEverySide(t *testing.T) {
	const card = "--card=20-60/60-20"
	for _, c := range []struct {
		name string
		args []string
		want map[string]float64
	}{
		{"a card by itself", []string{card}, map[string]float64{"intake_duration": 260, "exhaust_duration": 260, "intake_centreline": 110,
			"exhaust_centreline": 110, "overlap": 40, "lobe_separation": 110, "advance": 0, "phase_error_crank_deg": math.NaN()}},
		{"teeth alone", []string{"--teeth", "40"}, map[string]float64{"degrees_per_tooth_cam": 9, "degrees_per_tooth_crank": 18, "overlap": math.NaN()}},
		{"4 degrees at the sprocket", []string{"--teeth", "40", "--offset", "4"}, map[string]float64{"phase_error_crank_deg": 8, "nearest_teeth": 0, "residual_crank_deg": 8}},
		{"the same behind its mark", []string{"--teeth", "40", "--offset", "-4"}, map[string]float64{"phase_error_crank_deg": -8}},
		{"20 degrees on 40 teeth", []string{"--teeth", "40", "--phase", "20"}, map[string]float64{"nearest_teeth": 1, "residual_crank_deg": 2}},
		{"a tooth late", []string{"--teeth", "40", "--teeth-out", "-1"}, map[string]float64{"phase_error_crank_deg": -18, "nearest_teeth": -1, "residual_crank_deg": 0}},
		{"advanced 5 against straight-up", []string{card, "--measured", "25-55/65-15"}, map[string]float64{"phase_error_crank_deg": 5, "measured_intake_centreline": 105}},
		{"ground advanced and found as ground", []string{"--card", "25-55/65-15", "--measured", "25-55/65-15"}, map[string]float64{"phase_error_crank_deg": 0, "advance": 5}},
		{"the exhaust alone", []string{card, "--measured", "/65-15"}, map[string]float64{"phase_error_crank_deg": 5, "measured_exhaust_centreline": 115}},
		{"at a lift, past the dead centre", []string{card, "--measured", "-3,27", "--lift", "0.05 in"}, map[string]float64{"phase_error_crank_deg": 5}},
		{"three rounds", []string{card, "--measured", "12-68", "--measured", "13-67", "--measured", "11-69"}, map[string]float64{"phase_error_crank_deg": -8, "scatter_deg": 1, "repeats": 3}},
	} {
		doc := document(t, append([]string{"cam"}, c.args...)...)
		for name, want := range c.want {
			got, known := doc[name].(float64)
			if known == math.IsNaN(want) || known && math.Abs(got-want) > 1e-9 {
				t.Errorf("%s: %s is %v, want %v", c.name, name, doc[name], want)
			}
		}
		if doc["book"] != nil || doc["as_of"] != nil || len(doc["caution"].([]any)) == 0 {
			t.Errorf("%s: head %v, %v, cautions %v", c.name, doc["book"], doc["as_of"], doc["caution"])
		}
	}
}

func TestCamText(t *testing.T) {
	for _, c := range []struct {
		args, wants []string
	}{
		{[]string{"--card", "20-60/60-20", "--teeth", "40", "--phase", "-20"}, []string{"20.0 crank degrees late", "one tooth of 40 and 2.0 degrees over",
			"set it on, the way it runs", "the ignition stands 20 crank degrees late too", "never turn it by the cam", "handbook"}},
		{[]string{"--card", "20-60/60-20", "--teeth", "40", "--phase", "16"}, []string{"one tooth of 40 less 2.0 degrees"}},
		{[]string{"--card", "20-60/60-20", "--teeth", "40", "--phase", "36", "--drive", "gears"}, []string{"two" /* teeth */, "nothing over", "CAUTION: the cam is so far out that valves may meet pistons", "runs against the crank"}},
		{[]string{"--card", "20-60/60-20", "--phase", "1"}, []string{"within the 2 that are as good as any", "leave it"}},
		{[]string{"--card", "20-60/60-20", "--measured", "20-60"}, []string{"just as its card has it", "one reading only"}},
		{[]string{"--card", "20-60/60-20"}, []string{"No reading yet"}},
		{nil, []string{"Nothing to set the cam against"}},
	} {
		out, complaint, status := called(t, append([]string{"cam"}, c.args...)...)
		if status != statusDone || complaint != "" {
			t.Errorf("%q: exit %d, %s", c.args, status, complaint)
		}
		flat := strings.Join(strings.Fields(strings.ReplaceAll(out, "2 teeth", "two teeth")), " ")
		for _, want := range c.wants {
			if !strings.Contains(flat, want) {
				t.Errorf("%q lacks %q:\n%s", c.args, want, out)
			}
		}
		for _, line := range strings.Split(out, "\n") {
			if len([]rune(line)) > 100 {
				t.Errorf("%q: a line of %d columns: %s", c.args, len([]rune(line)), line)
			}
		}
	}
}

func TestCamRefusesWhatItCannotUse(t *testing.T) {
	for _, c := range []struct {
		args   []string
		status int
		want   string
	}{
		{[]string{"--card", "twenty"}, statusUsage, `--card: want intake opens-closes/exhaust opens-closes, as 20-60/60-20, got "twenty"`},
		{[]string{"--card", "20-60"}, statusUsage, "--card: want"},
		{[]string{"--card", "500-60/60-20"}, statusUsage, "engine.cam.intake_opens_btdc: want -20 to 60 degrees, got 500"},
		{[]string{"--measured", "12"}, statusUsage, `--measured: want`},
		{[]string{"--lift", "high"}, statusUsage, `--lift: want a lift above nought, as 1.25 mm or 0.05 in, got "high"`},
		{[]string{"--card", "20-60/60-20", "--teeth-out", "1"}, statusUsage, "give --teeth"},
		{[]string{"--measured", "12-64"}, statusUsage, "give --card"},
		{[]string{"--drive", "rope"}, statusUsage, `--drive: want chain, belt or gears, got "rope"`},
		{[]string{"--offset", "nan"}, statusUsage, `want a number, got "nan"`},
		{[]string{"--teeth", "3"}, statusUsage, "sprocket_teeth: want 10 to 120 teeth, got 3"},
		{[]string{"--lift", "0"}, statusUsage, `--lift: want a lift above nought, as 1.25 mm or 0.05 in, got "0"`},
		{[]string{"--lift", "-1 mm"}, statusUsage, "--lift: want a lift above nought"},
		{[]string{"--card", "20-60/60-20", "--measured", "12-64", "--lift", "0.01 mm"}, statusUsage, "lift: want 0.02 to 20 mm, got 0.01"},
		{[]string{"--card", "20-60/60-20", "--measured", "-90--90"}, statusUsage, "distance between the flanks: want 20 to 400 crank degrees, got 0"},
		{[]string{"--teeth", "40", "--offset", "4", "--phase", "3"}, statusUsage, "--offset, --phase: want one way of saying where the cam stands, got 2"},
		{[]string{"--teeth", "40", "--teeth-out", "1", "--phase", "18"}, statusUsage, "--teeth-out, --phase: want one way"},
		{[]string{"--teeth", "40", "--offset", "4", "--teeth-out", "1"}, statusUsage, "--offset, --teeth-out: want one way"},
		{[]string{"--card", "20-60/60-20", "--measured", "12-68", "--phase", "-8"}, statusUsage, "--measured, --phase: want one way"},
		{[]string{"--phase", "3", "--ignition", "perhaps"}, statusUsage, `--ignition: want moved, reset or unknown, got "perhaps"`},
		{[]string{"--phase", "3", "--write"}, statusFailed, "want a logbook to write into"},
		{[]string{"--book", "nowhere", "--phase", "3"}, statusFailed, "nowhere"},
		{[]string{"stray"}, statusUsage, "cam"},
	} {
		out, complaint, status := called(t, append([]string{"cam"}, c.args...)...)
		if status != c.status || !strings.Contains(complaint, c.want) || strings.Count(complaint, "\n") != 1 || out != "" {
			t.Errorf("%q: exit %d, %q; want exit %d, %q", c.args, status, complaint, c.status, c.want)
		}
	}
}

const cammed = `name = "Heron"
[engine]
cam = { intake_opens_btdc = 20, intake_closes_abdc = 56, exhaust_opens_bbdc = 56, exhaust_closes_atdc = 20, sprocket_teeth = 40 }
[[from]]
job = "cam-fit"
engine.cam = { intake_opens_btdc = 16, intake_closes_abdc = 56, exhaust_opens_bbdc = 59, exhaust_closes_atdc = 13, sprocket_teeth = 36 }
`

// The card is the one of the cam that is in it, by the day that is asked for; and what is written reads back.
func TestCamInALogbook(t *testing.T) {
	dir := logbook(t, map[string]string{"vehicle.toml": cammed, "work.csv": "id,date,kind,area,readings,my own column\ncam-fit,2025-05-18,fit,camshaft,,x\ncam-reading,2025-06-01,measure,camshaft,cam_phase_deg=-1,y\n"})
	if doc := document(t, "cam", "-b", dir); doc["intake_centreline"] != 110.0 || doc["degrees_per_tooth_crank"] != 20.0 || doc["book"] != "Heron" {
		t.Errorf("with the cam of cam-fit: %v", doc)
	}
	if doc := document(t, "cam", "-b", dir, "--as-of", "2025-01-01"); doc["intake_centreline"] != 108.0 || doc["degrees_per_tooth_crank"] != 18.0 {
		t.Errorf("before cam-fit: %v", doc)
	}
	doc := document(t, "cam", "-b", dir, "--measured", "11-61", "--measured", "12-60", "--write", "--date", "2025-07-02", "--note", "cold garage")
	if w := doc["written"].(map[string]any); w["file"] != "work.csv" || w["line"] != 4.0 || w["id"] != "cam-reading-2" {
		t.Errorf("written %v", w)
	}
	text, err := os.ReadFile(filepath.Join(dir, "work.csv"))
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{"cam-reading-2,2025-07-02,measure,camshaft,cam_phase_deg=-4.5", "cold garage", "my own column", "cam-fit,2025-05-18,fit,camshaft,,x"} {
		if !strings.Contains(string(text), want) {
			t.Errorf("work.csv lacks %q:\n%s", want, text)
		}
	}
	// what no model takes is not written
	for _, phase := range []string{"60", "-51", "150"} {
		before, _ := os.ReadFile(filepath.Join(dir, "work.csv"))
		_, complaint, status := called(t, "cam", "-b", dir, "--phase", phase, "--write")
		after, _ := os.ReadFile(filepath.Join(dir, "work.csv"))
		if status != statusUsage || !strings.Contains(complaint, "--write: cam_phase_deg: want -50 to 50 crank degrees, got "+phase) || string(before) != string(after) {
			t.Errorf("--phase %s --write: exit %d, %s\n%s", phase, status, complaint, after)
		}
	}
	bad := logbook(t, map[string]string{"vehicle.toml": "name = \"Heron\"\n[engine.cam]\nintake_opens_btdc = 70\n"})
	if _, complaint, status := called(t, "cam", "-b", bad, "--phase", "3"); status != statusFailed || !strings.Contains(complaint, `vehicle.toml:3: column "engine.cam.intake_opens_btdc": want -20 to 60 degrees, got 70`) {
		t.Errorf("a card that no engine has: exit %d, %s", status, complaint)
	}
	if _, complaint, status := called(t, "cam", "-b", dir, "--phase", "3", "--write", "--id", "cam-fit"); status != statusFailed || !strings.Contains(complaint, "cam-fit") {
		t.Errorf("an id that is taken: exit %d, %s", status, complaint)
	}
}

// Somebody at the engine is asked, told of slips, and may pass.
func TestCamTalk(t *testing.T) {
	var asked bytes.Buffer
	q := engine.NewCamQuestion(engine.UnknownCard())
	answers := "20-60\n20-60/60-20\n\n0\n1.25 mm\n12-68/52\n12-68/52-28\n11-69\n\nperhaps\nmoved\n"
	if err := (&talk{bufio.NewReader(strings.NewReader(answers)), &asked}).askCam(&q); err != nil {
		t.Fatal(err)
	}
	a, err := q.Answer()
	if err != nil || math.Abs(float64(a.PhaseErrorCrankDeg)+8.5) > 1e-9 || a.Repeats != 2 || q.LiftMM != 1.25 || q.Ignition != engine.IgnitionMoved {
		t.Errorf("%+v, %v", a, err)
	}
	for _, want := range []string{"all plugs out", "want intake opens-closes/exhaust opens-closes, as 20-60/60-20, got \"20-60\"", `got "12-68/52"`, "round 3", "want a lift above nought", `want moved, reset or unknown, got "perhaps"`} {
		if flat := strings.Join(strings.Fields(asked.String()), " "); !strings.Contains(flat, want) {
			t.Errorf("the talk lacks %q:\n%s", want, asked.String())
		}
	}
	q = engine.NewCamQuestion(engine.Card{IntakeOpensBTDC: 20, IntakeClosesABDC: 60, ExhaustOpensBBDC: 60, ExhaustClosesATDC: 20, SprocketTeeth: 40})
	if err := (&talk{bufio.NewReader(strings.NewReader("\n\n4\n\n")), &asked}).askCam(&q); err != nil || q.SprocketOffset != 4 || q.Ignition != engine.IgnitionUnknown {
		t.Errorf("without the wheel: %+v, %v", q, err)
	}
	if err := (&talk{bufio.NewReader(strings.NewReader("")), &asked}).askCam(&q); err == nil {
		t.Error("answers that end are taken for answers")
	}
}

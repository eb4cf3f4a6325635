package main

import (
	"encoding/json"
	"fmt"
	"io"
	"os"
	"regexp"
	"strings"
	"testing"
)

// brims are brim fills a week and 400 km apart.
func brims(n int) string {
	rows := "date,odometer_km,volume_l,full\n"
	for i := range n {
		rows += fmt.Sprintf("2024-%02d-%02d,%d,%d,yes\n", 1+i/4, 1+7*(i%4), 10000+400*i, 40+i%3)
	}
	return rows
}

const (
	workHeading = "id,date,odometer_km,kind,area,what\n"
	tripHeading = "date,odometer_start_km,odometer_end_km,road\n"
)

var name = map[string]string{"vehicle.toml": "name = \"Rook\"\n"}

func with(files ...string) map[string]string {
	all := map[string]string{"vehicle.toml": name["vehicle.toml"]}
	for i := 0; i < len(files); i += 2 {
		all[files[i]] = files[i+1]
	}
	return all
}

// Logbooks that can say little: each gets a clear answer. tanks and prove are words that the text must hold, verdict what the
// job's row says.
var sparse = []struct {
	name         string
	files        map[string]string
	tanks, prove string
	count        int
	verdict      any // of the job: nil = null; jobless where there is none
}{
	{"a name alone", with(), "no tank from brim to brim yet", "no job yet", 0, jobless},
	{"empty files", with("fills.csv", "", "trips.csv", "", "work.csv", ""), "no fills yet", "no fills yet", 0, jobless},
	{"headings alone", with("fills.csv", "date,odometer_km,volume_l\n", "trips.csv", tripHeading, "work.csv", workHeading), "no fills yet", "no job yet", 0, jobless},
	{"one fill", with("fills.csv", brims(1), "work.csv", workHeading+"job,2024-01-02,10100,repair,fuel,Job\n"), "one brim fill opens a tank", "none yet", 0, nil},
	{"one tank and a job in it", with("fills.csv", brims(2), "work.csv", workHeading+"job,2024-01-04,10100,repair,fuel,Job\n"), "1 tank so far", "none yet", 1, nil},
	{"part fills alone", with("fills.csv", strings.ReplaceAll(brims(5), "yes", "no"), "work.csv", workHeading+"job,2024-01-10,10500,repair,fuel,Job\n"),
		"no fill was to the brim", "none yet", 0, nil},
	{"every fill missed", with("fills.csv", strings.ReplaceAll(strings.ReplaceAll(brims(5), "full", "full,missed"), "yes", "yes,yes"), "work.csv", workHeading+"job,2024-01-10,10500,repair,fuel,Job\n"),
		"broken by a missed fill", "none yet", 0, nil},
	{"a job before the first fill", with("fills.csv", brims(8), "work.csv", workHeading+"job,2023-11-01,9000,repair,fuel,Job\n"), "over 7 tanks", "none yet", 7, nil},
	{"a job of the last day", with("fills.csv", brims(8), "work.csv", workHeading+"job,2024-02-22,,repair,fuel,Job\n"), "over 7 tanks", "none yet", 7, nil},
	{"a job in the future", with("fills.csv", brims(8), "work.csv", workHeading+"job,2093-01-01,,repair,fuel,Job\n"), "over 7 tanks", "none yet", 7, nil},
	{"a measurement alone", with("fills.csv", brims(8), "work.csv", workHeading+"job,2024-02-02,,measure,ignition,Look\n"), "over 7 tanks", "no job yet", 7, jobless},
	{"no trips", with("fills.csv", brims(8), "work.csv", workHeading+"job,2024-02-02,,repair,fuel,Job\n"), "0 % of the distance has trip notes", "undecided", 7, "undecided"},
}

// jobless marks a logbook whose list of jobs is empty.
const jobless = "no job"

func TestSparseLogbooks(t *testing.T) {
	for _, c := range sparse {
		t.Run(c.name, func(t *testing.T) {
			dir := logbook(t, c.files)
			if text := sound(t, "tanks", "-b", dir); !strings.Contains(unwrapped(text), c.tanks) {
				t.Errorf("tanks does not say %q:\n%s", c.tanks, text)
			}
			if text := sound(t, "prove", "-b", dir); !strings.Contains(unwrapped(text), c.prove) {
				t.Errorf("prove does not say %q:\n%s", c.prove, text)
			}
			tanks := one(t, "tanks", "-b", dir)
			if list := tanks["tanks"].([]any); len(list) != c.count {
				t.Errorf("%d tanks, want %d", len(list), c.count)
			}
			checkHead(t, tanks)
			proofs := one(t, "prove", "-b", dir)
			checkHead(t, proofs)
			jobs := proofs["jobs"].([]any)
			if (len(jobs) == 0) != (c.verdict == jobless) {
				t.Fatalf("%d jobs", len(jobs))
			}
			for _, j := range jobs {
				checkJob(t, j.(map[string]any), c.verdict)
			}
			if c.verdict != jobless {
				sound(t, "prove", "job", "-b", dir)
			}
			sound(t, "page", "-b", dir)
			one(t, "page", "-b", dir)
			one(t, "watch", "-b", dir)
			sound(t, "watch", "-b", dir)
		})
	}
}

// unwrapped is text without its line ends.
func unwrapped(text string) string { return strings.Join(strings.Fields(text), " ") }

// no program's word for a figure that it does not have may reach an owner.
var slipped = regexp.MustCompile(`NaN|[+-]?Inf\b|%!|<nil>|\bnil\b|null|undefined`)

// sound makes a call that must succeed, say something, and complain of nothing.
func sound(t *testing.T, args ...string) string {
	t.Helper()
	out, complaint, status := called(t, args...)
	if status != statusDone || complaint != "" || out == "" {
		t.Fatalf("%q: exit %d, %q, %q", args, status, out, complaint)
	}
	if bad := slipped.FindString(out); bad != "" {
		t.Errorf("%q prints %q:\n%s", args, bad, out)
	}
	for line := range strings.Lines(out) {
		if len([]rune(line)) > 101 && !strings.Contains(line, os.TempDir()) {
			t.Errorf("%q: a line of %d columns: %s", args, len([]rune(line)), line)
		}
	}
	return out
}

// one makes a call with --json that must print exactly one document, and nothing else.
func one(t *testing.T, args ...string) map[string]any {
	t.Helper()
	out, complaint, status := called(t, append(args, "--json")...)
	if status != statusDone || complaint != "" {
		t.Fatalf("%q: exit %d, %s", args, status, complaint)
	}
	d := json.NewDecoder(strings.NewReader(out))
	doc := map[string]any{}
	if err := d.Decode(&doc); err != nil {
		t.Fatalf("%q: %v in %s", args, err, out)
	}
	if _, err := d.Token(); err != io.EOF {
		t.Errorf("%q prints more than one document", args)
	}
	if strings.TrimSpace(out)[0] != '{' || !strings.HasSuffix(out, "}\n") {
		t.Errorf("%q prints something beside the document", args)
	}
	return doc
}

func checkHead(t *testing.T, doc map[string]any) {
	t.Helper()
	if doc["book"] != "Rook" {
		t.Errorf("book %v", doc["book"])
	}
	if _, ok := doc["as_of"].(string); !ok {
		t.Errorf("as_of %v", doc["as_of"])
	}
	notes, ok := doc["notes"].([]any)
	if !ok || len(notes) == 0 {
		t.Errorf("notes %v: something limits every one of these answers", doc["notes"])
	}
}

// checkJob holds that without a verdict no figure of one is given: null, never 0.
func checkJob(t *testing.T, j map[string]any, verdict any) {
	t.Helper()
	if j["verdict"] != verdict {
		t.Errorf("verdict %v, want %v", j["verdict"], verdict)
	}
	for _, name := range []string{"change_pct", "low_pct", "high_pct", "chance_less_fuel", "odds_changed"} {
		x, ok := j[name]
		if !ok || (x == nil) != (verdict == nil) {
			t.Errorf("%s is %v with verdict %v", name, x, verdict)
		}
	}
	for _, name := range []string{"against_healthy_pct", "saving_per_1000km", "pays_back_km", "cost", "tanks_to_go", "placebo_tried"} {
		if x, ok := j[name]; !ok || x == 0.0 {
			t.Errorf("%s is %v", name, x)
		}
	}
	for _, name := range []string{"together_with", "path", "notes"} {
		if _, ok := j[name].([]any); !ok {
			t.Errorf("%s is %v, want a list", name, j[name])
		}
	}
	if verdict == nil && len(j["notes"].([]any)) == 0 {
		t.Log("no note says why there is no verdict")
	}
}

// Figures that the logbook does not hold are null.
func TestUnknownIsNull(t *testing.T) {
	for _, k := range one(t, "tanks", "-b", logbook(t, with("fills.csv", brims(3))))["tanks"].([]any) {
		tank := k.(map[string]any)
		for _, name := range []string{"air_c", "town_share", "cost"} {
			if x, ok := tank[name]; !ok || x != nil {
				t.Errorf("%s is %v, want null", name, x)
			}
		}
		if tank["noted_share"] != 0.0 || tank["distance_km"] != 400.0 || !(tank["sd_pct"].(float64) > 0) {
			t.Errorf("tank %v", tank)
		}
	}
}

// Two jobs in one tank: each named beside the other, the same figures under both.
func TestTwoJobsInOneTank(t *testing.T) {
	dir := logbook(t, with("fills.csv", brims(12), "work.csv", workHeading+"plugs,2024-02-03,,service,ignition,Plugs\njets,2024-02-05,,adjust,fuel,Jets\n"))
	jobs := one(t, "prove", "-b", dir)["jobs"].([]any)
	a, b := jobs[0].(map[string]any), jobs[1].(map[string]any)
	if fmt.Sprint(a["together_with"], b["together_with"]) != "[jets] [plugs]" {
		t.Errorf("together with %v and %v", a["together_with"], b["together_with"])
	}
	for _, name := range []string{"verdict", "change_pct", "low_pct", "high_pct", "odds_changed", "chance_less_fuel", "path", "tanks_before", "tanks_after", "tanks_to_go", "raw_change_pct"} {
		if fmt.Sprint(a[name]) != fmt.Sprint(b[name]) {
			t.Errorf("%s: %v and %v", name, a[name], b[name])
		}
	}
	if text := unwrapped(sound(t, "prove", "plugs", "-b", dir)); !strings.Contains(text, "same tank as jets") {
		t.Errorf("the text does not say so:\n%s", text)
	}
}

// Calls that cannot be understood, and logbooks that cannot be read: one line on standard error, nothing on standard output.
func TestRefusals(t *testing.T) {
	good := logbook(t, with("fills.csv", brims(6), "work.csv", workHeading+"plugs,2024-02-03,,service,ignition,Plugs\n"))
	for _, c := range []struct {
		args   []string
		status int
		says   string
	}{
		{[]string{"polish"}, statusUsage, `no command "polish"`},
		{[]string{"tanks", "--shiny"}, statusUsage, "shiny"},
		{[]string{"tanks", "extra"}, statusUsage, "brimlog help tanks"},
		{[]string{"prove", "one", "two"}, statusUsage, "brimlog help prove"},
		{[]string{"page", "extra"}, statusUsage, "brimlog help page"},
		{[]string{"init"}, statusUsage, "brimlog help init"},
		{[]string{"tanks", "--economy", "furlongs"}, statusUsage, "want mpg_uk, mpg_us, l_100km or km_l"},
		{[]string{"tanks", "--economy", "gal_uk"}, statusUsage, "want mpg_uk, mpg_us, l_100km or km_l"},
		{[]string{"tanks", "--as-of", "yesterday"}, statusUsage, "--as-of: want a date"},
		{[]string{"prove", "--as-of", "2024-02-30"}, statusUsage, "--as-of: want a day that the calendar has"},
		{[]string{"prove", "valves"}, statusFailed, `no job "valves" that changed the vehicle: there are plugs`},
		{[]string{"tanks", "-b", good + "/nowhere"}, statusFailed, "nothing there"},
		{[]string{"tanks", "-b", good + "/fills.csv"}, statusFailed, "got a file"},
		{[]string{"tanks", "-b", logbook(t, map[string]string{"fills.csv": brims(3)})}, statusFailed, "vehicle.toml"},
		{[]string{"tanks", "-b", logbook(t, map[string]string{"vehicle.toml": ""})}, statusFailed, "vehicle.toml"},
		{[]string{"tanks", "-b", logbook(t, with("fills.csv", "odometer_km,volume_l\n1,2\n"))}, statusFailed, "fills.csv:1"},
		{[]string{"page", "-b", good, "--output", good + "/nowhere/page.html"}, statusFailed, "nowhere"},
	} {
		for _, more := range [][]string{nil, {"--json"}} {
			args := append(append([]string{}, c.args...), more...)
			if !strings.Contains(strings.Join(args, " "), "-b ") {
				args = append(args, "-b", good)
			}
			out, complaint, status := called(t, args...)
			if status != c.status || !strings.Contains(complaint, c.says) {
				t.Errorf("%q: exit %d, %q; want %d and %q", args, status, complaint, c.status, c.says)
			}
			if out != "" || strings.Count(complaint, "\n") != 1 || !strings.HasPrefix(complaint, "brimlog: ") {
				t.Errorf("%q: prints %q, complains %q", args, out, complaint)
			}
		}
	}
}

package charts

import (
	"math"
	"os"
	"regexp"
	"strings"
	"testing"

	"brimlog/ingest/book"
	"brimlog/stats"
	"brimlog/stats/suspect"
)

// suspected is a drawn log of which something is suspected.
func suspected(more func(*suspect.Evidence)) *stats.Review {
	r := heron()
	e := suspect.Nothing()
	e.Excess, e.ExcessSD, e.FuelSystem = math.Log(1.09), 0.03, "carburettor"
	e.Onset = suspect.Onset{Form: suspect.Sudden, Tanks: 5}
	e.Jobs = []suspect.Job{{Areas: []string{"ignition"}, What: "Timing set by <b>ear</b>"}}
	e.Grades[book.WeakLow] = suspect.Judged{Typical: book.Moderate, Worst: book.Heavy}
	if more != nil {
		more(&e)
	}
	r.Suspects = &stats.Suspected{Began: stats.Began{With: "job", Job: "distributor", FromDate: "2024-10-05", RisePct: 9, ExcessPct: 9, ExcessLowPct: 4, ExcessHighPct: 14}, Drives: 12}
	r.Suspects.Weigh(e)
	verdict := "better"
	r.Jobs[1].Driveability = stats.Driveability{Before: 12, After: 2, Verdict: &verdict, Symptoms: []stats.SymptomDrive{
		{Symptom: "weak_low", Name: "weak low-down pull", Before: 2, After: 0.1, GradeBefore: "moderate", GradeAfter: "none", DrivesBefore: 19, DrivesAfter: 30, Clear: true},
		{Symptom: "knock", Name: "knock", Before: 0.4, After: 0.3, GradeBefore: "none", GradeAfter: "none", DrivesBefore: 19, DrivesAfter: 30},
	}}
	return r
}

// part is the section of that id as text with its tags.
func part(t *testing.T, page, id string) string {
	t.Helper()
	m := regexp.MustCompile(`(?s)<section id="` + id + `".*?</section>`).FindString(page)
	if m == "" {
		t.Fatalf("no section %q", id)
	}
	return m
}

func TestSuspectsOnThePage(t *testing.T) {
	r := suspected(nil)
	s := part(t, pageOf(t, r), "suspects")
	for _, want := range []string{"Ignition set late", "It began with distributor (5 Oct 2024)", "How it drove on 12 judged drives", "Timing set by &lt;b&gt;ear&lt;/b&gt;",
		"What to look at next", "With the engine running, outdoors"} {
		if !strings.Contains(s, want) {
			t.Errorf("the section does not say %q", want)
		}
	}
	// Nothing that must be read may lie in what is folded away.
	open := regexp.MustCompile(`(?s)<details>.*?</details>`).ReplaceAllString(s, "")
	told := 0
	for _, g := range r.Suspects.Next() {
		for _, c := range g.Checks {
			told++
			if !strings.Contains(unescape(open), c.Caution) {
				t.Errorf("%s: its caution is not in sight", c.Check)
			}
		}
	}
	if told == 0 {
		t.Error("no check is told")
	}
	for _, bad := range []string{"bits", "demerit", "NaN", "<b>"} {
		if strings.Contains(strings.ToLower(s), strings.ToLower(bad)) {
			t.Errorf("the section says %q", bad)
		}
	}
}

func TestStopStandsFirst(t *testing.T) {
	s := part(t, pageOf(t, suspected(func(e *suspect.Evidence) { e.Seen = map[string]string{"fuel_leak": "heavy"} })), "suspects")
	stop, lead := strings.Index(s, "Stop: fuel is leaking"), strings.Index(s, `class="lead"`)
	if stop < 0 || lead < stop {
		t.Errorf("the stop stands at %d, the answer at %d", stop, lead)
	}
	if strings.Contains(s, "outdoors</h3>") || strings.Contains(s, "On the road") {
		t.Error("with fuel leaking a check with the engine running is offered")
	}
}

// How it drove is told by symptom, for what has clearly changed, with a way to the job.
func TestHowItDroveIsTold(t *testing.T) {
	s := part(t, pageOf(t, suspected(nil)), "suspects")
	row := regexp.MustCompile(`<tr><td><a href="#job-2"><bdi>[^<]*</bdi></a><th scope="row">Weak low-down pull<td>moderate<td>none<td>19 and 30`)
	if !row.MatchString(s) {
		t.Error("the changed symptom is not told")
	}
	if strings.Contains(s, ">Knock<") {
		t.Error("a symptom that has not changed is told as if it had")
	}
}

func TestNoSuspectsNoSection(t *testing.T) {
	for name, r := range map[string]*stats.Review{"nobody asked": heron(), "an empty log": {Head: stats.Head{Book: "Wren"}, Suspects: suspected(nil).Suspects}} {
		if strings.Contains(pageOf(t, r), `<section id="suspects"`) {
			t.Errorf("%s, and yet there is a section", name)
		}
	}
}

// The section in a browser: as wide as a phone and a desk, by day and by night, and axe-core finds no violation in it.
func TestSuspectsLook(t *testing.T) {
	axe, err := os.ReadFile("../testdata/axe/axe.min.js")
	if err != nil {
		t.Fatal(err)
	}
	r := suspected(func(e *suspect.Evidence) { e.Seen = map[string]string{"knock": "heavy"} })
	s := visit(t, r, look{width: 360, height: 800})
	s.unfold()
	s.fits(look{width: 360, height: 800})
	s.contrasts()
	s.accessible(axe)
	s.see(look{width: 1280, height: 900, dark: true})
	s.fits(look{width: 1280, height: 900, dark: true})
	s.contrasts()
	s.quiet()
}

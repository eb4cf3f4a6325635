package suspect

import (
	"strings"
	"testing"

	"brimlog/ingest/book"
)

// What a job touches has to be read again; what it does not touch still holds (common practice).
func TestWhatAJobTouches(t *testing.T) {
	for _, c := range []struct {
		area, reading string
		touched       bool
	}{
		{"ignition", "timing_idle_deg", true}, {"camshaft", "timing_2500_deg", true}, {"ignition", "idle_vacuum_inhg", true}, {"camshaft", "compression_bar", true},
		{"valves", "compression_bar", true}, {"brakes", "coast_s", true}, {"tyres", "coast_s", true}, {"fuel", "co_pct", true}, {"brakes", "hubs", true}, {"ignition", "pull_s", true},
		{"ignition", "compression_bar", false}, {"fuel", "compression_bar", false}, {"ignition", "coast_s", false}, {"brakes", "idle_vacuum_inhg", false}, {"tyres", "timing_idle_deg", false},
		{"other", "pull_s", false}, {"other", "oil_pressure_bar", true}, {"no_such_area", "plug", false},
	} {
		if got := Standard().Touches(c.area, c.reading); got != c.touched {
			t.Errorf("work on %s touches %s: %v, want %v", c.area, c.reading, got, c.touched)
		}
	}
}

func TestUnderstand(t *testing.T) {
	for _, c := range []struct{ id, text, word, fault string }{
		{"weak_low", "heavy", "heavy", ""}, {"weak_low", " Heavy ", "heavy", ""}, {"smoke", "grey", "black", ""}, {"smell", "hot oil", "oil", ""}, {"hubs", "one_hot", "one_hot", ""},
		{"weak_low", "bad", "", "none, trace, moderate, heavy"}, {"weak_low", "", "", "none, trace"}, {"weak_lo", "heavy", "", "hard_start"}, {"timing_idle_deg", "-5", "", "no sign"},
		{"fuel", "more", "", "no sign"},
	} {
		word, err := Standard().Understand(c.id, c.text)
		if word != c.word || (err == nil) != (c.fault == "") || err != nil && !strings.Contains(err.Error(), c.fault) {
			t.Errorf("%s=%s: %q, %v", c.id, c.text, word, err)
		}
	}
}

// One dangerous drive lately says stop, however well the rest went; the owner's own answer overrules it.
func TestOneDangerousDriveLately(t *testing.T) {
	e := heronLate()
	e.Grades[book.Knock] = Judged{Typical: book.None, Worst: book.None, Lately: book.Heavy}
	if r := Rank(e); len(r.Stop) != 1 || r.Stop[0].Sign != "knock" || !Standard().MustStop(e) {
		t.Errorf("stop: %+v", r.Stop)
	}
	e.Seen = map[string]string{"knock": "none"}
	if Standard().MustStop(e) {
		t.Error("the owner says that it does not knock, and is told to stop")
	}
	e.Seen = nil
	e.Grades[book.Knock].Lately = book.Trace
	if Standard().MustStop(e) {
		t.Error("a trace of knock says stop")
	}
}

// A symptom that was there before it began speaks as an absent one, and is told for what it is.
func TestAsBefore(t *testing.T) {
	absent, asBefore := heronLate(), heronLate()
	absent.Grades[book.RoughIdle] = Judged{Typical: book.None}
	asBefore.Grades[book.RoughIdle] = Judged{Typical: book.Trace, AsBefore: true}
	sameChances(t, chances(Rank(asBefore)), chances(Rank(absent)))
	told := false
	for _, s := range Rank(asBefore).Suspects {
		for _, why := range append(s.Because, s.Against...) {
			told = told || strings.Contains(why, "rough idling no worse than before it began")
			if strings.Contains(why, "no rough idling") {
				t.Errorf("%s: %q", s.Cause, why)
			}
		}
	}
	if !told {
		t.Error("nothing says that it idles no worse than before")
	}
}

// An onset told with doubt moves a cause less, and one told with even doubt stands between the two forms.
func TestDoubtfulOnset(t *testing.T) {
	at := func(f Form, doubt float64) float64 {
		e := Nothing()
		e.Onset = Onset{Form: f, Tanks: 4, Doubt: doubt}
		return chances(Rank(e))["chain_stretch"] // which comes slowly
	}
	sure, doubtful, even, slowly := at(Sudden, 0), at(Sudden, 0.3), at(Sudden, 0.5), at(Gradual, 0)
	if !(sure < doubtful && doubtful < even && even < slowly) {
		t.Errorf("chances of a slow cause: at once %.4f, perhaps at once %.4f, either way %.4f, slowly %.4f", sure, doubtful, even, slowly)
	}
	if other := at(Gradual, 0.5); other-even > 1e-9 || even-other > 1e-9 {
		t.Errorf("either way is %.6f and %.6f", even, other)
	}
}

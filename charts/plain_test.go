package charts

import (
	"regexp"
	"strings"
	"testing"

	"brimlog/stats"
)

// Dates are written in one form wherever the page speaks; only what is copied from a file stays as the file has it.
func TestDatesInOneForm(t *testing.T) {
	r := suspected(nil)
	r.Notes = append(r.Notes, "nothing is known before 2022-03-05, nor (2022-03-09T17:40)")
	r.Jobs[2].Notes = append(r.Jobs[2].Notes, "measured on 2022-04-01")
	iso := regexp.MustCompile(`\d{4}-\d\d-\d\d`)
	page := bare(pageOf(t, r))
	for _, s := range []string{"answers", "timeline", "watch", "work", "expected", "suspects", "money", "tanks", "reckoned"} {
		if bad := iso.FindString(part(t, page, s)); bad != "" {
			t.Errorf("%s writes %s", s, bad)
		}
	}
	if got := textOf(t, r, "reckoned"); !strings.Contains(got, "before 5 Mar 2022, nor (9 Mar 2022)") {
		t.Error("dates in a note are not spoken")
	}
	for _, own := range []string{"oil-2024-01-02", "2024-01-02-oil", "12024-01-02", "2024-01-020"} {
		if got := datesSpoken("after " + own + " it pulled"); got != "after "+own+" it pulled" {
			t.Errorf("a name that holds a date is rewritten: %s", got)
		}
	}
}

// Odds are told in one way, the larger number first, wherever they stand.
func TestOddsInOneNotation(t *testing.T) {
	r := heron()
	text := textOf(t, r, "")
	if bad := regexp.MustCompile(`(?:^|[^\d.])1 to \d|\d+:1\b|1/\d+`).FindString(text); bad != "" {
		t.Errorf("odds are written as %q", bad)
	}
	if !regexp.MustCompile(`[\d.]+ to 1 against`).MatchString(text) {
		t.Error("no job has odds against it, so the test sees too little")
	}
	for _, other := range []string{"'1 to '", "'1/'", "1/million"} {
		if strings.Contains(script(), other) {
			t.Errorf("the script writes odds as %s", other)
		}
	}
}

// Money without a currency is a plain number, and each part of the page that has amounts says so; with one, nothing is said.
func TestMoneyWithoutCurrency(t *testing.T) {
	r := heron()
	if said := textOf(t, r, ""); strings.Contains(said, "no currency") || strings.Contains(said, "currency not named") || !strings.Contains(said, "Paid, GBP") {
		t.Error("a log with a currency is told that it has none")
	}
	r.Show.Currency = ""
	for id, want := range map[string]string{"answers": "names no currency", "money": "names no currency", "tanks": "Paid, currency not named"} {
		if said := textOf(t, r, id); !strings.Contains(said, want) {
			t.Errorf("%s does not say %q", id, want)
		}
	}
	if strings.ContainsAny(textOf(t, r, ""), "£€$") {
		t.Error("a currency is made up")
	}
}

// What holds for every job is said once, above them, and not on each card.
func TestWhatHoldsForAllIsSaidOnce(t *testing.T) {
	text := textOf(t, heron(), "")
	for _, once := range []string{"20 to 1 counts as proof", "nothing and often mislead", "are allowed for", "a date on which nothing was done"} {
		if n := strings.Count(text, once); n != 1 {
			t.Errorf("%q is said %d times", once, n)
		}
	}
}

// How it drives since a job is told as prove tells it, from the symptoms that have clearly changed.
func TestCardsTellHowItDrives(t *testing.T) {
	r := suspected(nil)
	var got string
	for _, c := range work(open(r)).Data.(workshop).Cards {
		for _, f := range c.Fields {
			if c.Number == 2 && f.Label == "How it drives since" {
				got = textIn(f.Value) + ": " + textIn(f.Under)
			}
		}
	}
	if want := "better: Weak low-down pull: moderate before, none since"; got != want {
		t.Errorf("the card says %q, want %q", got, want)
	}
	if drive := r.Jobs[1].Driveability.Changed()[0].String(); !strings.Contains(strings.ToLower(got), strings.ToLower(drive)) {
		t.Errorf("the card says %q, prove %q", got, drive)
	}
	clear := "worse"
	r.Jobs[3].Driveability = stats.Driveability{Before: 1, After: 2, Verdict: &clear}
	if text := textOf(t, r, "work"); !strings.Contains(text, "But no single symptom by a whole grade") || strings.Contains(text, "faults a trip") {
		t.Error("a job that changed no symptom by a whole grade is not told as such")
	}
}

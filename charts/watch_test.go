package charts

import (
	"html/template"
	"regexp"
	"strings"
	"testing"

	"brimlog/ingest/quantity"
	"brimlog/stats"
	"brimlog/stats/watch"
)

func TestWatchTellsTheReview(t *testing.T) {
	r := heron()
	got := textOf(t, r, "watch")
	newest, older := r.Watch.Shifts[1], r.Watch.Shifts[0]
	for _, want := range []string{
		"6.8 % more fuel", "It came between " + dates(newest.FromDate, newest.ToDate, " and ") + ". No job is named for it", "3.9 to 9.7 % more", "240 to 1 for a change",
		"4.2 % less fuel", "It came between " + dates(older.FromDate, older.ToDate, " and ") + ". strobe fell within those dates",
		"A next tank like the recent ones should come to 23.3 to 27.2 mpg (UK), 90 % sure. A next tank thriftier than 28.5 mpg (UK) would call the alarm off.",
		"thirsty", "frugal", "short fill", "over-fill", "slip of the pen?", "4.8 times the scatter",
	} {
		if !strings.Contains(got, want) {
			t.Errorf("the watch does not say %q", want)
		}
	}
	if strings.Index(got, "6.8 %") > strings.Index(got, "4.2 %") {
		t.Error("the older shift stands first")
	}
	if got = textOf(t, r, "timeline"); !strings.Contains(got, "Marked: 2 shifts without a job and 5 tanks that stand out") {
		t.Error("the words of the chart do not say what is marked in it")
	}
	if strings.Contains(got, "13.0 mpg") {
		t.Error("the thirstiest tank is a slip of the pen")
	}
}

// With nothing to tell the section is one sentence, and without a watch there is nothing of it anywhere.
func TestWatchKeepsCalm(t *testing.T) {
	if got := strings.TrimSpace(strings.TrimPrefix(strings.TrimSpace(textOf(t, tiny(), "watch")), "On watch")); got != "All quiet: over 3 tanks nothing has shifted that a job does not account for, and no tank stands out." {
		t.Errorf("a quiet log is told %q", got)
	}
	r := heron()
	r.Watch = nil
	for name, page := range map[string]string{"never asked": textOf(t, r, ""), "no tanks": textOf(t, empty(), "")} {
		for _, not := range []string{"On watch", "slipped since", "Expected, 90", "Stands out", "alarm"} {
			if strings.Contains(page, not) {
				t.Errorf("%s: the page says %q", name, not)
			}
		}
	}
}

func TestSlippedAnswers(t *testing.T) {
	unknown := Figure(quantity.Unknown)
	for _, c := range []struct {
		name               string
		change             float64 // of the newest shift; 0 for none
		jobs               []string
		alarm              bool
		raises, clears     Figure // L/100 km
		mark, figure, sure string
	}{
		{"quiet, one tank would do", 0, nil, false, 14.1, unknown, "■", "No, nothing", "A next tank thirstier than 20.0 mpg (UK) would raise the alarm at once."},
		{"quiet, one tank would not", 0, nil, false, unknown, unknown, "■", "No, nothing", "No single tank would raise the alarm"},
		{"alarm, one tank would do", 6.8, nil, true, unknown, 9.4, "▼", "Yes: 6.8 % more fuel", "A next tank thriftier than 30.1 mpg (UK) would call the alarm off."},
		{"alarm, one tank would not", 6.8, nil, true, unknown, unknown, "▼", "Yes: 6.8 % more fuel", "No single tank would call the alarm off."},
		{"a job fell within", 6.8, []string{"tyres"}, false, unknown, unknown, "▽", "Perhaps: 6.8 % more fuel", "No single tank would raise the alarm"},
		{"for the better", -4.2, nil, false, unknown, unknown, "▲", "No: 4.2 % less fuel", "No single tank would raise the alarm"},
	} {
		r := heron()
		r.Watch.Alarm, r.Watch.Next.AlarmAbove, r.Watch.Next.ClearBelow = c.alarm, c.raises, c.clears
		r.Watch.Shifts = nil
		if c.change != 0 {
			r.Watch.Shifts = []stats.Shift{{FromDate: "2023-11-13", ToDate: "2023-12-07", ChangePct: Figure(c.change), LowPct: 1, HighPct: 9, OddsChanged: 50, Jobs: c.jobs, SinceTank: 61}}
		}
		a, ok := slipped(open(r))
		said := func(h template.HTML) string { return strings.ReplaceAll(textIn(h), "\u00a0", " ") }
		if !ok || a.Mark.Mark != c.mark || said(a.Figure) != c.figure || !strings.Contains(said(a.Sure), c.sure) {
			t.Errorf("%s: %s %s / %s, want %s %s / %s", c.name, a.Mark.Mark, said(a.Figure), said(a.Sure), c.mark, c.figure, c.sure)
		}
		if c.alarm {
			r.Watch.Shifts[0].OddsChanged = 5
			if a, _ := slipped(open(r)); a.Mark.Mark != "▽" || said(a.Figure) != "It seems so: 6.8 % more fuel" {
				t.Errorf("%s, at odds of 5: %s %s", c.name, a.Mark.Mark, said(a.Figure))
			}
		}
		if dated := strings.Contains(said(a.Sentence), "13 Nov and 7 Dec 2023"); dated != (c.change != 0) {
			t.Errorf("%s: the answer is %q", c.name, said(a.Sentence))
		}
		for _, id := range c.jobs {
			if !strings.Contains(said(a.Sentence), id) {
				t.Errorf("%s: the job is not named: %q", c.name, said(a.Sentence))
			}
		}
	}
}

// What crept in is told so, with the stretch it took, and without a first tank.
func TestShiftThatCreptIn(t *testing.T) {
	r := heron()
	r.Watch.Shifts = []stats.Shift{{FromDate: "2023-05-01", ToDate: "2023-11-13", ChangePct: 9, LowPct: 6, HighPct: 12, OddsChanged: 90, Jobs: []string{}, SinceTank: 61, Gradual: true}}
	got := textOf(t, r, "watch")
	if !strings.Contains(got, "It crept up between 1 May and 13 Nov 2023") || !strings.Contains(got, "little by little") || strings.Contains(got, "First tank after it") {
		t.Errorf("a climb is told as %s", got)
	}
	r.Watch.Shifts[0].ChangePct = -9
	if got = textOf(t, r, "watch"); !strings.Contains(got, "It crept down between") {
		t.Errorf("a fall is told as %s", got)
	}
}

// A fault that a later job is proved to have cured is told with its cure, the first that there was or the one that the watch found.
func TestShiftThatWasCured(t *testing.T) {
	r := heron()
	r.Watch.Shifts = []stats.Shift{{FromDate: "2022-05-01", ToDate: "2022-06-01", ChangePct: 7, LowPct: 4, HighPct: 10, OddsChanged: 90, Jobs: []string{}, SinceTank: 8}}
	if got := textOf(t, r, "watch"); !strings.Contains(got, "Since then strobe is proved to have brought 7.5 % less fuel") {
		t.Errorf("the cure is not told: %s", got)
	}
	r.Watch.Shifts[0].TakenBackBy, r.Watch.Alarm = "cam-fit", false
	if got := textOf(t, r, "answers"); !strings.Contains(got, "Not any more") || !strings.Contains(got, "it began to take 7.0 % more fuel") || !strings.Contains(got, "Since then cam-fit is proved to have brought") {
		t.Errorf("a fault that was taken back is answered %s", got)
	}
	r.Watch.Shifts[0].TakenBackBy = ""
	r.Watch.Shifts[0].FromDate, r.Watch.Shifts[0].ToDate = "2024-01-01", "2024-02-01"
	if got := textOf(t, r, "watch"); strings.Contains(got, "Since then") {
		t.Errorf("an earlier job cured it: %s", got)
	}
}

// Each reading that the watch can give is shown, in words and by a shape of its own.
func TestEveryReadingHasItsOwnMark(t *testing.T) {
	seen := map[string]bool{}
	for _, want := range []string{watch.Thirsty, watch.Frugal, watch.ShortFill, watch.OverFill, watch.EntrySlip} {
		i := readingOf(&stats.WatchedTank{Reading: &want})
		if i < 0 {
			t.Errorf("%s is not shown", want)
			continue
		}
		if r := readings[i]; r.word == "" || r.means == "" || r.key == "" || seen[r.mark] {
			t.Errorf("%s is shown as %q, %q", want, r.mark, r.word)
		}
		seen[readings[i].mark] = true
	}
	if len(seen) != len(readings) || readings[slipOfThePen].reading != watch.EntrySlip {
		t.Errorf("%d readings are shown, %d are given", len(readings), len(seen))
	}
}

func TestTanksTableTellsTheReading(t *testing.T) {
	page := bare(pageOf(t, heron()))
	for n, word := range map[string]string{"12": "thirsty", "21": "frugal", "31": "short fill", "41": "over-fill", "52": "slip of the pen?"} {
		row := regexp.MustCompile(`<tr id="tank-` + n + `"><th scope="row">` + n + `<.*`).FindString(page)
		if !strings.Contains(row, "</span> "+word+"</span>") {
			t.Errorf("the row of tank %s lacks %q: %s", n, word, row)
		}
	}
	if n := strings.Count(page, `<tr id="tank-`); n != 5 {
		t.Errorf("%d rows are marked, want 5", n)
	}
	p := payloadOf(t, pageOf(t, heron()))
	if tank := p.Tanks[11]; len(tank) != 16 || tank[15] != 0 || float64(tank[13]) != round(float64(heron().Watch.Tanks[11].ExpectedLow), shown) {
		t.Errorf("tank 12 travels as %v, want its expected range and reading 0 at the end", tank)
	}
	if x := float64(p.Tanks[12][15]); quantity.Known(x) {
		t.Errorf("an ordinary tank has the reading %v", x)
	}
}

// A job done since a rise, and not yet proved to have cured it, is named in the answer.
func TestSlippedNamesTheJobSince(t *testing.T) {
	r := heron()
	r.Watch.Alarm = true
	r.Watch.Shifts = []stats.Shift{{FromDate: "2023-11-13", ToDate: "2023-12-07", ChangePct: 7, LowPct: 4, HighPct: 9, OddsChanged: 50, JobsSince: []string{"mend"}}}
	a, _ := slipped(open(r))
	if got := strings.ReplaceAll(textIn(a.Sentence), "\u00a0", " "); !strings.Contains(got, "Whether mend, done since, took it back is not yet proved.") {
		t.Errorf("%q", got)
	}
	r.Watch.Shifts[0].TakenBackBy = "mend"
	if a, _ := slipped(open(r)); strings.Contains(textIn(a.Sentence), "not yet proved") {
		t.Error("proved, and told as open")
	}
}

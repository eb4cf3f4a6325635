package main

import (
	"bytes"
	"strings"
	"testing"

	"brimlog/ingest/book"
	"brimlog/stats"
)

// The text says whether a shift came at once or crept in, in its sentence and in its row.
func TestWatchSaysHowAShiftCame(t *testing.T) {
	for _, c := range []struct {
		change  stats.Figure
		gradual bool
		odds    stats.Figure
		want    string
	}{
		{12, false, 4, "it seems to use 12.0 % more fuel, like for like (odds 4.0:1); no job is named for it, so something may have slipped"},
		{12, false, 50, "no job is named for it, so something has slipped."},
		{12, false, 50, "since between 2024-03-01 and 2024-05-01 it uses 12.0 % more fuel"},
		{12, true, 50, "between 2024-03-01 and 2024-05-01 its fuel crept up by 12.0 %"},
		{-12, true, 50, "between 2024-03-01 and 2024-05-01 its fuel crept down by 12.0 %"},
		{12, true, 4, "between 2024-03-01 and 2024-05-01 its fuel seems to have crept up by 12.0 %, like for like (odds 4.0:1); no job is named for it, so something may have slipped"},
	} {
		var out bytes.Buffer
		s := (&app{out: &out}).sheet(book.Show{})
		r := &stats.Review{Watch: &stats.Watch{
			Tanks:  make([]stats.WatchedTank, 1),
			Shifts: []stats.Shift{{FromDate: "2024-03-01", ToDate: "2024-05-01", ChangePct: c.change, LowPct: c.change - 3, HighPct: c.change + 3, OddsChanged: c.odds, Gradual: c.gradual}},
			Alarm:  c.change > 0,
		}}
		s.watch(r)
		got := strings.Join(strings.Fields(out.String()), " ")
		if !strings.Contains(got, c.want) || c.gradual != strings.Contains(got, "2024-05-01 crept") {
			t.Errorf("%+.0f, gradual %v: %s", float64(c.change), c.gradual, got)
		}
	}
}

// What a job took back is told with its odds, and only as what seems so where they are no proof.
func TestWatchSaysWhatWasTakenBack(t *testing.T) {
	for _, c := range []struct {
		odds stats.Figure
		want string
	}{
		{50, "fuel rose by 12.0 % without a job (odds 50:1); points took most or all of it back"},
		{4, "fuel seems to have risen by 12.0 % without a job (odds 4.0:1); points took most or all of it back"},
	} {
		if got := newestShift(stats.Shift{ChangePct: 12, OddsChanged: c.odds, TakenBackBy: "points"}, false); !strings.Contains(got, c.want) {
			t.Errorf("odds %v: %s", c.odds, got)
		}
	}
}

// A job done since a rise, and not yet proved to have cured it, is named beside the alarm.
func TestWatchNamesTheJobSince(t *testing.T) {
	h := stats.Shift{FromDate: "2024-03-01", ToDate: "2024-05-01", ChangePct: 12, LowPct: 9, HighPct: 15, OddsChanged: 50, JobsSince: []string{"mend"}}
	if got, want := newestShift(h, true), "no job is named for it. Whether mend, done since, took it back is not yet proved."; !strings.HasSuffix(got, want) {
		t.Errorf("%q, want it to end %q", got, want)
	}
}

// A shift that only seems one does not hide an earlier one that is sure and that nobody accounts for.
func TestDoubtHidesNoProof(t *testing.T) {
	sure := stats.Shift{FromDate: "2024-02-01", ToDate: "2024-03-01", ChangePct: 12, OddsChanged: 80}
	cured, named, doubt := sure, sure, stats.Shift{ChangePct: 3, OddsChanged: 2}
	cured.TakenBackBy, named.Jobs = "points", []string{"points"}
	for _, c := range []struct {
		shifts []stats.Shift
		told   bool
	}{{[]stats.Shift{sure, doubt}, true}, {[]stats.Shift{sure, sure}, false}, {[]stats.Shift{cured, doubt}, false}, {[]stats.Shift{named, doubt}, false}, {[]stats.Shift{sure, named, doubt}, true}} {
		got := surerShift(c.shifts)
		if told := strings.Contains(got, "between 2024-02-01 and 2024-03-01, its fuel rose by 12.0 % (odds 80:1)"); told != c.told || (got == "") == c.told {
			t.Errorf("%+v: %q", c.shifts, got)
		}
	}
}

package stats_test

import (
	"testing"

	"brimlog/ingest/book"
	"brimlog/stats"
	"brimlog/stats/prove"
	"brimlog/testdata/drawn"
)

// watched is the watch and the proofs over a drawn log, of whose jobs only those with an id are in the logbook.
func watched(t *testing.T, p drawn.Plan) *stats.Review {
	t.Helper()
	l, dir := p.Draw(), t.TempDir()
	var named []drawn.Row
	for _, row := range l.Work {
		if row["id"] != "" {
			named = append(named, row)
		}
	}
	l.Work = named
	if err := l.Write(dir, drawn.Metric); err != nil {
		t.Fatal(err)
	}
	b, err := book.Read(dir)
	if err != nil {
		t.Fatal(err)
	}
	return stats.Look(b, stats.Options{Prove: true, Watch: true})
}

// A job calls the alarm off once more than half of the rise is gone with it. One that saves a little has not put right what slipped.
func TestAlarmIsCalledOffByACureAlone(t *testing.T) {
	for _, c := range []struct {
		cure  float64
		alarm bool
		by    string
	}{{-9, true, ""}, {-18, false, "cure"}} {
		for seed := range uint64(3) {
			r := watched(t, drawn.Plan{Seed: seed, Tanks: 60, Noted: 0.9, Jobs: []drawn.Job{
				{Kind: "adjust", Area: "ignition", After: 25, Pct: 25}, {ID: "cure", Kind: "adjust", Area: "ignition", After: 40, Pct: c.cure},
			}})
			if *r.Jobs[0].Verdict != prove.LessFuel || len(r.Watch.Shifts) != 1 {
				t.Fatalf("%+.0f %%, seed %d: the job is %s, shifts are %+v", c.cure, seed, *r.Jobs[0].Verdict, r.Watch.Shifts)
			}
			if s := r.Watch.Shifts[0]; r.Watch.Alarm != c.alarm || s.TakenBackBy != c.by {
				t.Errorf("%+.0f %%, seed %d: alarm %v, taken back by %q; want %v, %q", c.cure, seed, r.Watch.Alarm, s.TakenBackBy, c.alarm, c.by)
			}
		}
	}
}

// A job that is proved to cost fuel is not an alarm as well: where some of it looks like a step in the tanks before, and that is not sure,
// the job is named for both.
func TestProvedJobIsNoAlarm(t *testing.T) {
	named := 0
	for _, seed := range []uint64{25, 37, 135, 174, 237, 360} {
		r := watched(t, drawn.Plan{Seed: seed, Tanks: 50, Noted: 0.9, Part: 0.1, Jobs: []drawn.Job{{ID: "set", Kind: "repair", Area: "ignition", After: 25, Pct: 25}}})
		if *r.Jobs[0].Verdict != prove.MoreFuel || r.Watch.Alarm {
			t.Errorf("seed %d: the job is %s, alarm %v: %+v", seed, *r.Jobs[0].Verdict, r.Watch.Alarm, r.Watch.Shifts)
		}
		named += len(r.Watch.Shifts)
	}
	if named == 0 {
		t.Error("no log had a step before it: the test shows nothing")
	}
}

package stats_test

import (
	"testing"

	"brimlog/ingest/book"
	"brimlog/ingest/quantity"
	"brimlog/stats"
	"brimlog/testdata/drawn"
)

// Each element of a path is what the answer was on that day: it uses nothing later than its own tank.
func TestPathIsTheAnswerAsOfThatDay(t *testing.T) {
	p := twoJobs
	p.Jobs = append(p.Jobs[:2:2], drawn.Job{ID: "pads", Kind: "repair", Area: "brakes", After: 13, Pct: -3})
	b := read(t, p.Draw(), drawn.Metric)
	whole := stats.Look(b, asked)
	compared := 0
	for i, k := range whole.Tanks {
		if i%3 > 0 && i != len(whole.Tanks)-1 {
			continue
		}
		on, err := book.ParseMoment(k.ToDate)
		if err != nil {
			t.Fatal(err)
		}
		then := stats.Look(b, stats.Options{AsOf: on, Prove: true})
		for _, j := range whole.Jobs {
			for _, want := range j.Path {
				if want.Tank != k.Number {
					continue
				}
				was := job(t, then, j.ID)
				got := stats.PathTank{Tank: want.Tank, ToDate: k.ToDate, ChangePct: was.ChangePct, LowPct: was.LowPct, HighPct: was.HighPct, OddsChanged: was.OddsChanged, Verdict: *was.Verdict}
				for what, pair := range map[string][2]quantity.Figure{
					"change": {got.ChangePct, want.ChangePct}, "low": {got.LowPct, want.LowPct}, "high": {got.HighPct, want.HighPct}, "odds": {got.OddsChanged, want.OddsChanged},
				} {
					if !closeTo(float64(pair[0]), float64(pair[1]), 1e-9) {
						t.Errorf("%s after tank %d: %s %.12g as of %s, %.12g on the path", j.ID, k.Number, what, pair[0], k.ToDate, pair[1])
					}
				}
				if got.Verdict != want.Verdict || was.TanksAfter != len(was.Path) || was.Path[len(was.Path)-1] != got {
					t.Errorf("%s after tank %d: %s as of %s, %s on the path", j.ID, k.Number, got.Verdict, k.ToDate, want.Verdict)
				}
				compared++
			}
		}
	}
	if compared < 12 {
		t.Errorf("compared %d answers", compared)
	}
}

func closeTo(a, b, part float64) bool { return a-b <= part*max(1, b, -b) && b-a <= part*max(1, b, -b) }

package prove_test

import (
	"math"
	"testing"

	"brimlog/ingest/book"
	"brimlog/ingest/tank"
	"brimlog/stats/model"
	"brimlog/stats/prove"
	"brimlog/testdata/drawn"
	"brimlog/testdata/textbook"
)

// Where the textbook's assumptions hold, on one kind of road and without cold, the program and the textbook must not
// contradict each other: a change that is proved is seen by Welch, by Mann and Whitney and by the always-valid evidence of
// Lindon et al. (arXiv 2210.08589); what none of them sees is not proved.
func TestTextbookAgreesWhereItMay(t *testing.T) {
	const job, logs = 12, 8
	proved := map[float64]int{}
	for _, pct := range []float64{0, -20} {
		for seed := range uint64(logs) {
			l, p := answer(t, drawn.Plan{
				Seed: 100 + seed, Tanks: 30, Plain: true, Jobs: []drawn.Job{{ID: "job", Kind: "adjust", Area: "ignition", After: job, Pct: pct}},
			}, -1)
			y := logs100(l)
			before, after := y[:job], y[job+1:]
			w, rank := textbook.Welch(before, after), textbook.MannWhitney(before, after)
			odds := math.Exp(textbook.LogEvidenceOfMeans(before, after, 1))
			t.Logf("%+.0f %%: %s, odds %.3g, change %.1f %%; Welch p %.2g, ranks p %.2g, always valid %.3g", pct, p.Current.Verdict, p.Current.Odds, p.Current.Change, w.P, rank, odds)
			if p.Current.Verdict == prove.LessFuel || p.Current.Verdict == prove.MoreFuel {
				proved[pct]++
				if w.P > 0.01 || rank > 0.01 || odds < 3 {
					t.Errorf("%+.0f %%, seed %d: %s, which no textbook sees", pct, seed, p.Current.Verdict)
				}
			}
		}
	}
	if proved[0] > 1 || proved[-20] < logs-1 {
		t.Errorf("proved in %d of %d without an effect, in %d with -20 %%", proved[0], logs, proved[-20])
	}
}

// A job pretended on a log in which nothing happened fools it seldom: in no more of the dates than one in twenty, by far.
func TestPlaceboJobsSeldomFool(t *testing.T) {
	tried, fooled := 0, 0
	for seed := range uint64(4) {
		_, p := answer(t, drawn.Plan{Seed: 200 + seed, Tanks: 30, Noted: 0.7, Jobs: []drawn.Job{{ID: "job", Kind: "adjust", Area: "ignition", After: 14}}}, 14)
		tried, fooled = tried+p.Tried, fooled+p.Fooled
	}
	t.Logf("%d of %d placebo jobs fooled their log", fooled, tried)
	if tried < 50 || 20*fooled > tried {
		t.Errorf("%d of %d placebo jobs fooled their log", fooled, tried)
	}
}

// answer proves the one job of a drawn log, with placebo jobs where it is in that tank.
func answer(t *testing.T, p drawn.Plan, placebo int) (*tank.Log, prove.Proof) {
	t.Helper()
	dir := t.TempDir()
	if err := p.Draw().Write(dir, drawn.Metric); err != nil {
		t.Fatal(err)
	}
	b, err := book.Read(dir)
	if err != nil {
		t.Fatal(err)
	}
	l := tank.Build(b)
	proofs, _ := prove.All(l, model.NewDesign(l), placebo)
	if len(proofs) != 1 || proofs[0].Tank != p.Jobs[0].After {
		t.Fatalf("%d proofs", len(proofs))
	}
	return l, proofs[0]
}

// logs100 are the tanks' log consumptions.
func logs100(l *tank.Log) (y []float64) {
	for _, k := range l.Tanks {
		y = append(y, math.Log(100*k.Litres/k.Km))
	}
	return y
}

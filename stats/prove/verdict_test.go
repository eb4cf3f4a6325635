package prove

import (
	"math"
	"testing"

	"brimlog/stats/calc"
	"brimlog/stats/model"
)

// The rules by which odds become words, at their edges.
func TestVerdictsAtTheirEdges(t *testing.T) {
	for _, c := range []struct {
		odds, less, within float64
		want               string
	}{
		{20, 0.99, 0, LessFuel}, {20, 0.01, 0, MoreFuel}, {19.99, 0.99, 0, LeaningLess}, {19.99, 0.01, 0, LeaningMore},
		{3, 0.91, 0, LeaningLess}, {2.99, 0.91, 0, Undecided}, {3, 0.9, 0, Undecided}, {3, 0.09, 0, LeaningMore}, {3, 0.11, 0, Undecided},
		{0.1, 0.5, 0.91, NoChange}, {0.1, 0.5, 0.9, Undecided}, {0.1, 0.5, 0.1, Undecided},
		{25, 0.99, 0.95, LessFuel}, // small, but proved: that wins
		{5, 0.99, 0.95, NoChange},
	} {
		if got := verdict(c.odds, c.less, c.within, leastTanks); got != c.want {
			t.Errorf("odds %v, chance of less %v, within 3 %% %v: %s, want %s", c.odds, c.less, c.within, got, c.want)
		}
	}
	if got := verdict(1, 0.5, 0.95, leastTanks-1); got != Undecided {
		t.Errorf("no change on the strength of what was believed beforehand: %s", got)
	}
	if got := verdict(30, 0.99, 0, 1); got != LessFuel {
		t.Errorf("a change proved at once: %s", got)
	}
	if math.Abs(math.Exp(logProved)-Proved) > 1e-12 {
		t.Errorf("logProved is the logarithm of %v", math.Exp(logProved))
	}
}

// Percent are of fuel per distance, the interval is the central 90 %, and odds never reach infinity.
func TestEvidenceInFigures(t *testing.T) {
	e := model.Evidence{Tank: 7, LogOdds: 800, Effect: calc.Mixture{{Weight: 1, Mean: math.Log(0.9), Sd: 0.02}}, Healthy: calc.Mixture{{Weight: 1, Mean: 0.01, Sd: 0.02}}, Faulted: 0.4}
	s := read(e, true)
	for _, c := range []struct {
		what      string
		got, want float64
	}{
		{"change", s.Change, -10}, {"low", s.Low, 100 * (0.9*math.Exp(-1.6448536*0.02) - 1)}, {"high", s.High, 100 * (0.9*math.Exp(1.6448536*0.02) - 1)},
		{"odds", s.Odds, 1e6}, {"chance of less", s.ChanceLess, 1},
	} {
		if math.Abs(c.got-c.want) > 1e-5 {
			t.Errorf("%s: %v, want %v", c.what, c.got, c.want)
		}
	}
	if s.Tank != 7 || s.Verdict != LessFuel || !math.IsNaN(s.Against) {
		t.Errorf("%+v", s)
	}
	e.Faulted = 0.6
	if s := read(e, true); math.Abs(s.Against-100*math.Expm1(0.01)) > 1e-5 {
		t.Errorf("against the healthy level: %v", s.Against)
	}
}

// Placebo jobs keep away from real work, need tanks on both sides, and are the nearest.
func TestWherePlaceboJobsAreTried(t *testing.T) {
	d := &model.Design{Obs: make([]model.Obs, 30)}
	for _, i := range []int{8, 20} {
		d.Obs[i].Work = &model.Work{After: 0.3, Scale: 1}
	}
	tried := map[int]bool{}
	for _, q := range pretend(d, 8) {
		tried[q.Tank] = true
		if q.Work == nil || q.Work.After != 1 || q.Work.Scale != 1 {
			t.Errorf("pretended work %+v", q.Work)
		}
	}
	for i := range d.Obs {
		away := i >= 3 && i <= 27 && (i < 6 || i > 10) && (i < 18 || i > 22)
		if tried[i] != away {
			t.Errorf("tank %d tried: %v", i, tried[i])
		}
	}
	for _, none := range []int{-1, 5, 30} {
		if q := pretend(d, none); q != nil {
			t.Errorf("placebo jobs for tank %d, in which nothing was done: %d", none, len(q))
		}
	}
}

package watch_test

import (
	"testing"

	"brimlog/stats/watch"
	"brimlog/testdata/drawn"
)

// A change that creeps in over many tanks is told, with its sign and for what it is; one that comes at once is not told as creeping.
// Measured with BRIMLOG_LONG=1, 100 logs each, 30 quiet tanks before: all have a shift of the right sign, and this share a climb
//
//	over tanks      1     10    20    40
//	20 %         0.04   0.91  0.96  0.98
//	10 %         0.04   0.15  0.61  0.38
//
// Where it is not told as a climb it is told as one step or a few on end.
func TestClimbsAreToldFromSteps(t *testing.T) {
	const quiet, after = 30, 14
	for _, c := range []struct {
		over             int
		pct              float64
		told             float64 // share of logs with a shift of the right sign, at least
		creeps, creepsTo float64 // share told as a climb
	}{
		{1, 10, 0.9, 0, 0.06}, {1, -20, 0.95, 0, 0.06},
		{10, 20, 0.95, 0.6, 1}, {20, 20, 0.95, 0.75, 1}, {40, 20, 0.95, 0.75, 1},
		{10, 10, 0.9, 0, 1}, {20, -10, 0.85, 0.2, 1}, {40, 10, 0.8, 0, 1},
	} {
		n := logs(8, 100)
		told, creeps, held := 0, 0, 0
		for seed := range n {
			l := unnamed(t, drawn.Plan{Seed: uint64(seed + 300), Tanks: quiet + c.over + after, Noted: 0.8}, quiet, c.over, c.pct)
			for _, s := range l.shifts() {
				if s.Change > 0 != (c.pct > 0) || s.Last < quiet-2 || s.First > quiet+c.over+1 {
					continue
				}
				told++
				if s.Gradual {
					creeps++
					if s.Low < c.pct && c.pct < s.High {
						held++
					}
				}
				break
			}
		}
		t.Logf("%+.0f %% over %2d tanks: told in %.2f of logs, as a climb in %.2f; truth within its interval in %d of %d", c.pct, c.over, share(told, n), share(creeps, n), held, creeps)
		if float64(held) < 0.75*float64(creeps)-1 {
			t.Errorf("%+.0f %% over %d tanks: the intervals of %d climbs of %d hold the truth", c.pct, c.over, held, creeps)
		}
		if share(told, n) < c.told || share(creeps, n) < c.creeps || float64(creeps) > c.creepsTo*float64(n)+1 {
			t.Errorf("%+.0f %% over %d tanks: told in %.2f of logs, as a climb in %.2f", c.pct, c.over, share(told, n), share(creeps, n))
		}
	}
}

func share(k, n int) float64 { return float64(k) / float64(n) }

// A climb that still goes on raises the alarm, and work within it leaves the steps as they are: who worked then may have made them.
func TestClimbsUnderWay(t *testing.T) {
	for seed := range uint64(4) {
		l := unnamed(t, drawn.Plan{Seed: 50 + seed, Tanks: 44, Noted: 0.8}, 24, 20, 25)
		s := l.shifts()
		if !watch.Slipped(s) || !s[len(s)-1].Gradual {
			t.Errorf("seed %d: a climb under way is told as %+v", seed, s)
		}
		p := drawn.Plan{Seed: 50 + seed, Tanks: 44, Noted: 0.8}
		for k := range 20 {
			p.Jobs = append(p.Jobs, drawn.Job{ID: string(rune('a' + k)), Kind: "service", Area: "other", After: 24 + k, Pct: 1.1})
		}
		log := p.Draw()
		log.Work = log.Work[8:12]
		for _, s := range read(t, log).shifts() {
			if s.Gradual && s.First <= 32 && s.Last >= 35 {
				t.Errorf("seed %d: a climb is told right through four jobs: %+v", seed, s)
			}
		}
	}
}

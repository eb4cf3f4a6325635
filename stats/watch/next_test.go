package watch_test

import (
	"math"
	"testing"

	"brimlog/stats/watch"
	"brimlog/testdata/drawn"
)

// What the next tank would have to use is what it takes: the log with that tank driven, and asked anew, raises or clears the alarm just
// beyond the bound, and does not just short of it.
func TestNextTankDoesWhatIsSaidOfIt(t *testing.T) {
	const beyond = 0.002 // log scale: a fifth of a percent
	raised, cleared, wrong := 0, 0, 0
	for seed := range uint64(logs(6, 60)) {
		for _, since := range []int{0, 1, 2, 4, 8} {
			l := unnamed(t, drawn.Plan{Seed: seed + 60, Tanks: 22 + since, Noted: 0.8}, 22, min(since, 1), 12)
			s := l.shifts()
			alarm := watch.Slipped(s)
			n := watch.Ahead(l.Log, l.d, l.c, s, alarm)
			bound := n.Raises
			if alarm {
				bound = n.Clears
			}
			if math.IsNaN(bound) {
				for _, off := range []float64{-0.3, -0.1, 0, 0.1, 0.3} {
					if watch.Slipped(l.more(n.Mid+off).shifts()) != alarm {
						wrong++
						t.Logf("seed %d, %d tanks since: no tank is said to change the alarm, %+.1f does", seed, since, off)
						break
					}
				}
				continue
			}
			above := watch.Slipped(l.more(bound + beyond).shifts())
			below := watch.Slipped(l.more(bound - beyond).shifts())
			if alarm {
				cleared++
			} else {
				raised++
			}
			if !above || below {
				wrong++
				t.Logf("seed %d, %d tanks since: alarm %v, bound %.3f (expected %.3f): %v above, %v below; %+v", seed, since, alarm, bound, n.Mid, above, below, s)
			}
		}
	}
	t.Logf("%d bounds that raise, %d that clear, %d of them wrong", raised, cleared, wrong)
	if raised < 8 || cleared < 5 || 20*wrong > raised+cleared {
		t.Errorf("%d bounds that raise, %d that clear, %d of them wrong", raised, cleared, wrong)
	}
}

package stats_test

import (
	"maps"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"brimlog/stats"
	"brimlog/testdata/drawn"
)

// What says the same in other words must give the same answers.

// rounding is what figures may differ by when they are reckoned in another order.
const rounding = 1e-7

func copied(l *drawn.Log) *drawn.Log {
	c := *l
	c.Fills, c.Trips, c.Work = slices.Clone(l.Fills), slices.Clone(l.Trips), slices.Clone(l.Work)
	return &c
}

// lines are fields that say where something stands in the files.
func lines(path string) bool {
	return strings.HasSuffix(path, "_line") || strings.HasSuffix(path, ".line") || strings.HasSuffix(path, ".partials")
}

func bothAlike(t *testing.T, what string, got, want *stats.Review) {
	t.Helper()
	alike(t, what+", prove", got.ProveDocument(""), want.ProveDocument(""), rounding, lines)
	alike(t, what+", watch", got.WatchDocument(), want.WatchDocument(), rounding, lines)
	alike(t, what+", tanks", got.Tanks, want.Tanks, rounding, lines)
}

func TestNothingMoves(t *testing.T) {
	log := twoJobs.Draw()
	want := look(t, log)
	if v := *job(t, want, "retime").Verdict; v != "less_fuel" {
		t.Errorf("the setting that saves a quarter: %s", v)
	}

	t.Run("in other units", func(t *testing.T) {
		bothAlike(t, "miles and gallons", stats.Look(read(t, log, drawn.UK), asked), want)
	})

	t.Run("rows in any order", func(t *testing.T) {
		l, rng := copied(log), rand.New(rand.NewPCG(1, 2))
		for _, rows := range [][]drawn.Row{l.Fills, l.Trips, l.Work} {
			rng.Shuffle(len(rows), func(i, j int) { rows[i], rows[j] = rows[j], rows[i] })
		}
		bothAlike(t, "shuffled", look(t, l), want)
	})

	t.Run("a part fill in two receipts", func(t *testing.T) {
		l, split := copied(log), 0
		l.Fills = nil
		for _, r := range log.Fills {
			if r["full"] == "no" {
				split++
				more := maps.Clone(r)
				more["volume"], more["cost"] = 5.0, 7.5
				r = maps.Clone(r)
				r["volume"], r["cost"] = r["volume"].(float64)-5, r["cost"].(float64)-7.5
				l.Fills = append(l.Fills, more)
			}
			l.Fills = append(l.Fills, r)
		}
		if split < 2 {
			t.Fatalf("%d part fills", split)
		}
		bothAlike(t, "split", look(t, l), want)
	})

	t.Run("a measurement more", func(t *testing.T) {
		l := copied(log)
		for i, on := range []string{"1994-03-20", "1994-05-02", "1994-07-10"} {
			l.Work = append(l.Work, drawn.Row{
				"id": string(rune('m' + i)), "date": on, "kind": "measure", "area": "compression", "readings": "compression_bar=10.8/10.9/10.7/10.8", "what": "Looked",
			})
		}
		bothAlike(t, "measured", look(t, l), want)
	})

	t.Run("jobs without an effect on the rest", func(t *testing.T) {
		l := copied(log) // a job after all the tanks
		l.Work = append(l.Work, drawn.Row{"id": "later", "date": "1994-12-24", "kind": "repair", "area": "fuel", "what": "Later"})
		r := look(t, l)
		later := r.Jobs[len(r.Jobs)-1]
		if later.ID != "later" || later.Verdict != nil || !math.IsNaN(float64(later.ChangePct)) {
			t.Errorf("a job without a tank since: %+v", later)
		}
		r.Jobs = r.Jobs[:len(r.Jobs)-1]
		r.AsOf = want.AsOf
		bothAlike(t, "a job later", r, want)
	})
}

// Two jobs in one tank share it: the same figures under each id, and each names the other.
func TestJobsWithinOneTank(t *testing.T) {
	p := twoJobs
	p.Jobs = append(slices.Clone(p.Jobs), drawn.Job{ID: "plugs", Kind: "fit", Area: "ignition", After: 9})
	r := look(t, p.Draw())
	one, other := job(t, r, "retime"), job(t, r, "plugs")
	if !slices.Equal(one.TogetherWith, []string{"plugs"}) || !slices.Equal(other.TogetherWith, []string{"retime"}) {
		t.Errorf("together with %v and %v", one.TogetherWith, other.TogetherWith)
	}
	if len(job(t, r, "clean").TogetherWith) != 0 {
		t.Error("a job of another tank is together with one")
	}
	alike(t, "plugs and retime", other, one, 0, func(path string) bool {
		return slices.Contains([]string{".id", ".what", ".kind", ".area", ".line", ".notes.00", ".notes.01", ".notes.02", ".together_with.00"}, path)
	})
}

// Five litres too many at one fill, and so five too few at the next, is one brim badly met and says nothing of a job.
func TestOneOverFillBarelyMovesTheOdds(t *testing.T) {
	log := twoJobs.Draw()
	want := look(t, log)
	brims := []int{}
	for i, f := range log.Fills {
		if f["full"] == "yes" {
			brims = append(brims, i)
		}
	}
	// Numbers of the tanks that end too full. Not the brims of the first job's own tank: half of it was driven after the job,
	// and ten percent too much there is as good as another job.
	for _, tank := range []int{3, 5, 7, 12, 14, 17, 19, 23} {
		l := copied(log)
		for k, litres := range []float64{5, -5} {
			i := brims[tank+k]
			r := maps.Clone(l.Fills[i])
			r["volume"] = r["volume"].(float64) + litres
			l.Fills[i] = r
		}
		got := look(t, l)
		for _, id := range []string{"retime", "clean"} {
			g, w := job(t, got, id), job(t, want, id)
			t.Logf("tank %d, %s: odds %.3g, were %.3g; change %.1f %%, was %.1f", tank, id, g.OddsChanged, w.OddsChanged, g.ChangePct, w.ChangePct)
			if moved := math.Abs(chance(g) - chance(w)); moved > 0.15 {
				t.Errorf("tank %d too full: the chance that %s changed anything moves by %.2f", tank, id, moved)
			}
			if moved := math.Abs(float64(g.ChangePct - w.ChangePct)); moved > float64(w.HighPct-w.LowPct)/3 {
				t.Errorf("tank %d too full: the change by %s moves by %.1f %%, its interval is %.1f wide", tank, id, moved, w.HighPct-w.LowPct)
			}
		}
	}
}

// chance is that of a change, if it was as likely as not beforehand.
func chance(j stats.Job) float64 { return float64(j.OddsChanged / (1 + j.OddsChanged)) }

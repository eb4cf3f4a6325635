package stats_test

import (
	"fmt"
	"maps"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"brimlog/stats"
	"brimlog/testdata/drawn"
)

// spoil writes nonsense and holes over some cells of a logbook: what no pump ever gave, what no car ever drove.
func spoil(l *drawn.Log, rng *rand.Rand) {
	cells := map[string][]any{
		"odometer": {nil, 0.0, 20000.0, 20010.5, 9.9e6}, "volume": {nil, 0.001, 0.0, 9000.0}, "full": {"no", nil}, "missed": {"yes"}, "fuel": {nil, "E10", "paraffin"},
		"cost": {nil, 0.0, 1e8}, "odometer_start": {nil, 0.0, 1e6}, "odometer_end": {nil, 25000.0, 1e6}, "road": {nil, "track"}, "air": {nil, -60.0, 60.0}, "cold_starts": {nil, 0, 900},
		"readings": {"odometer_correction=0.5", "odometer_correction=2", "odometer_reset_to=0", "odometer_reset_to=1000000"}, "kind": {nil, "measure", "repair", "fit"},
		"area": {nil, "tyres/odometer", "camshaft", "other"}, "fuel_lost_l": {0.5, 500.0, 9000.0}, "idle_min": {0, 20, 90000}, "date": {"1994-02-10", "1994-03-01", "2093-01-01"},
	}
	columns := slices.Sorted(maps.Keys(cells))
	for _, file := range []struct {
		rows []drawn.Row
		one  int // cell in so many
	}{{l.Fills, 20}, {l.Trips, 20}, {l.Work, 4}} {
		for _, r := range file.rows {
			for _, column := range columns {
				if rng.IntN(file.one) == 0 {
					r[column] = cells[column][rng.IntN(len(cells[column]))] // a column that the file lacks is left out
				}
			}
		}
	}
}

// Any logbook is answered: no panic, no figure that cannot be, and none but null where there is no verdict.
func TestAnyLogbookIsAnswered(t *testing.T) {
	logs := 24
	if testing.Short() {
		logs = 6
	}
	for seed := range uint64(logs) {
		t.Run(fmt.Sprint(seed), func(t *testing.T) {
			rng := rand.New(rand.NewPCG(seed, 7))
			p := drawn.Plan{Seed: seed, Tanks: rng.IntN(12), Part: 0.3, Noted: 0.6}
			for i := range 4 {
				p.Jobs = append(p.Jobs, drawn.Job{ID: fmt.Sprint("job", i), Kind: "repair", Area: "fuel", After: rng.IntN(12), Pct: -10})
			}
			l := p.Draw()
			if seed > 0 { // one as drawn, that the test is seen to bite on the rest alone
				spoil(l, rng)
			}
			dir := t.TempDir()
			if err := l.Write(dir, drawn.UK); err != nil {
				t.Fatal(err)
			}
			checkAnswers(t, dir)
		})
	}
}

func checkAnswers(t *testing.T, dir string) {
	t.Helper()
	r := stats.Look(readAny(t, dir), asked)
	for _, doc := range []any{r.ProveDocument(""), stats.TanksDocument{Head: r.Head, Tanks: r.Tanks}, r.WatchDocument()} {
		numbers, _ := figures(t, doc)
		for path, f := range numbers {
			switch name := path[strings.LastIndexByte(path, '.')+1:]; {
			case !f.known:
			case strings.HasPrefix(name, "chance") || name == "town_share" || name == "noted_share":
				if f.x < 0 || f.x > 1 {
					t.Errorf("%s is %v", path, f.x)
				}
			case name == "odds_changed":
				if f.x < 0 || f.x > 1e6 {
					t.Errorf("%s is %v", path, f.x)
				}
			case name == "distance_km" || name == "fuel_l" || name == "l_per_100km" || name == "sd_pct":
				if f.x <= 0 {
					t.Errorf("%s is %v", path, f.x)
				}
			}
		}
	}
	for _, j := range r.Jobs {
		figures := []stats.Figure{j.ChangePct, j.LowPct, j.HighPct, j.ChanceLessFuel, j.OddsChanged}
		for _, f := range figures {
			if (f != f) != (j.Verdict == nil) {
				t.Errorf("%s: verdict %v with figures %v", j.ID, j.Verdict, figures)
				break
			}
		}
		if j.Verdict != nil && !(j.LowPct <= j.ChangePct && j.ChangePct <= j.HighPct) {
			t.Errorf("%s: %v, %v to %v", j.ID, j.ChangePct, j.LowPct, j.HighPct)
		}
	}
}

package stats_test

import (
	"testing"

	"brimlog/ingest/book"
	"brimlog/stats"
	"brimlog/testdata/drawn"
)

// A receipt typed half as large lifts its own tank's economy, not the level of the months around it.
func TestSlipLeavesTheLevelAlone(t *testing.T) {
	look := func(typed float64) *stats.Review {
		l, dir := drawn.Plan{Seed: 3, Tanks: 30, Noted: 0.9}.Draw(), t.TempDir()
		row := l.Fills[18]
		row["volume"] = typed * row["volume"].(float64)
		if err := l.Write(dir, drawn.Metric); err != nil {
			t.Fatal(err)
		}
		b, err := book.Read(dir)
		if err != nil {
			t.Fatal(err)
		}
		return stats.Look(b, stats.Options{Watch: true})
	}
	right, slipped := look(1), look(0.5)
	for i, tank := range slipped.Tanks {
		if at, want := tank.Level, right.Tanks[i].Level; at.Mid < want.Low || at.Mid > want.High {
			t.Fatalf("tank %d: the level is %.2f, without the slip it was %.2f to %.2f", tank.Number, at.Mid, want.Low, want.High)
		}
	}
}

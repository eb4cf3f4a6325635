package stats

import (
	"testing"

	"brimlog/ingest/tank"
)

// A shift whose odds are no proof is told as one that only seems so, as watch has it.
func TestUnsureShiftSeemsToHaveBegun(t *testing.T) {
	for unsure, want := range map[bool]string{
		true:  "it seems to have begun between 2024-02-01 and 2024-03-01, it seems at once, and no job accounts for it: since then it seems to use 8 % more",
		false: "it began between 2024-02-01 and 2024-03-01, it seems at once, and no job accounts for it: since then it uses 8 % more",
	} {
		b := Began{With: "shift", Unsure: unsure, FromDate: "2024-02-01", ToDate: "2024-03-01", Form: "at_once", RisePct: 8}
		if got := b.sentence(); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
	r := &Review{Watch: &Watch{Shifts: []Shift{{OddsChanged: 4}, {OddsChanged: 40}}}}
	if got := r.turns(ground{log: &tank.Log{}}); len(got) != 2 || !got[0].unsure || got[1].unsure {
		t.Errorf("turns %+v, want the first unsure", got)
	}
}

package prove

import (
	"slices"
	"testing"

	"brimlog/stats/calc"
)

// Where cold and warm drives changed opposite ways, the means must lie on the side for which the exact chance speaks.
func TestMeansLieOnTheSideOfTheChance(t *testing.T) {
	drives := func(n int, cold bool, demerits int) []Judgement {
		return slices.Repeat([]Judgement{{like: circumstances{cold: cold}, demerits: demerits}}, n)
	}
	s := sides{
		before: slices.Concat(drives(30, true, 6), drives(20, false, 0)),
		after:  slices.Concat(drives(2, true, 0), drives(20, false, 3)),
	}
	c := s.compare(func(j Judgement) (int, bool) { return j.demerits, true }, alike)
	if warm := calc.Permutation([]calc.Stratum{{Before: make([]int, 20), After: slices.Repeat([]int{3}, 20)}}); c.p >= drivesSure || warm >= drivesSure {
		t.Fatalf("p %v, of the warm drives alone %v: want both clear", c.p, warm)
	}
	if c.after <= c.before {
		t.Errorf("%.2f before and %.2f after: better, though the sum of what came after is clearly worse than chance (p %.3g)", c.before, c.after, c.p)
	}
}

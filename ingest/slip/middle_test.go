package slip

import (
	"math"
	"testing"
)

func TestMiddle(t *testing.T) {
	// 0.6745 is the upper quartile of the standard normal distribution (Abramowitz and Stegun, table 26.5).
	if m, sd := middle([]float64{9, 1, 3, 5, 100}); m != 5 || math.Abs(sd-4/0.6745) > 1e-9 {
		t.Errorf("median %g, deviation %g", m, sd)
	}
	if m, _ := middle([]float64{4, 1, 3, 2}); m != 2.5 {
		t.Errorf("median of four is %g", m)
	}
	if m, sd := middle(nil); !math.IsNaN(m) || !math.IsNaN(sd) {
		t.Errorf("the middle of nothing is %g, %g", m, sd)
	}
}

func TestSumsOfLogs(t *testing.T) {
	if got, want := lnSum(math.Log(1), math.Log(2), math.Log(3)), math.Log(6); math.Abs(got-want) > 1e-12 {
		t.Errorf("lnSum %g, want %g", got, want)
	}
	if got := lnSum(math.Inf(-1), math.Inf(-1)); !math.IsInf(got, -1) {
		t.Errorf("the sum of nothing is %g", got)
	}
	if got, want := lnAdd(-1000, -1001), -1000+math.Log1p(math.Exp(-1)); math.Abs(got-want) > 1e-12 {
		t.Errorf("lnAdd %g, want %g", got, want)
	}
}

// A tail is a density, but for its floor: it sums to one.
func TestTailIsADensity(t *testing.T) {
	tail := newTail(0.08, 0.05, 0.16)
	sum, step := 0.0, 1e-4
	for e := -1.0; e < 1; e += step {
		sum += math.Exp(tail.ln(e)) * step
	}
	if math.Abs(sum-1) > 1e-4 {
		t.Errorf("it sums to %g", sum)
	}
	if got := tail.ln(50); got != lowest {
		t.Errorf("far out it is %g, want the floor %d", got, lowest)
	}
}

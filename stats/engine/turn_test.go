package engine

import (
	"math"
	"strings"
	"testing"
)

// What a turn by whole teeth leaves is told with its side, and none is advised that brings the cam no nearer.
func TestTurn(t *testing.T) {
	for _, c := range []struct {
		phase float64
		wants []string
		not   string
	}{
		{20, []string{"early", "back, against the way it runs, by 1 tooth", "leaves it 2.0 crank degrees early: within the limit"}, "late"},
		{-20, []string{"late", "on, the way it runs, by 1 tooth", "leaves it 2.0 crank degrees late"}, "early"},
		{16, []string{"back, against the way it runs, by 1 tooth", "leaves it 2.0 crank degrees late"}, ""},
		{-16, []string{"on, the way it runs, by 1 tooth", "leaves it 2.0 crank degrees early"}, ""},
		{-18, []string{"by 1 tooth", "puts it right"}, "leaves"},
		{36, []string{"by 2 teeth", "puts it right"}, "leaves"},
		{31, []string{"by 2 teeth", "leaves it 5.0 crank degrees late: the rest by an offset key"}, ""},
		{23, []string{"by 1 tooth", "leaves it 5.0 crank degrees early: the rest by an offset key"}, ""},
		{8, []string{"by 4.0 cam degrees", "no whole tooth brings it nearer"}, "1 tooth"},
		{-8, []string{"by 4.0 cam degrees", "no whole tooth brings it nearer"}, "1 tooth"},
		{9, []string{"by 4.5 cam degrees", "no whole tooth brings it nearer"}, "1 tooth"},
		{-9, []string{"by 4.5 cam degrees", "no whole tooth brings it nearer"}, "1 tooth"},
		{1, []string{"leave it"}, "tooth"},
	} {
		q := NewCamQuestion(Card{20, 60, 60, 20, 40})
		q.Phase = c.phase
		a, err := q.Answer()
		if err != nil {
			t.Fatal(err)
		}
		for _, want := range c.wants {
			if !strings.Contains(a.Turn, want) {
				t.Errorf("%g: %q lacks %q", c.phase, a.Turn, want)
			}
		}
		if c.not != "" && strings.Contains(a.Turn, c.not) {
			t.Errorf("%g: %q has %q", c.phase, a.Turn, c.not)
		}
	}
}

// Every turn that is advised brings the cam nearer: done, by teeth, it leaves what it says.
func TestTurnBringsItNearer(t *testing.T) {
	for teeth := 16.0; teeth <= 60; teeth++ {
		for phase := -50.0; phase <= 50; phase += 0.5 {
			whole, left := NearestTeeth(phase, teeth)
			if math.Abs(phase-whole*ToothCrank(teeth)-left) > 1e-9 || math.Abs(left) > math.Abs(phase)+1e-9 || math.Abs(left) > ToothCrank(teeth)/2+1e-9 || whole*phase < 0 || whole != 0 && math.Abs(left) >= math.Abs(phase) {
				t.Fatalf("%g on %g teeth: %g teeth and %g over", phase, teeth, whole, left)
			}
		}
	}
}

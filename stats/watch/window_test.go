package watch

import (
	"math"
	"slices"
	"testing"
	"time"

	"brimlog/stats/model"
)

// A window is the shortest stretch that holds a step, wherever in it the likeliest tank lies; and what is too vague for a date is kept
// apart, not lost.
func TestWindowIsTheShortest(t *testing.T) {
	for _, c := range []struct {
		name        string
		step        map[int]float64
		first, last int
		wide        bool
	}{
		{"one tank", map[int]float64{20: 0.9}, 20, 20, false},
		{"two dates", map[int]float64{17: 0.25, 20: 0.74}, 17, 20, false},
		{"two dates, the later less likely", map[int]float64{20: 0.74, 23: 0.25}, 20, 23, false},
		{"a likely tank by itself, and a likelier stretch", map[int]float64{5: 0.12, 20: 0.1, 21: 0.11, 22: 0.1}, 20, 22, false},
		{"anywhere", map[int]float64{16: 0.1, 17: 0.11, 18: 0.1, 19: 0.1, 20: 0.12, 21: 0.1, 22: 0.1, 23: 0.11, 24: 0.1}, 16, 24, true},
	} {
		step := make([]float64, 40)
		for i, s := range c.step {
			step[i] = s
		}
		narrow, wide := windows(step)
		found, other := narrow, wide
		if c.wide {
			found, other = wide, narrow
		}
		if len(found) != 1 || len(other) != 0 || found[0].first != c.first || found[0].last != c.last {
			t.Errorf("%s: narrow %+v, wide %+v, want tanks %d to %d", c.name, narrow, wide, c.first, c.last)
			continue
		}
		if w := found[0]; w.held < windowed*w.chance || math.Abs(w.held-w.chance) > 0.1*w.chance {
			t.Errorf("%s: holds %.2f of %.2f", c.name, w.held, w.chance)
		}
	}
}

// Each window holds its own peak, and a step beside a likelier one is told too.
func TestWindowsHoldTheirPeaks(t *testing.T) {
	step := make([]float64, 30)
	step[5], step[8], step[9] = 0.5, 0.47, 0.46
	narrow, _ := windows(step)
	var got [][3]int
	for _, w := range narrow {
		got = append(got, [3]int{w.peak, w.first, w.last})
	}
	if want := [][3]int{{5, 5, 5}, {8, 8, 9}}; !slices.Equal(got, want) {
		t.Errorf("peak, first and last tank %v, want %v", got, want)
	}
}

// Windows may overlap, and work may lie in them: each is still asked about.
func TestStepsAreAskedInTheOrderOfTanks(t *testing.T) {
	l, d := plain(make([]float64, 30), 1, time.Date(2001, 1, 1, 0, 0, 0, 0, time.UTC), 7*24*time.Hour)
	for i := 11; i <= 13; i++ {
		d.Obs[i].Work = &model.Work{After: 1, Scale: 1}
	}
	for i := range d.Obs {
		if i > 9 {
			d.Obs[i].Y += 0.2
		}
	}
	windows := []window{{peak: 11, first: 11, last: 11, held: 0.9, sure: 1}, {peak: 13, first: 10, last: 13, held: 0.3, sure: 1}}
	if got := steps(l, d, windows); len(got) != 1 || got[0].Tank != 13 || got[0].Low < 0 {
		t.Errorf("told %+v, want the step of tank 10 alone", got)
	}
}

// Two dates of one sign are one step in doubt where their chances leave no room for both; two faults, or a fault and its cure, are told apart.
func TestTwoDatesOfOneStep(t *testing.T) {
	here := Shift{Last: 10, Change: 8}
	for _, c := range []struct {
		first  int
		change float64
		chance float64
		one    bool
	}{{14, 8, 0.95, true}, {14, 8, 1.7, false}, {14, -8, 0.6, false}, {60, 8, 0.95, false}} {
		if got := here.excludes(Shift{First: c.first, Change: c.change}, c.chance); got != c.one {
			t.Errorf("a step of %+.0f %% at tank %d, chances %.2f together: one step %v, want %v", c.change, c.first, c.chance, got, c.one)
		}
	}
}

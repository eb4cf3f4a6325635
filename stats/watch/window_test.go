package watch

import (
	"math"
	"slices"
	"testing"
	"time"

	"brimlog/ingest/book"
	"brimlog/ingest/tank"
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
	if got := steps(l, d, windows, make([]float64, 30)); len(got) != 1 || got[0].Tank != 13 || got[0].Low < 0 {
		t.Errorf("told %+v, want the step of tank 10 alone", got)
	}
}

// Two dates of one sign are one step in doubt where they hardly ever come together: told once, with the chances of both, over both where that is
// narrow enough, and with the jobs on either. Steps that come together, or as if by chance, or a fault and its cure, are told apart.
func TestTwoDatesOfOneStep(t *testing.T) {
	day := time.Date(2001, 1, 1, 0, 0, 0, 0, time.UTC)
	for _, c := range []struct {
		name           string
		first, second  int
		chance, other  float64
		together, sign float64
		told           int
		last           int // of the first told
	}{
		{"one of two close dates", 9, 13, 0.5, 0.45, 0.01, 1, 1, 13},
		{"one of two dates apart", 9, 24, 0.5, 0.45, 0.01, 1, 1, 9},
		{"both", 9, 24, 0.9, 0.9, 0.85, 1, 2, 9},
		{"neither knows of the other", 9, 24, 0.3, 0.3, 0.09, 1, 2, 9},
		{"a fault and its cure", 9, 24, 0.5, 0.45, 0.01, -1, 2, 9},
		{"too far apart", 9, 36, 0.5, 0.45, 0.01, 1, 2, 9},
	} {
		l, d := plain(make([]float64, 60), 1, day, 7*24*time.Hour)
		for i := range d.Obs {
			if i >= c.first {
				d.Obs[i].Y += 0.2
			}
			if i >= c.second {
				d.Obs[i].Y += 0.2 * c.sign
			}
		}
		l.Jobs = []tank.Job{{Job: book.Job{ID: "retime", Kind: "adjust", Date: book.Moment{Time: day.Add(time.Duration(c.second)*7*24*time.Hour + time.Hour)}}}}
		then := make([]float64, 60)
		then[c.first] = c.together
		got := steps(l, d, []window{
			{peak: c.first, first: c.first, last: c.first, chance: c.chance, held: c.chance, sure: 1},
			{peak: c.second, first: c.second, last: c.second, chance: c.other, held: c.other, sure: 1},
		}, then)
		if len(got) != c.told || got[0].Last != c.last {
			t.Errorf("%s: told %+v, want %d, the first to tank %d", c.name, got, c.told, c.last)
			continue
		}
		if job := got[len(got)-1].Jobs; !slices.Equal(job, []string{"retime"}) {
			t.Errorf("%s: jobs %v, want the one on the second date", c.name, job)
		}
	}
}

// Of three dates, each with a step that comes with the others, none is lost.
func TestThreeStepsAreThree(t *testing.T) {
	l, d := plain(make([]float64, 60), 1, time.Date(2001, 1, 1, 0, 0, 0, 0, time.UTC), 7*24*time.Hour)
	var windows []window
	then := make([]float64, 60)
	for _, at := range []int{10, 20, 30} {
		for i := at; i < 60; i++ {
			d.Obs[i].Y += 0.1
		}
		windows = append(windows, window{peak: at, first: at, last: at, chance: 0.5, held: 0.5, sure: 1})
		then[at] = 0.3
	}
	if got := steps(l, d, windows, then); len(got) != 3 {
		t.Errorf("told %+v, want three", got)
	}
}

// Package watch says what changed when nobody named a job: steps of consumption at unknown dates, and single
// tanks that stand out. It is the same model as prove's: the unnamed steps that prove allows for are the shifts
// told here, so the two cannot contradict each other.
//
// It assumes the course of a log as package model ran it. It refuses to date a step to more than a stretch of
// eight tanks: what is vaguer than that is not yet told, unless it crept in, and then the stretch is the answer.
package watch

import (
	"math"
	"slices"

	"brimlog/ingest/book"
	"brimlog/ingest/tank"
	"brimlog/stats/calc"
	"brimlog/stats/model"
)

// The rules.
const (
	told     = 0.14 // chance of a step within the window, from which it is told; steps being rare, that is odds of one and a half
	widest   = 7    // tanks of a window, which opens with the one before
	reach    = 4    // tanks on either side of the likeliest that may belong to the same step
	windowed = 0.9  // share of a step's chance that its window holds
	followed = 40   // tanks that its size is read from
)

// A Shift is a step, or a climb, that no job accounts for.
type Shift struct {
	Tank              int  // index of the likeliest tank; of a climb that of its last step, if taken for steps
	First, Last       int  // indices of the tanks that it came with, for 90 % sure; of one that may have come on either of two dates far apart the likelier
	Gradual           bool // it crept in from the first of them to the last
	From, To          book.Moment
	Change, Low, High float64 // percent; 90 % interval
	Odds              float64 // for a step among as many tanks as the model looks back over, against none; at most what a job on its likeliest date would get, times how sure that date is
	Jobs              []string
}

// Shifts finds the steps and climbs of a log, in the order of time.
func Shifts(l *tank.Log, d *model.Design, c model.Course) []Shift {
	narrow, wide := windows(c.Step)
	return climbs(l, d, c, steps(l, d, narrow, c.Then), wide)
}

// steps says of each window how large its step is, and which jobs fell within it. A step that the log itself does not speak for is left
// out: it is likely only because a repair followed. Then is the course's.
func steps(l *tank.Log, d *model.Design, narrow []window, then []float64) []Shift {
	if len(narrow) == 0 {
		return nil
	}
	narrow = slices.Clone(narrow)
	slices.SortStableFunc(narrow, func(a, b window) int { return quiet(d, a) - quiet(d, b) }) // windows may overlap
	var q []model.Question
	for _, w := range narrow {
		q = append(q, model.Question{Tank: quiet(d, w), Work: &model.Work{After: 1, Scale: 1, Pretended: true}, Tanks: followed, Brief: true})
	}
	var found []dated
	answers, _ := d.Ask(q)
	for i, a := range answers {
		next := newDated(l, narrow[i], a.Path[len(a.Path)-1], then)
		if n := len(found) - 1; next.odds(l) > 1 {
			if n >= 0 && found[n].excludes(next) {
				found[n] = found[n].or(next)
			} else {
				found = append(found, next)
			}
		}
	}
	var out []Shift
	for _, f := range found {
		out = append(out, f.shift(l))
	}
	slices.SortFunc(out, func(a, b Shift) int { return a.Tank - b.Tank })
	return out
}

// Slipped tells whether the newest shift is towards more fuel, with no job named for it.
func Slipped(shifts []Shift) bool {
	n := len(shifts)
	return n > 0 && shifts[n-1].Change > 0 && len(shifts[n-1].Jobs) == 0
}

// Reach takes what followed, up to a later tank, into the dates of a shift, where they are then no wider than a date may be.
func (s *Shift) Reach(l *tank.Log, last int) {
	if last > s.Last && last-s.First < widest {
		s.Last, s.To = last, l.Tanks[last].Closes.Date
		s.Jobs = jobsWithin(l, s.From, s.To)
	}
}

// quiet is the window's tank nearest to its peak in which nobody worked, so that work and step are not taken for one.
func quiet(d *model.Design, w window) int {
	for apart := 0; apart <= w.last-w.first; apart++ {
		for _, i := range []int{w.peak + apart, w.peak - apart} {
			if i >= w.first && i <= w.last && d.Obs[i].Work == nil {
				return i
			}
		}
	}
	return w.peak
}

func percent(m calc.Mixture, p float64) float64 { return 100 * math.Expm1(m.Quantile(p)) }

// dates are those between which the step came. The model lets a step begin with a tank; one that truly came within a tank
// looks like the next one's or its own, so the window opens with the tank before.
func dates(l *tank.Log, w window) (from, to book.Moment) {
	return l.Tanks[max(0, w.first-1)].Opens.Date, l.Tanks[w.last].Closes.Date
}

// jobsWithin lists the jobs dated within a window.
func jobsWithin(l *tank.Log, from, to book.Moment) []string {
	ids := []string{}
	for _, j := range l.Jobs {
		if !j.Measure() && from.NotAfter(j.Date) && j.Date.NotAfter(to) {
			ids = append(ids, j.ID)
		}
	}
	return ids
}

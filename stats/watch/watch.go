// Package watch says what changed when nobody named a job: steps of consumption at unknown dates, and single
// tanks that stand out. It is the same model as prove's: the unnamed steps that prove allows for are the shifts
// told here, so the two cannot contradict each other.
//
// It assumes the course of a log as package model ran it. It refuses to date a shift to more than a stretch of
// eight tanks: what is vaguer than that is not yet told.
package watch

import (
	"math"

	"brimlog/ingest/book"
	"brimlog/ingest/tank"
	"brimlog/stats/calc"
	"brimlog/stats/model"
)

// The rules.
const (
	told     = 0.25 // chance of a step within the window, from which it is told; steps being rare, that is odds of ten to thirty
	widest   = 7    // tanks of a window, which opens with the one before
	reach    = 4    // tanks on either side of the likeliest that may belong to the same step
	windowed = 0.9  // share of a step's chance that its window holds
	followed = 40   // tanks that its size is read from
)

// A Shift is a step that no job accounts for.
type Shift struct {
	Tank              int // index of the likeliest tank
	First, Last       int // indices of the tanks that it came with, for 90 % sure
	From, To          book.Moment
	Change, Low, High float64 // percent; 90 % interval
	Odds              float64 // for a step in its window against none
	Jobs              []string
}

// Shifts finds the steps of a log, in the order of time.
func Shifts(l *tank.Log, d *model.Design, c model.Course) []Shift {
	var out []Shift
	var q []model.Question
	for _, w := range windows(c.Step) {
		s := Shift{Tank: w.peak, First: w.first, Last: w.last, Odds: odds(l, w)}
		s.From, s.To = dates(l, w)
		s.Jobs = jobsWithin(l, s.From, s.To)
		out = append(out, s)
		q = append(q, model.Question{Tank: quiet(d, w), Work: &model.Work{After: 1, Scale: 1, Pretended: true}, Tanks: followed, Brief: true})
	}
	if len(q) == 0 {
		return nil
	}
	answers, _ := d.Ask(q)
	for i, a := range answers {
		e := a.Path[len(a.Path)-1].Effect
		out[i].Change, out[i].Low, out[i].High = percent(e, 0.5), percent(e, 0.05), percent(e, 0.95)
	}
	return out
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

// A window is a stretch of tanks that holds one step.
type window struct {
	peak, first, last int
	chance            float64 // of a step within reach of the peak
	held              float64 // of one within the window
}

// windows finds the stretches in which a step is likelier than not by the rule, in order.
func windows(step []float64) []window {
	left := append([]float64(nil), step...)
	var out []window
	for {
		w := around(left)
		if w.chance < told {
			break
		}
		clear(left[w.first : w.last+1])
		if w.last-w.first < widest {
			out = append(out, w)
		}
	}
	for i := 1; i < len(out); i++ {
		for k := i; k > 0 && out[k].peak < out[k-1].peak; k-- {
			out[k], out[k-1] = out[k-1], out[k]
		}
	}
	return out
}

// around takes the likeliest tank and grows its window, to the likelier side, until it holds the share asked for.
func around(step []float64) window {
	w := window{}
	for i, s := range step {
		if s > step[w.peak] {
			w.peak = i
		}
	}
	low, high := max(0, w.peak-reach), min(len(step)-1, w.peak+reach)
	for i := low; i <= high; i++ {
		w.chance += step[i]
	}
	w.first, w.last = w.peak, w.peak
	held := 0.0
	if len(step) > 0 {
		held = step[w.peak]
	}
	w.chance = min(w.chance, 1-1e-6) // two steps close by count one each
	for held < windowed*w.chance && (w.first > low || w.last < high) {
		switch {
		case w.last == high || (w.first > low && step[w.first-1] > step[w.last+1]):
			w.first--
			held += step[w.first]
		default:
			w.last++
			held += step[w.last]
		}
	}
	w.held = held
	return w
}

// odds holds the chance of a step in the window against what it was before the log was seen.
func odds(l *tank.Log, w window) float64 {
	km := l.Tanks[w.last].To - l.Tanks[w.first].From
	prior := -math.Expm1(-km / model.OnsetKm)
	held := min(w.held, 1-1e-6)
	return min(1e6, held/(1-held)*(1-prior)/prior)
}

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

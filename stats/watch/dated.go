package watch

import (
	"math"
	"slices"

	"brimlog/ingest/tank"
	"brimlog/stats/calc"
	"brimlog/stats/model"
)

// A dated is a step with the window that dates it.
type dated struct {
	window
	logOdds float64 // for a job on its likeliest date
	effect  calc.Mixture
	another float64 // chance of it with another one after it
	jobs    []string
}

func newDated(l *tank.Log, w window, e model.Evidence, then []float64) dated {
	s := dated{window: w, logOdds: e.LogOdds, effect: e.Effect}
	for _, both := range then[w.first : w.last+1] {
		s.another += both
	}
	from, to := dates(l, w)
	s.jobs = jobsWithin(l, from, to)
	return s
}

// odds are at most what a job on its likeliest date would get, times how sure that date is.
func (s dated) odds(l *tank.Log) float64 {
	return min(odds(l, s.window), math.Exp(s.logOdds)*s.sure)
}

func (s dated) change() float64 { return percent(s.effect, 0.5) }

// excludes tells whether a step and the next are one of which two dates are likely: they go the same way, and come together
// less than half as often as they would if neither knew of the other.
func (s dated) excludes(next dated) bool {
	near := next.first-s.last <= model.LookBack
	return near && s.change() > 0 == (next.change() > 0) && s.another < s.chance*next.chance/2
}

// or is the one step that came on either of two dates: told by the likelier, or by the stretch of both where that is narrow enough.
// The jobs on both dates remain in question.
func (s dated) or(next dated) dated {
	best := s
	if next.chance > s.chance {
		best = next
	}
	peak := best.sure * best.held
	best.chance = min(s.chance+next.chance, 1-1e-6)
	best.held = min(s.held+next.held, best.chance)
	best.sure = peak / best.held
	best.another = s.another + next.another
	if first, last := min(s.first, next.first), max(s.last, next.last); last-first < widest {
		best.first, best.last = first, last
	}
	best.jobs = slices.Clone(s.jobs)
	for _, id := range next.jobs {
		if !slices.Contains(best.jobs, id) {
			best.jobs = append(best.jobs, id)
		}
	}
	return best
}

// shift is the step as it is told.
func (s dated) shift(l *tank.Log) Shift {
	out := Shift{Tank: s.peak, First: s.first, Last: s.last, Odds: s.odds(l), Jobs: s.jobs}
	out.From, out.To = dates(l, s.window)
	for _, id := range jobsWithin(l, out.From, out.To) {
		if !slices.Contains(out.Jobs, id) {
			out.Jobs = append(out.Jobs, id)
		}
	}
	out.Change, out.Low, out.High = s.change(), percent(s.effect, 0.05), percent(s.effect, 0.95)
	return out
}

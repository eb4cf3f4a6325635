package prove

import (
	"slices"

	"brimlog/stats/model"
)

// A placebo is the job pretended at a date on which nothing was done. How often that would have fooled the log
// tells an owner, better than odds do, what its verdicts are worth.

const (
	placeboTanks = 10 // each is followed so far
	placeboMost  = 16 // the nearest are tried
	placeboApart = 2  // tanks between a placebo and real work
	placeboLeast = 3  // tanks needed before, and after
)

// pretend lists the placebos of the work in a tank.
func pretend(d *model.Design, tank int) []model.Question {
	if tank < 0 || tank >= len(d.Obs) || d.Obs[tank].Work == nil {
		return nil
	}
	work := *d.Obs[tank].Work
	work.After = 1
	var at []int
	for i := placeboLeast; i+placeboLeast <= len(d.Obs); i++ {
		if clear(d, i) {
			at = append(at, i)
		}
	}
	slices.SortStableFunc(at, func(a, b int) int { return apart(a, tank) - apart(b, tank) })
	at = at[:min(len(at), placeboMost)]
	slices.Sort(at)
	var q []model.Question
	for _, i := range at {
		q = append(q, model.Question{Tank: i, Work: &work, Tanks: placeboTanks, Brief: true})
	}
	return q
}

func clear(d *model.Design, tank int) bool {
	for i := max(0, tank-placeboApart); i <= min(len(d.Obs)-1, tank+placeboApart); i++ {
		if d.Obs[i].Work != nil {
			return false
		}
	}
	return true
}

func apart(a, b int) int { return max(a-b, b-a) }

// mixIn merges two lists of questions in the order of tanks.
func mixIn(a, b []model.Question) []model.Question {
	all := append(append([]model.Question{}, a...), b...)
	slices.SortStableFunc(all, func(x, y model.Question) int { return x.Tank - y.Tank })
	return all
}

// fools tells whether a placebo would ever have been taken for a change.
func fools(path []model.Evidence) bool {
	return slices.ContainsFunc(path, func(e model.Evidence) bool { return e.LogOdds >= logProved })
}

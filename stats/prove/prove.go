// Package prove says of each job whether it changed consumption: how much, how sure, and how many more tanks
// it would take. It asks the model of package model and reads its odds; it holds no statistics of its own but
// the rules by which odds become words, the count of how it drove, and the plain before and after.
//
// It assumes tanks as package tank builds them. It refuses to answer for a job without a tank before it.
package prove

import (
	"brimlog/ingest/tank"
	"brimlog/stats/calc"
	"brimlog/stats/model"
)

// PathTanks is how many tanks a job is followed: later ones say more of what happened since than of the job.
const PathTanks = 40

// A Proof is the answer for the work done within one tank.
type Proof struct {
	Tank    int // index of the tank that it fell within
	Path    []State
	Last    model.Evidence
	Before  calc.Mixture // log consumption on the log's usual roads, just before
	Wait    []float64    // chance of a verdict within 1, 2, ... more tanks; nil when there is one, or none to be seen
	Tried   int          // placebo jobs, -1 when not asked
	Fooled  int
	Current State
}

// All answers for all work of the log, in the order of tanks. For the work in tank placebo, -1 for none, jobs
// pretended at other dates are tried too.
func All(l *tank.Log, d *model.Design, placebo int) ([]Proof, model.Course) {
	return all(l, d, placebo, min(twoYears(l), PathTanks))
}

// SoFar answers for all work as All does, but for what takes longest: how many more tanks until a verdict.
func SoFar(l *tank.Log, d *model.Design) ([]Proof, model.Course) { return all(l, d, -1, 0) }

func all(l *tank.Log, d *model.Design, placebo, horizon int) ([]Proof, model.Course) {
	decided := func(e model.Evidence) bool { return Final(read(e, false).Verdict) }
	if horizon == 0 {
		decided = nil
	}
	var q []model.Question
	for i := range d.Obs {
		if d.Obs[i].Work != nil && i > 0 {
			q = append(q, model.Question{Tank: i, Tanks: PathTanks, Horizon: horizon, Decided: decided})
		}
	}
	real := len(q)
	q = mixIn(q, pretend(d, placebo))
	answers, course := d.Ask(q)
	out := make([]Proof, 0, real)
	tried, fooled := 0, 0
	for k, a := range answers {
		if q[k].Work != nil {
			tried++
			if fools(a.Path) {
				fooled++
			}
			continue
		}
		out = append(out, proof(q[k].Tank, a))
	}
	for i := range out {
		if out[i].Tank == placebo {
			out[i].Tried, out[i].Fooled = tried, fooled
		}
	}
	return out, course
}

// A Settled is work that is proved to have changed consumption.
type Settled struct {
	ID     string  // of the first job in its tank
	Tank   int     // index
	Change float64 // percent
}

// Since lists the work done after a tank that is proved to have changed consumption.
func Since(l *tank.Log, d *model.Design, after int) []Settled {
	var q []model.Question
	for i := after + 1; i < len(d.Obs); i++ {
		if d.Obs[i].Work != nil {
			q = append(q, model.Question{Tank: i, Tanks: PathTanks, Brief: true})
		}
	}
	if len(q) == 0 {
		return nil
	}
	var out []Settled
	answers, _ := d.Ask(q)
	for k, a := range answers {
		if s := read(a.Path[len(a.Path)-1], true); s.Verdict == LessFuel || s.Verdict == MoreFuel {
			out = append(out, Settled{l.Jobs[l.Tanks[q[k].Tank].Work[0].Job].ID, q[k].Tank, s.Change})
		}
	}
	return out
}

func proof(tank int, a model.Answer) Proof {
	p := Proof{Tank: tank, Before: a.Before, Wait: a.Wait, Tried: -1}
	for _, e := range a.Path {
		p.Path = append(p.Path, read(e, true))
		p.Last = e
	}
	p.Current = p.Path[len(p.Path)-1]
	return p
}

// twoYears is how many tanks two years hold, at the pace of the last twenty.
func twoYears(l *tank.Log) int {
	n := len(l.Tanks)
	if n == 0 {
		return 0
	}
	last := l.Tanks[n-1].Closes.Date
	first := max(0, n-20)
	days := last.Sub(l.Tanks[first].Opens.Date.Time).Hours() / 24
	if days <= 0 {
		return 0
	}
	return int(730 * float64(n-first) / days)
}

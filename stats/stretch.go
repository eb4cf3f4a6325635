package stats

import (
	"math"
	"slices"

	"brimlog/ingest/tank"
	"brimlog/stats/expect"
	"brimlog/stats/model"
)

// Since says which tanks are the measured ones.
type Since struct {
	Job      string `json:"job"`       // the last one before them; empty = none
	Shift    bool   `json:"shift"`     // they begin with a shift that no job accounts for
	FromTank *int   `json:"from_tank"` // by its number; null = no tank yet
	FromDate string `json:"from_date"`
	ToDate   string `json:"to_date"`
	Tanks    int    `json:"tanks"`
}

func (r *Review) sinceOf(l *tank.Log, since int) Since {
	s := Since{Tanks: len(l.Tanks) - since, Shift: since > 0 && since == r.lastShift()}
	for _, j := range l.Jobs {
		if !j.Measure() && j.Tank <= since {
			s.Job = j.ID
		}
	}
	if s.Tanks > 0 {
		first := r.Tanks[since]
		s.FromTank, s.FromDate, s.ToDate = &first.Number, first.FromDate, r.Tanks[len(r.Tanks)-1].ToDate
	}
	return s
}

// lastShift is the index of the first tank since the newest shift; 0 where there is none.
func (r *Review) lastShift() int {
	if n := len(r.Watch.Shifts); n > 0 {
		return r.Watch.Shifts[n-1].SinceTank - 1
	}
	return 0
}

const (
	whollyAfter = 0.95 // share of a tank driven after a job from which on the tank counts as one since it
	mostlyAfter = 0.50 // the same where there is no other tank since
)

// sinceLastJob is the index of the first tank since the last job that changed anything; the number of tanks where
// there is none yet.
func (g ground) sinceLastJob() int {
	since := 0
	for i, j := range g.log.Jobs {
		if !j.Measure() {
			since = max(since, g.firstAfter(i))
		}
	}
	return since
}

// firstAfter is the index of the first tank that was driven after a job.
func (g ground) firstAfter(job int) int {
	j, n := g.log.Jobs[job], len(g.log.Tanks)
	if j.Tank >= n {
		return n
	}
	after := shareAfter(g.log.Tanks[j.Tank], job)
	if after >= whollyAfter || j.Tank == n-1 && after >= mostlyAfter {
		return j.Tank
	}
	return j.Tank + 1
}

func shareAfter(t tank.Tank, job int) float64 {
	i := slices.IndexFunc(t.Work, func(s tank.Share) bool { return s.Job == job })
	if i < 0 {
		return 0
	}
	return t.Work[i].After
}

// level is what the vehicle used over some tanks, carried over to the roads and the weather of others by what the log has
// learnt of them; total fuel over total distance where they are the same.
func (g ground) level(of, on []int) expect.Level {
	if len(of) == 0 {
		return expect.Level{}
	}
	y, sd := g.design.LikeForLike(g.course.Settled)
	pick := func(xs []float64) (out []float64) {
		for _, i := range of {
			out = append(out, xs[i])
		}
		return out
	}
	mean, width := weighed(pick(y), pick(sd), pick(g.course.Lost))
	return expect.Level{LPer100Km: 100 * math.Exp(mean+g.harder(y, on)), Sd: math.Hypot(width, model.MeterSd)}
}

// harder is by how much the driving of some tanks takes more than the log's usual driving, as a logarithm.
func (g ground) harder(y []float64, tanks []int) float64 {
	sum, km := 0.0, 0.0
	for _, i := range tanks {
		o := g.design.Obs[i]
		sum += o.Km * (o.Y - y[i])
		km += o.Km
	}
	return sum / km
}

package model

import (
	"math"

	"brimlog/ingest/quantity"
	"brimlog/ingest/tank"
)

// work makes one piece of work of all jobs in a tank.
func work(l *tank.Log, t tank.Tank) *Work {
	if len(t.Work) == 0 {
		return nil
	}
	w := &Work{}
	for _, s := range t.Work {
		w.join(l.Jobs[s.Job], s, t)
	}
	w.After /= float64(len(t.Work))
	return w
}

func (w *Work) join(j tank.Job, s tank.Share, t tank.Tank) {
	since := max(0, t.From-quantity.Or(j.At, t.From)) // km driven unmeasured since the job
	for _, a := range j.Areas {
		if a == "tyres" {
			w.LevelVar = apparentSd * apparentSd
		}
		if j.Kind == "fit" && (a == "camshaft" || a == "compression") {
			faded := math.Exp(-since / runInKm)
			w.RunInMean, w.RunInVar = runInMean*faded, sq(runInSd*faded)
		}
	}
	scale := scaleOf(j)
	if j.Kind == "repair" && scale > areaScale["other"] {
		w.Fault = faultFactor
	}
	w.After += s.After
	w.Scale = max(w.Scale, scale)
	w.RelaxVar = max(w.RelaxVar, sq(relaxSd*scale*math.Exp(-since/relaxKm)))
	if since == 0 {
		mean, variance := dirt(j)
		w.DirtyMean, w.DirtyVar = max(w.DirtyMean, mean), max(w.DirtyVar, variance)
	}
}

// scaleOf is that of the widest of a job's areas.
func scaleOf(j tank.Job) float64 {
	scale := areaScale["other"]
	for _, a := range j.Areas {
		scale = max(scale, areaScale[a])
	}
	return scale
}

// dirt is what idling, spilt fuel and test pulls add to the tank of a job: mean and variance. On the day of a fill that is the tank
// which ended or the one which began, and either has it with a chance of one half.
func dirt(j tank.Job) (mean, variance float64) {
	mean, variance = dirty*scaleOf(j), sq(dirty*scaleOf(j))
	if quantity.Known(j.Idle) || quantity.Known(j.Spilt) {
		mean = 0 // written down instead
	}
	if j.Edge {
		mean, variance = mean/2, variance/2+sq(mean/2)
	}
	return mean, variance
}

// atEnds lists by tank the jobs on the day of the fill that closed it, which may lie in it or only after it.
func atEnds(l *tank.Log) map[int][]tank.Job {
	ends := map[int][]tank.Job{}
	for _, j := range l.Jobs {
		if i := j.Tank - 1; j.Edge && !j.Measure() && i >= 0 && l.Tanks[i].To == j.At {
			ends[i] = append(ends[i], j)
		}
	}
	return ends
}

// soil allows for the dirt of jobs that may lie in an observation.
func (o *Obs) soil(jobs []tank.Job) {
	mean, variance := 0.0, 0.0
	for _, j := range jobs {
		m, v := dirt(j)
		mean, variance = max(mean, m), max(variance, v)
	}
	o.Y, o.Var = o.Y-mean, o.Var+variance
}

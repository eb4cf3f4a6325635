package model

import (
	"math"
	"runtime"

	"brimlog/ingest/ahead"
	"brimlog/stats/calc"
)

// Evidence is what the log says of one piece of work after one tank, from nothing later.
type Evidence struct {
	Tank    int          // index
	Tanks   int          // since the work, its own counted
	LogOdds float64      // of 'it changed' against 'it did not'
	Effect  calc.Mixture // of the log-scale effect, given that it changed
	Healthy calc.Mixture // of effect plus the unnamed steps before it
	Faulted float64      // chance that such a step came before
	Pull    float64      // how far the mean effect would move if the prior of cold were one deviation higher
}

// A Question asks for the evidence of the work in one tank.
type Question struct {
	Tank    int
	Work    *Work               // nil: as the log has it; else pretended
	Tanks   int                 // how many tanks to follow it
	Brief   bool                // odds and effect alone
	Decided func(Evidence) bool // asks how many more tanks until this holds; nil does not ask
	Horizon int                 // at most so many
}

// An Answer follows one piece of work, tank by tank.
type Answer struct {
	Path   []Evidence
	Before calc.Mixture // of the level on the log's usual roads, just before the work
	Wait   []float64    // quantity: chance that the question is decided within 1, 2, ... more tanks; nil when not asked or not to be seen
}

// Ask answers all questions in one pass over the log: the filter runs once, and each question branches off
// just before its tank. Answers are in the order of the questions, which must be in the order of tanks.
func (d *Design) Ask(questions []Question) ([]Answer, Course) {
	answers := make([]Answer, len(questions))
	main, usual := newLanes(d), d.Usual()
	free := make(chan struct{}, runtime.GOMAXPROCS(0))
	var branches ahead.Group
	next := 0
	c := newCourse(len(d.Obs))
	for i := range d.Obs {
		for ; next < len(questions) && questions[next].Tank == i; next++ {
			q, k, from := questions[next], next, main
			if q.Brief {
				from = main.likely()
			}
			from = from.fork() // before the call for work is weighed, lest that brings back what the log itself speaks against
			free <- struct{}{}
			branches.Go(func() {
				defer func() { <-free }()
				answers[k] = d.branch(from, q, usual)
			})
		}
		main.suspect(d.Obs[i].Work)
		var expected outlook
		main, expected = main.step(&d.Obs[i], role{fold: true, whole: true})
		c.Expected[i], c.Sd[i] = expected.mean, expected.sd()
		c.record(main, i, i == len(d.Obs)-1)
	}
	branches.Wait()
	c.Settled, c.end = main.settled(), main
	return answers, c
}

// branch follows one piece of work: without an effect, with a small one and with a large one.
func (d *Design) branch(from lanes, q Question, usual []float64) Answer {
	a := Answer{}
	if !q.Brief {
		a.Before = from.along(usual).Thinned(1e-3)
	}
	work := d.Obs[q.Tank].Work
	if q.Work != nil {
		work = q.Work
	}
	from.suspect(work)
	faulted := from.faulted()
	for _, p := range from {
		p.branched()
	}
	b := rivals{from, from.clone()}
	for i := q.Tank; i < min(len(d.Obs), q.Tank+q.Tanks); i++ {
		o, shown := d.Obs[i], 1.0
		if i == q.Tank {
			o.Work, shown = work, work.After
		} else {
			b.suspect(o.Work)
		}
		b = b.step(&o, shown, i == q.Tank)
		e := b.evidence(q.Brief)
		e.Tank, e.Tanks, e.Faulted = i, i-q.Tank+1, faulted
		if !q.Brief {
			e.Pull = d.pull(b)
		}
		a.Path = append(a.Path, e)
	}
	if last := len(a.Path) - 1; q.Decided != nil && a.Path[last].Tank == len(d.Obs)-1 && !q.Decided(a.Path[last]) {
		q.Horizon = min(q.Horizon, q.Tanks-len(a.Path)) // it is followed no further
		a.Wait = d.wait(b, q)
	}
	return a
}

// rivals are two accounts of the same log: the work did nothing, or something.
type rivals struct{ without, with lanes }

// step takes both through an observation that shows so much of the effect.
func (b rivals) step(o *Obs, shown float64, begins bool) rivals {
	b.without, _ = b.without.step(o, role{fold: !begins})
	b.with, _ = b.with.step(o, role{tracked: shown, begins: begins, fold: !begins})
	return b
}

func (b rivals) suspect(w *Work) {
	b.without.suspect(w)
	b.with.suspect(w)
}

func (b rivals) evidence(brief bool) Evidence {
	top := b.with.logL()
	e := Evidence{LogOdds: top - b.without.logL(), Effect: b.with.effect(top, slotTrack).Thinned(1e-3)}
	if !brief {
		e.Healthy = b.with.effect(top, slotTrack, slotOnset).Thinned(1e-3)
	}
	return e
}

// pull is how far the effect leans on what is believed of cold: covariance over the prior's deviation, averaged.
func (d *Design) pull(b rivals) float64 {
	k := d.column(priors[cold].Name)
	if k < 0 {
		return 0
	}
	top := b.with.logL()
	sum, total := 0.0, 0.0
	for _, p := range b.with {
		sd := d.Priors[k].Sd * p.scatter.Doubt
		for _, h := range p.histories {
			w := math.Exp(p.logL + h.logW - top)
			total += w
			sum += w * h.p[p.slot(slotTrack)*p.n+k] / sd
		}
	}
	return sum / total
}

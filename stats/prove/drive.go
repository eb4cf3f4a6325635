package prove

import (
	"math"

	"brimlog/ingest/book"
	"brimlog/ingest/quantity"
	"brimlog/ingest/tank"
	"brimlog/stats/calc"
)

// How it drove is counted in demerits: a grade's points times the symptom's weight, summed over a drive.

// Points of the grades: none, trace, moderate, heavy count 0, 1, 2, 4 in the driveability procedures of the
// Coordinating Research Council (from memory).
var points = map[book.Grade]int{book.None: 0, book.Trace: 1, book.Moderate: 2, book.Heavy: 4}

// Weights of the symptoms (from memory of the same procedures, which weigh stalls and hesitation heaviest; the
// rest judged).
var weights = [book.SymptomCount]int{
	book.HardStart: 2, book.HardStartHot: 2, book.RoughIdle: 1, book.Hesitation: 6, book.Stumble: 6, book.Surge: 4,
	book.Stall: 8, book.Knock: 4, book.Backfire: 6, book.RunOn: 2, book.WeakLow: 6, book.WeakCruise: 4, book.WeakHigh: 6,
	book.Overheating: 4, book.RunsCold: 1,
}

const (
	drivesKept = 30   // the nearest drives on either side of a job
	drivesSure = 0.02 // exact permutation p
)

// A Drive is how it drove before and after a job, in demerits a drive; NaN where nothing was judged.
type Drive struct {
	Before, After float64
	Verdict       string // better, worse, undecided; empty when one side was not judged
}

// Driveability compares the judged drives since the job before with those until the job after.
func Driveability(l *tank.Log, job int) Drive {
	from, to := neighbours(l, job)
	at := l.Jobs[job].Date
	var cold, warm calc.Stratum
	for _, t := range judged(l) {
		s := &warm
		if t.cold {
			s = &cold
		}
		switch {
		case t.date.Before(at.Time) && !t.date.Before(from.Time):
			s.Before = append(s.Before, t.demerits)
		case t.date.After(at.Time) && (to.IsZero() || t.date.Before(to.Time)):
			s.After = append(s.After, t.demerits)
		}
	}
	for _, s := range []*calc.Stratum{&cold, &warm} {
		s.Before = s.Before[max(0, len(s.Before)-drivesKept):]
		s.After = s.After[:min(len(s.After), drivesKept)]
	}
	d := Drive{Before: mean(cold.Before, warm.Before), After: mean(cold.After, warm.After)}
	if p := calc.Permutation([]calc.Stratum{cold, warm}); !math.IsNaN(p) {
		d.Verdict = "undecided"
		if p < drivesSure && d.After < d.Before {
			d.Verdict = "better"
		} else if p < drivesSure {
			d.Verdict = "worse"
		}
	}
	return d
}

// neighbours are the dates of the work before a job and after it; zero where there is none.
func neighbours(l *tank.Log, job int) (from, to book.Moment) {
	for i, j := range l.Jobs {
		if j.Measure() || j.Tank == l.Jobs[job].Tank {
			continue
		}
		if i < job {
			from = j.Date
		}
		if i > job && to.IsZero() {
			to = j.Date
		}
	}
	return from, to
}

type judgement struct {
	date     book.Moment
	demerits int
	cold     bool
}

// judged lists the drives of which at least one symptom was judged: trips, and the notes made at the pump.
func judged(l *tank.Log) []judgement {
	var out []judgement
	for _, t := range l.Trips {
		if d, ok := demerits(t.Symptoms); ok {
			out = append(out, judgement{t.Date, d, quantity.Or(t.ColdStarts, 0) > 0})
		}
	}
	for _, t := range l.Tanks {
		var s book.Symptoms
		s[book.WeakLow], s[book.WeakHigh] = t.Closes.WeakLow, t.Closes.WeakHigh
		if d, ok := demerits(s); ok {
			out = append(out, judgement{t.Closes.Date, d, false})
		}
	}
	return out
}

func demerits(s book.Symptoms) (sum int, ok bool) {
	for k, g := range s {
		if g != book.NotJudged {
			ok = true
			sum += weights[k] * points[g]
		}
	}
	return sum, ok
}

func mean(groups ...[]int) float64 {
	sum, n := 0, 0
	for _, g := range groups {
		for _, x := range g {
			sum += x
		}
		n += len(g)
	}
	if n == 0 {
		return math.NaN()
	}
	return float64(sum) / float64(n)
}

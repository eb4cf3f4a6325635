package prove

import (
	"math"
	"slices"

	"brimlog/ingest/book"
	"brimlog/ingest/tank"
)

// How it drove is counted in demerits: a grade's points times the symptom's weight, summed over a drive.

// Weights of the symptoms (from memory of the same procedures as the points, which weigh stalls and hesitation heaviest;
// the rest judged).
var weights = [book.SymptomCount]int{
	book.HardStart: 2, book.HardStartHot: 2, book.RoughIdle: 1, book.Hesitation: 6, book.Stumble: 6, book.Surge: 4,
	book.Stall: 8, book.Knock: 4, book.Backfire: 6, book.RunOn: 2, book.WeakLow: 6, book.WeakCruise: 4, book.WeakHigh: 6,
	book.Overheating: 4, book.RunsCold: 1,
}

const (
	drivesKept = 30   // the nearest drives on either side of a job, cold and warm starts each
	tanksKept  = 20   // and none further off than so many tanks
	drivesSure = 0.02 // exact permutation p
)

// A Drive is how it drove before and after a job, in demerits a drive; NaN where nothing was judged.
type Drive struct {
	Before, After float64
	Verdict       string // better, worse, undecided; empty when one side was not judged
	Symptoms      []Felt // those judged on either side, in their order
}

// Felt is how one symptom showed before and after a job, in points a drive that judged it; NaN where none did.
type Felt struct {
	Symptom                   book.Symptom
	Before, After             float64
	DrivesBefore, DrivesAfter int
	Clear                     bool // too great a difference for chance
}

// Driveability compares the judged drives since the job before with those until the job after, like with like: see among.
func Driveability(l *tank.Log, judged []Judgement, job int) Drive {
	s := around(l, judged, job)
	d := Drive{Before: math.NaN(), After: math.NaN()}
	all := func(j Judgement) (int, bool) { return j.demerits, true }
	c := s.compare(all, alike)
	d.Before, d.After = c.before, c.after
	switch p := c.p; {
	case c.drivesBefore == 0 || c.drivesAfter == 0:
	case p < drivesSure && d.After < d.Before:
		d.Verdict = "better"
	case p < drivesSure:
		d.Verdict = "worse"
	default:
		d.Verdict = "undecided"
	}
	for k := range book.SymptomCount {
		c := s.compare(func(j Judgement) (int, bool) { return points[j.Symptoms[k]], j.Symptoms[k] != book.NotJudged }, alike[1:])
		if c.drivesBefore+c.drivesAfter > 0 {
			d.Symptoms = append(d.Symptoms, Felt{k, c.before, c.after, c.drivesBefore, c.drivesAfter, c.p < drivesSure})
		}
	}
	return d
}

// sides are the judged drives before and after a job, in the order of their dates.
type sides struct{ before, after []Judgement }

// around finds the drives on either side of a job, the nearest ones.
func around(l *tank.Log, judged []Judgement, job int) (s sides) {
	from, to := neighbours(l, job)
	at, own := l.Jobs[job].Date, l.Jobs[job].Tank
	for _, j := range judged {
		switch {
		case j.Tank >= 0 && (j.Tank < own-tanksKept || j.Tank > own+tanksKept):
		case j.Date.Before(at.Time) && !j.Date.Before(from.Time):
			s.before = append(s.before, j)
		case j.Date.After(at.Time) && (to.IsZero() || j.Date.Before(to.Time)):
			s.after = append(s.after, j)
		}
	}
	slices.Reverse(s.before)
	s.before, s.after = nearest(s.before), nearest(s.after)
	return s
}

// nearest keeps the first drives of each kind of start.
func nearest(drives []Judgement) (kept []Judgement) {
	n := map[bool]int{}
	for _, d := range drives {
		if n[d.like.cold]++; n[d.like.cold] <= drivesKept {
			kept = append(kept, d)
		}
	}
	return kept
}

// neighbours are the dates of the work before a job and after it; zero where there is none. Jobs within one tank are one.
func neighbours(l *tank.Log, job int) (from, to book.Moment) {
	own := l.Jobs[job]
	for i, j := range l.Jobs {
		if j.Measure() || i == job || l.SameTank(j, own) {
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

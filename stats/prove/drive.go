package prove

import (
	"math"

	"brimlog/ingest/book"
	"brimlog/ingest/tank"
	"brimlog/stats/calc"
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

// sides are the judged drives before and after a job, those begun cold (1) and the others (0) apart.
type sides struct{ before, after [2][]Judgement }

// Driveability compares the judged drives since the job before with those until the job after.
func Driveability(l *tank.Log, judged []Judgement, job int) Drive {
	s := around(l, judged, job)
	d := Drive{Before: math.NaN(), After: math.NaN()}
	all := func(j Judgement) (int, bool) { return j.demerits, true }
	c := s.compare(all)
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
		c := s.compare(func(j Judgement) (int, bool) { return points[j.Symptoms[k]], j.Symptoms[k] != book.NotJudged })
		if c.drivesBefore+c.drivesAfter > 0 {
			d.Symptoms = append(d.Symptoms, Felt{k, c.before, c.after, c.drivesBefore, c.drivesAfter, c.p < drivesSure})
		}
	}
	return d
}

// around finds the drives on either side of a job, the nearest ones.
func around(l *tank.Log, judged []Judgement, job int) (s sides) {
	from, to := neighbours(l, job)
	at := l.Jobs[job].Date
	for _, j := range judged {
		cold := 0
		if j.cold {
			cold = 1
		}
		switch {
		case j.Date.Before(at.Time) && !j.Date.Before(from.Time):
			s.before[cold] = append(s.before[cold], j)
		case j.Date.After(at.Time) && (to.IsZero() || j.Date.Before(to.Time)):
			s.after[cold] = append(s.after[cold], j)
		}
	}
	for cold := range 2 {
		s.before[cold] = s.before[cold][max(0, len(s.before[cold])-drivesKept):]
		s.after[cold] = s.after[cold][:min(len(s.after[cold]), drivesKept)]
	}
	return s
}

// A comparison is of the scores of two sides: means like for like, counts, and the exact chance of so great a difference
// without one (NaN where nothing can be exchanged).
type comparison struct {
	before, after             float64
	drivesBefore, drivesAfter int
	p                         float64
}

// compare scores the drives of both sides. Where a kind of start was judged on both, only such kinds count, each by its drives on
// either side: more cold mornings since are no change of the vehicle.
func (s sides) compare(score func(Judgement) (int, bool)) (c comparison) {
	scores := func(drives []Judgement) (all []int) {
		for _, d := range drives {
			if x, ok := score(d); ok {
				all = append(all, x)
			}
		}
		return all
	}
	var strata []calc.Stratum
	var before, after []int
	shared := 0.0
	for cold := range 2 {
		one := calc.Stratum{Before: scores(s.before[cold]), After: scores(s.after[cold])}
		strata = append(strata, one)
		before, after = append(before, one.Before...), append(after, one.After...)
		if n := float64(len(one.Before) + len(one.After)); len(one.Before) > 0 && len(one.After) > 0 {
			c.before, c.after, shared = c.before+n*mean(one.Before), c.after+n*mean(one.After), shared+n
		}
	}
	c.drivesBefore, c.drivesAfter, c.p = len(before), len(after), calc.Permutation(strata)
	if shared > 0 {
		c.before, c.after = c.before/shared, c.after/shared
	} else {
		c.before, c.after = mean(before), mean(after)
	}
	return c
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

func mean(scores []int) float64 {
	if len(scores) == 0 {
		return math.NaN()
	}
	sum := 0
	for _, x := range scores {
		sum += x
	}
	return float64(sum) / float64(len(scores))
}

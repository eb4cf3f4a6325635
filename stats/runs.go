package stats

import (
	"math"
	"slices"

	"brimlog/ingest/book"
	"brimlog/ingest/quantity"
	"brimlog/ingest/tank"
	"brimlog/stats/expect"
)

// Runs that an owner who has timed none may begin with, km/h: in kilometres, and in miles an hour.
var usualRuns = map[string][2][2]float64{
	"coast_s": {{80, 60}, {50 * kmPerMile, 40 * kmPerMile}},
	"pull_s":  {{50, 80}, {30 * kmPerMile, 50 * kmPerMile}},
}

var kmPerMile = quantity.Mile.ToBase(1)

// pairsWorth is how many pairs of the owner's own runs weigh as much as what is usual.
const pairsWorth = 4

// A timed is a run on the road that was noted.
type timed struct {
	tank.Job
	seconds, from, to float64
	state             int // grows with each job that puts earlier runs out of date
}

// run is the newest timed coast-down or pull that still holds, with the same run while the vehicle was healthy and with
// how well the owner's own runs repeat. A shift puts out of date what was timed in tanks before it. Where none was timed, a
// usual one without a time asks what it should take.
func (g ground) run(name string, healthy []int, shift int, n *notes) *expect.Timing {
	runs, state := g.runs(name, n)
	if len(runs) == 0 {
		usual := usualRuns[name][0]
		if g.log.Vehicle.Show.Distance == "mi" {
			usual = usualRuns[name][1]
		}
		t := expect.NewTiming(usual[0], usual[1], quantity.Unknown)
		return &t
	}
	last := runs[len(runs)-1]
	t, earlier := last.timing(), runs[:len(runs)-1]
	t.Repeat, t.AirC = repeatability(runs), g.airOn(last.Job)
	if last.state != state || last.Tank < shift { // out of date: it tells how to run, and perhaps what is healthy
		t.Seconds, t.AirC, earlier = quantity.Unknown, quantity.Unknown, runs
	}
	for _, r := range earlier {
		if r.sameRun(last) && slices.Contains(healthy, r.Tank) && g.changesAfter(r.Tank) == 0 {
			t.Healthy = r.seconds
		}
	}
	return &t
}

// runs are all of one name in their order, and the state that the vehicle is in now.
func (g ground) runs(name string, n *notes) (all []timed, state int) {
	for _, j := range g.log.Jobs {
		if !j.Measure() && slices.ContainsFunc(j.Areas, func(a string) bool { return slices.Contains(outdates[name], a) }) {
			state++
		}
		r, ok := j.Reading(name)
		if !ok || len(r.Values) != 1 || len(r.Speeds) != 2 {
			continue
		}
		t := timed{j, r.Values[0], r.Speeds[0], r.Speeds[1], state}
		asked := t.timing()
		if err := asked.Check(); err != nil {
			n.say("%s:%d: %s left out: %v", book.WorkFile, j.Line, name, err)
			continue
		}
		all = append(all, t)
	}
	return all, state
}

func (t timed) timing() expect.Timing { return expect.NewTiming(t.from, t.to, t.seconds) }

func (t timed) sameRun(o timed) bool { return math.Abs(t.from-o.from) < 1 && math.Abs(t.to-o.to) < 1 }

// slipApart is a ratio of two times, as a logarithm, past which one of them is a slip and tells nothing of the owner's scatter.
const slipApart = 0.4

// repeatability is the owner's own scatter, as a share of the time, from runs that nothing came between.
func repeatability(runs []timed) float64 {
	squares, pairs := 0.0, 0.0
	for i := 1; i < len(runs); i++ {
		if a, b := runs[i-1], runs[i]; a.state == b.state && a.sameRun(b) {
			if d := math.Log(a.seconds / b.seconds); math.Abs(d) < slipApart {
				squares += d * d / 2
				pairs++
			}
		}
	}
	return math.Sqrt((pairsWorth*expect.UsualRepeat*expect.UsualRepeat + squares) / (pairsWorth + pairs))
}

// airOn is the air temperature on a job's day: of a trip on it, else the place's.
func (g ground) airOn(j tank.Job) float64 {
	for _, a := range g.log.Air {
		if sameDay(a.Date, j.Date) {
			return a.C
		}
	}
	return g.monthly(j.Date.Time)
}

func sameDay(a, b book.Moment) bool { return a.Year() == b.Year() && a.YearDay() == b.YearDay() }

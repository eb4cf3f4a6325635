package suspect

import (
	"math"
	"slices"
	"time"

	"brimlog/ingest/quantity"
)

// The fuel systems that decide which causes can be at all.
const (
	carburettor = "carburettor"
	injection   = "injection"
)

// What the log's story is worth, all from common practice.
const (
	injectionShare = 0.15 // of old vehicles whose fuel system is not told
	unwritten      = 0.15 // work that caused a fault, done but not written down, against work at any time
	byOwnPart      = 0.5  // of the faults that work causes, those in a part which that job is about ...
	byDisturbed    = 0.05 // ... and those in one part that it disturbs
	noted          = 0.9  // of the jobs that stand in a log which notes jobs
	raiseAtMost    = 30
	misdated       = 0.03 // 'at once' or 'slowly' told wrongly
	wellNoted      = 0.85 // of the driving that is noted, what is noted rightly
	tellsSlowly    = 0.15 // of the faults that work causes, those that come on slowly
)

// Prior gives each cause's chance before any sign is looked at, in the table's order: how common it is, times what the
// log says of its beginning, season and use. They sum to one.
func (t *Table) Prior(e Evidence) []float64 {
	prior := make([]float64, len(t.Causes))
	story, weight := 0.0, 0.0
	for i, c := range t.Causes {
		base := c.Common * c.possible(e)
		prior[i] = base * t.story(c, e)
		if c.listed() {
			story, weight = story+prior[i], weight+base
		}
	}
	// What is not listed may have any story: it keeps the share it has of the listed.
	prior[t.rank[NotListed]] = t.Causes[t.rank[NotListed]].Common * story / weight
	return normalise(prior)
}

// common is each listed cause's share among the listed, whatever the log's story: what 'not listed' expects of a sign.
func (t *Table) common(e Evidence) []float64 {
	share := make([]float64, len(t.Causes))
	for i, c := range t.Causes {
		if c.listed() {
			share[i] = c.Common * c.possible(e)
		}
	}
	return normalise(share)
}

// listed tells whether the cause is a fault or use that the table names.
func (c Cause) listed() bool { return c.ID != NothingWrong && c.ID != NotListed }

// possible is whether the vehicle can have it: 1, 0, or the share of vehicles that can.
func (c Cause) possible(e Evidence) float64 {
	switch {
	case c.Only == "" || c.Only == e.FuelSystem || c.Only == carburettor && e.FuelSystem == "":
		return 1
	case e.FuelSystem == "":
		return injectionShare
	}
	return 0
}

// story is how well the log's circumstances suit the cause: 1 when nothing is told.
func (t *Table) story(c Cause, e Evidence) float64 {
	return t.beginning(c, e) * c.weather(e) * c.usage(e) * c.tanks(e)
}

// beginning weighs the onset's form together with the jobs shortly before it.
func (t *Table) beginning(c Cause, e Evidence) float64 {
	raise := t.raise(c, e)
	work, sudden, gradual := c.Comes.Work/100, c.Comes.Sudden/100, c.Comes.Gradual/100
	if atOnce, known := e.Onset.atOnce(); known { // bad work may also tell slowly
		return misdated + atOnce*sudden + (1-atOnce)*gradual + (atOnce+tellsSlowly*(1-atOnce))*work*raise
	}
	// When it began is not known, or whether anything did: the job may have come after it, and counts half as evidence.
	return sudden + gradual + work*math.Sqrt(raise)
}

// atOnce is the chance that it began at once and not slowly.
func (o Onset) atOnce() (chance float64, known bool) {
	doubt := max(o.Doubt, misdated)
	switch o.Form {
	case Sudden:
		return 1 - doubt, true
	case Gradual:
		return doubt, true
	}
	return 0, false
}

// raise is how many times likelier work is to have caused it than if no log had been kept.
func (t *Table) raise(c Cause, e Evidence) float64 {
	if e.Jobs == nil || !c.listed() {
		return 1
	}
	raise := unwritten
	for _, j := range e.Jobs {
		raise = max(raise, t.jobRaise(c, j))
	}
	return min(raise, raiseAtMost)
}

// jobRaise: a rare job just before a fault says more than one that is done every few weeks.
func (t *Table) jobRaise(c Cause, j Job) float64 {
	best := 0.0
	for _, name := range j.Areas {
		area, ok := t.Areas[name]
		if !ok || j.TanksBefore > 2 {
			continue
		}
		share := 0.0
		switch {
		case meet(area.WorksOn, c.Parts):
			share = byOwnPart
		case meet(area.Disturbs, c.Parts):
			share = byDisturbed
		}
		best = max(best, noted*share/(area.Seen/100))
	}
	if j.TanksBefore > 1 {
		best /= 2
	}
	return best
}

func meet(a, b []string) bool {
	return slices.ContainsFunc(a, func(s string) bool { return slices.Contains(b, s) })
}

// weather favours faults of the cold in cold months and of the heat in hot ones.
func (c Cause) weather(e Evidence) float64 {
	share, known := e.share(c.Season)
	if c.Season == "" || !known {
		return 1
	}
	return 0.5 + 1.2*share
}

// share is how much of the time since it began was cold or hot.
func (e Evidence) share(season string) (float64, bool) {
	if quantity.Known(e.AirC) {
		if season == "hot" {
			return min(max((e.AirC-14)/8, 0), 1), true
		}
		return min(max((15-e.AirC)/10, 0), 1), true
	}
	months := []time.Month{time.November, time.December, time.January, time.February, time.March}
	if season == "hot" {
		months = []time.Month{time.June, time.July, time.August}
	}
	n := 0
	for _, m := range e.Months {
		if slices.Contains(months, m) {
			n++
		}
	}
	return float64(n) / float64(max(len(e.Months), 1)), len(e.Months) > 0
}

// usage: where the driving is noted, the excess has it allowed for.
func (c Cause) usage(e Evidence) float64 {
	if !c.Use || !quantity.Known(e.NotedShare) {
		return 1
	}
	return 1 - wellNoted*min(max(e.NotedShare, 0), 1)
}

// tanks: an odd fill is over with the next one.
func (c Cause) tanks(e Evidence) float64 {
	switch {
	case !c.OneTank || e.Onset.Tanks <= 0:
		return 1
	case e.Onset.Tanks == 1:
		return 1.5
	case e.Onset.Tanks == 2:
		return 0.5
	}
	return 0.08
}

func normalise(p []float64) []float64 {
	sum := 0.0
	for _, x := range p {
		sum += x
	}
	for i := range p {
		p[i] /= sum
	}
	return p
}

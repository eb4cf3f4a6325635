package suspect

import (
	"slices"
	"time"

	"brimlog/ingest/book"
	"brimlog/ingest/quantity"
)

// Evidence is what is known of a vehicle. Begin with Nothing() and fill in what there is: what is not known stays so
// and moves no chance.
type Evidence struct {
	Excess     float64 // ln of fuel used over healthy, like for like; quantity.Unknown when there is no figure
	ExcessSD   float64 // its standard deviation, doubt about 'healthy' included
	Onset      Onset
	Jobs       []Job        // not `measure`; nil = the log notes no jobs, empty = none in the window
	Months     []time.Month // since it began, as in the northern half of the world; nil = not known
	AirC       float64      // mean air since it began; wins over Months
	NotedShare float64      // 0 to 1 of the distance whose driving is already allowed for in Excess

	Grades   [book.SymptomCount]Judged // since it began
	Seen     map[string]string         // answers: a sign's id (fuel_leak, smoke, plug, smell, any symptom) and its word; wins over Grades
	Readings []book.Reading            // workshop figures since it began, oldest first
	Standing []book.Reading            // older ones that still hold: no news of what began, but looked at for danger
	Baseline []book.Reading            // the owner's own from when it was healthy, oldest first
	Expected map[string]Figure         // what a reading should be on this vehicle: coast_s and pull_s computed, timing_idle_deg and the like by the handbook

	FuelSystem       string  // carburettor, injection, or empty
	CamOverlapDeg    float64 // crank degrees, off the card
	CompressionRatio float64
	AltitudeM        float64 // where it is driven and measured

	ExtraFuelPct map[string]float64 // by cause: the cycle model's figure for this engine, in place of the table's
	Tools        []string           // tools owned, as the checks name them; nil = not asked
	Done         []string           // checks made that left no reading, by id
	DontKnow     []string           // signs the owner was asked for and could not tell
}

// Nothing is evidence of nothing.
func Nothing() Evidence {
	u := quantity.Unknown
	return Evidence{Excess: u, ExcessSD: u, AirC: u, NotedShare: u, CamOverlapDeg: u, CompressionRatio: u, AltitudeM: u}
}

// An Onset is how it began.
type Onset struct {
	Form  Form
	Tanks int     // since it began; 0 = not known
	Doubt float64 // chance that it came in the other form; where less, the chance of telling it wrongly counts
}

// A Form is whether it came at once or slowly.
type Form int

// The forms of an onset.
const (
	FormUnknown Form = iota
	Sudden
	Gradual
)

// A Job is work done shortly before it began (before now, where the beginning is not known).
type Job struct {
	Areas       []string
	TanksBefore float64 // tanks between the job and the beginning; jobs more than two tanks before raise nothing
	What        string  // in the owner's words, for the reasons
}

// Judged is how a symptom was graded over the trips since it began.
type Judged struct {
	Typical  book.Grade
	Worst    book.Grade
	AsBefore bool       // it was no lighter before it began: the vehicle's own way, which what began has not brought
	Lately   book.Grade // the worst of the newest few drives: where it is dangerous it counts, however well the rest went
}

// Counts is the grade that is reckoned with: the typical one; where the worst was more than a step worse, a step up; none
// where it was no lighter before.
func (j Judged) Counts() book.Grade {
	switch {
	case j.AsBefore:
		return book.None
	case j.Typical == book.NotJudged:
		return j.Worst
	case j.Worst >= j.Typical+2:
		return j.Typical + 1
	}
	return j.Typical
}

// A Figure is an expected value with its standard deviation, in the reading's own unit.
type Figure struct{ Value, SD float64 }

// reading gives the newest of that name.
func reading(rs []book.Reading, name string) (book.Reading, bool) {
	for i := len(rs) - 1; i >= 0; i-- {
		if rs[i].Name == name {
			return rs[i], true
		}
	}
	return book.Reading{}, false
}

// value gives the first number of the newest reading of that name.
func value(rs []book.Reading, name string) (float64, bool) {
	r, ok := reading(rs, name)
	if !ok || len(r.Values) == 0 || !quantity.Known(r.Values[0]) {
		return 0, false
	}
	return r.Values[0], true
}

// list gives all numbers of the newest reading of that name, one per cylinder or wheel; false unless each is a figure.
func list(rs []book.Reading, name string) (book.Reading, bool) {
	r, ok := reading(rs, name)
	return r, ok && len(r.Values) > 0 && !slices.ContainsFunc(r.Values, func(x float64) bool { return !quantity.Known(x) || x < 0 })
}

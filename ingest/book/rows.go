package book

import (
	"slices"
	"time"

	"brimlog/ingest/quantity"
)

// A Place is where something stands in the logbook, so that every figure can be traced back to its line.
type Place struct {
	File string `json:"file"` // fills.csv, trips.csv, work.csv or vehicle.toml
	Line int    `json:"line"` // from 1; the header is line 1
}

// A Moment is a date, and the time of day where the owner gave one.
type Moment struct {
	time.Time
	Timed bool
}

// A Fill is a visit to the pump. Figures are in base units; quantity.Unknown stands for an empty cell.
type Fill struct {
	Place
	Date      Moment
	Odometer  float64 // km as the instrument shows them
	Litres    float64
	Full      bool
	Missed    bool
	Cost      float64
	Fuel      string
	Gauge     float64 // 0 to 1, before filling
	Station   string
	TownShare float64 // 0 to 1 of the tank's distance
	Short     string  // none, some, most; empty = not noted
	Pace      string  // easy, usual, brisk; empty = not noted
	WeakLow   Grade
	WeakHigh  Grade
	Note      string
}

// A Trip is a drive.
type Trip struct {
	Place
	Date       Moment
	Start, End float64 // odometer, km as shown
	Km         float64 // as shown; known whenever two of start, end and distance are
	Road       string  // town, mixed, open, motorway, track; empty = not noted
	Pace       string
	CruiseKmh  float64
	AirC       float64
	ColdStarts float64
	IdleMin    float64
	LoadKg     float64
	TowKg      float64
	Symptoms   Symptoms
	Note       string
}

// A Job is anything done to the vehicle, or measured on it.
type Job struct {
	Place
	ID        string
	Date      Moment
	Odometer  float64 // km as shown
	Kind      string  // fit, adjust, repair, service, measure
	Areas     []string
	What      string
	Readings  []Reading
	Cost      float64
	Hours     float64
	IdleMin   float64
	FuelLostL float64
	Note      string
}

// Measure tells whether the job changed nothing on the vehicle.
func (j Job) Measure() bool { return j.Kind == "measure" }

// Reading gives the job's reading of that name. Where it was noted in another unit, tyre_psi for tyre_bar, its values come
// in the unit that was asked for.
func (j Job) Reading(name string) (Reading, bool) {
	for _, r := range j.Readings {
		if r.Name == name {
			return r, true
		}
	}
	stem, unit := quantity.SplitColumn(name)
	for _, r := range j.Readings {
		if other, u := quantity.SplitColumn(r.Name); other == stem && u.Quantity() == unit.Quantity() && unit != quantity.Number {
			r.Values = slices.Clone(r.Values)
			for i, x := range r.Values {
				r.Values[i] = unit.FromBase(u.ToBase(x))
			}
			return r, true
		}
	}
	return Reading{}, false
}

// A Reading is one name=value of a job.
type Reading struct {
	Name   string
	Text   string    // the value as written
	Values []float64 // the numbers in it: one, or one per cylinder; nil when it is a word
	Speeds []float64 // km/h from and to, of coast_s and pull_s
}

// A Grade says how heavy a symptom was, as the published driveability procedures grade it.
type Grade int8

// The grades. NotJudged is not the same as None.
const (
	NotJudged Grade = iota
	None
	Trace
	Moderate
	Heavy
)

// A Symptom is one of the columns of trips.csv that say how it drove.
type Symptom int

// The symptoms, in the order of the file's columns.
const (
	HardStart Symptom = iota
	HardStartHot
	RoughIdle
	Hesitation
	Stumble
	Surge
	Stall
	Knock
	Backfire
	RunOn
	WeakLow
	WeakCruise
	WeakHigh
	Overheating
	RunsCold
	SymptomCount
)

// Symptoms are the grades of one drive.
type Symptoms [SymptomCount]Grade

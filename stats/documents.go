package stats

import (
	"brimlog/ingest/book"
	"brimlog/ingest/quantity"
	"brimlog/ingest/tank"
)

// Figure is a number that may be unknown: null in JSON.
type Figure = quantity.Figure

// A Range is a figure with its low and high end.
type Range struct {
	Low  Figure `json:"low"`
	Mid  Figure `json:"mid"`
	High Figure `json:"high"`
}

// IsZero tells whether nothing is known of it.
func (r Range) IsZero() bool {
	return !quantity.Known(float64(r.Low)) && !quantity.Known(float64(r.Mid)) && !quantity.Known(float64(r.High))
}

// A Tank is one tank as shown.
type Tank struct {
	Number     int    `json:"number"`
	FromDate   string `json:"from_date"`
	ToDate     string `json:"to_date"`
	FromLine   int    `json:"from_line"`
	ToLine     int    `json:"to_line"`
	DistanceKm Figure `json:"distance_km"`
	FuelL      Figure `json:"fuel_l"`
	Partials   int    `json:"partials"`
	LPer100Km  Figure `json:"l_per_100km"`
	MpgUK      Figure `json:"mpg_uk"`
	MpgUS      Figure `json:"mpg_us"`
	SdPct      Figure `json:"sd_pct"`
	AirC       Figure `json:"air_c"`
	TownShare  Figure `json:"town_share"`
	NotedShare Figure `json:"noted_share"`
	Cost       Figure `json:"cost"`

	LikeForLike Range  `json:"like_for_like,omitzero"` // L/100 km had the season, roads and load been the log's usual; 80 %
	Level       Range  `json:"level,omitzero"`         // the vehicle's own level then, on those usual roads; 80 %
	Note        string `json:"note"`                   // what the owner wrote at the pump
}

// A Job is one job and what it did.
type Job struct {
	ID                string       `json:"id"`
	Date              string       `json:"date"`
	What              string       `json:"what"`
	Kind              string       `json:"kind"`
	Area              string       `json:"area"`
	Line              int          `json:"line"`
	Verdict           *string      `json:"verdict"`
	ChangePct         Figure       `json:"change_pct"`
	LowPct            Figure       `json:"low_pct"`
	HighPct           Figure       `json:"high_pct"`
	RawChangePct      Figure       `json:"raw_change_pct"`
	AgainstHealthyPct Figure       `json:"against_healthy_pct"`
	ChanceLessFuel    Figure       `json:"chance_less_fuel"`
	OddsChanged       Figure       `json:"odds_changed"`
	TanksBefore       int          `json:"tanks_before"`
	TanksAfter        int          `json:"tanks_after"`
	TanksToGo         *int         `json:"tanks_to_go"`
	ChanceWithin      []Chance     `json:"chance_within"` // of a verdict, within so many more tanks
	TogetherWith      []string     `json:"together_with"`
	PlaceboTried      *int         `json:"placebo_tried"`
	PlaceboFooled     *int         `json:"placebo_fooled"`
	Path              []PathTank   `json:"path"`
	Driveability      Driveability `json:"driveability"`
	Cost              Figure       `json:"cost"`
	SavingPer1000Km   Figure       `json:"saving_per_1000km"`
	PaysBackKm        Figure       `json:"pays_back_km"`
	Before            Range        `json:"before"` // L/100 km on the log's usual roads, just before the job; 80 %
	After             Range        `json:"after"`
	Notes             []string     `json:"notes"`
}

// A Chance is the chance of a verdict within so many more tanks.
type Chance struct {
	Tanks  int    `json:"tanks"`
	Chance Figure `json:"chance"`
}

// A PathTank is what the answer was after one tank, from nothing later than it.
type PathTank struct {
	Tank        int    `json:"tank"`
	ToDate      string `json:"to_date"`
	ChangePct   Figure `json:"change_pct"`
	LowPct      Figure `json:"low_pct"`
	HighPct     Figure `json:"high_pct"`
	OddsChanged Figure `json:"odds_changed"`
	Verdict     string `json:"verdict"`
}

// Driveability is how it drove before and after a job: demerits per noted trip.
type Driveability struct {
	Before  Figure  `json:"before"`
	After   Figure  `json:"after"`
	Verdict *string `json:"verdict"` // better, worse, undecided; null when nothing was judged

	Symptoms []SymptomDrive `json:"symptoms"` // those judged on either side
}

// A SymptomDrive is how one symptom showed before and after a job: the mean of its grades, where a trace counts 1, moderate
// 2, heavy 4, and the grade that comes nearest.
type SymptomDrive struct {
	Symptom      string `json:"symptom"` // its column in trips.csv
	Name         string `json:"name"`
	Before       Figure `json:"before"`
	After        Figure `json:"after"`
	GradeBefore  string `json:"grade_before"` // none, trace, moderate, heavy; empty = not judged
	GradeAfter   string `json:"grade_after"`
	DrivesBefore int    `json:"drives_before"` // that judged it
	DrivesAfter  int    `json:"drives_after"`
	Clear        bool   `json:"clear"` // too great a difference for chance
}

// Head is what every document carries.
type Head struct {
	Book   string   `json:"book"`
	Folder string   `json:"folder,omitempty"` // where one of several logbooks lies
	AsOf   string   `json:"as_of"`
	Notes  []string `json:"notes"`
}

// TanksDocument is the answer of tanks.
type TanksDocument struct {
	Head
	Tanks []Tank `json:"tanks"`
}

// ProveDocument is the answer of prove.
type ProveDocument struct {
	Head
	Jobs []Job `json:"jobs"`
}

// A Review is all that is known of a logbook: what terminal, JSON and page show.
type Review struct {
	Head
	Show     book.Show
	Tanks    []Tank // with their levels; nil unless the model was asked, see Written
	Jobs     []Job
	Problems []book.Problem
	Watch    *Watch     // nil unless asked for
	Expect   *Expected  // nil unless asked for
	Suspects *Suspected // nil unless asked for

	log *tank.Log
}

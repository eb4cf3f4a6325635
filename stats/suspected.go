package stats

import (
	"math"

	"brimlog/stats/suspect"
)

// A Suspected is which causes fit what the log knows, and what to look at next.
type Suspected struct {
	suspect.Report
	Began    Began  `json:"began"`
	Drives   int    `json:"drives"`   // that were judged since, trips and notes at the pump
	Readings []Held `json:"readings"` // workshop figures that count

	Evidence suspect.Evidence `json:"-"`
	notes    notes
}

// A Began is when and with what it began to use more or to drive worse, as far as the log can tell.
type Began struct {
	With     string `json:"with"`   // job, shift; empty = no beginning is seen
	Job      string `json:"job"`    // its id; where nothing began, the last one that could matter; empty = none
	Unsure   bool   `json:"unsure"` // the odds of the shift are no proof
	FromDate string `json:"from_date"`
	ToDate   string `json:"to_date"`
	Form     string `json:"form"`     // at_once, slowly; empty = not told
	RisePct  Figure `json:"rise_pct"` // of fuel; null = not by its fuel
	Worse    bool   `json:"worse"`    // it drives worse since
	Anew     string `json:"anew"`     // work done after it began, which may have cured it: only what came since is weighed; empty = none

	ExcessPct     Figure `json:"excess_pct"` // what is weighed: the rise, or what it uses above the healthy range
	ExcessLowPct  Figure `json:"excess_low_pct"`
	ExcessHighPct Figure `json:"excess_high_pct"`
	OverHealthy   bool   `json:"over_healthy"` // it is the latter
}

// A SuspectsDocument is the answer of suspects.
type SuspectsDocument struct {
	Head
	Suspected
}

// SuspectsDocument is the answer of suspects. What must stop stands before all other notes.
func (r *Review) SuspectsDocument() SuspectsDocument {
	d := SuspectsDocument{r.Head, *r.Suspects}
	d.Notes = []string{}
	for _, s := range r.Suspects.Stop {
		d.Notes = append(d.Notes, s.Why+" "+s.Do)
	}
	d.Notes = append(append(append(d.Notes, r.Notes...), r.Suspects.notes...), r.Suspects.Report.Notes...)
	return d
}

// Weigh takes what the owner has added to the evidence.
func (s *Suspected) Weigh(e suspect.Evidence) { s.Evidence, s.Report = e, suspect.Rank(e) }

// suspects fills in Suspects from the log alone.
func (r *Review) suspects(g ground) {
	s := &Suspected{}
	s.Weigh(r.evidence(g, s))
	r.Suspects = s
}

// weighed notes the excess that counts.
func (b *Began) weighed(mean, sd float64, overHealthy bool) {
	at := func(z float64) Figure { return Figure(100 * math.Expm1(mean+z*sd)) }
	b.ExcessPct, b.ExcessLowPct, b.ExcessHighPct, b.OverHealthy = at(0), at(-z90), at(z90), overHealthy
}

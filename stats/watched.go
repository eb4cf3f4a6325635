package stats

import (
	"math"

	"brimlog/ingest/book"
	"brimlog/ingest/tank"
	"brimlog/stats/model"
	"brimlog/stats/prove"
	"brimlog/stats/watch"
)

// A Watch is what stands out and what changed without a job named for it.
type Watch struct {
	Tanks  []WatchedTank `json:"tanks"`
	Shifts []Shift       `json:"shifts"`
	Alarm  bool          `json:"alarm"`
	Next   *NextTank     `json:"next"` // null without a tank
}

// A WatchedTank is a tank held against what was expected of it.
type WatchedTank struct {
	Number       int     `json:"number"`
	ToDate       string  `json:"to_date"`
	LPer100Km    Figure  `json:"l_per_100km"`
	ExpectedLow  Figure  `json:"expected_low"`
	ExpectedHigh Figure  `json:"expected_high"`
	Score        Figure  `json:"score"`
	Reading      *string `json:"reading"`
}

// A Shift is a step that no job accounts for.
type Shift struct {
	FromDate    string   `json:"from_date"`
	ToDate      string   `json:"to_date"`
	ChangePct   Figure   `json:"change_pct"`
	LowPct      Figure   `json:"low_pct"`
	HighPct     Figure   `json:"high_pct"`
	OddsChanged Figure   `json:"odds_changed"`
	Jobs        []string `json:"jobs"`
	JobsSince   []string `json:"jobs_since"`    // done after its dates: whether they took it back is proved or not yet known
	TakenBackBy string   `json:"taken_back_by"` // the later job with which more than half of a rise was gone, as proved; empty where there is none
	SinceTank   int      `json:"since_tank"`    // number of the likeliest first tank; of what crept in, that from which on the most of it is there
	Gradual     bool     `json:"gradual"`       // it crept in between the two dates, rather than came at once on one of them
}

// Sure tells whether the odds for a shift are those from which a job's change counts as proved.
func (s Shift) Sure() bool { return float64(s.OddsChanged) >= prove.Proved }

// NextTank says what a next tank like the recent ones should use, L/100 km, and what would raise or clear the alarm.
type NextTank struct {
	ExpectedLow  Figure `json:"expected_low"`
	ExpectedMid  Figure `json:"expected_mid"`
	ExpectedHigh Figure `json:"expected_high"`
	AlarmAbove   Figure `json:"alarm_above"`
	ClearBelow   Figure `json:"clear_below"`
}

// WatchDocument is the answer of watch.
type WatchDocument struct {
	Head
	Watch
}

// WatchDocument is the answer of watch.
func (r *Review) WatchDocument() WatchDocument { return WatchDocument{r.Head, *r.Watch} }

// watchOf asks the watch.
func watchOf(l *tank.Log, d *model.Design, c model.Course, shifts []watch.Shift) *Watch {
	w := &Watch{Tanks: []WatchedTank{}, Shifts: []Shift{}}
	if len(l.Tanks) == 0 {
		return w
	}
	for i, t := range watch.Standing(d, c) {
		tank := l.Tanks[i]
		out := WatchedTank{
			Number: tank.Number, ToDate: written(tank.Closes.Date), LPer100Km: Figure(100 * tank.Litres / tank.Km),
			ExpectedLow: perHundred(t.Low), ExpectedHigh: perHundred(t.High), Score: Figure(t.Score),
		}
		if t.Reading != "" {
			out.Reading = &t.Reading
		}
		w.Tanks = append(w.Tanks, out)
	}
	var back string
	if n := len(shifts); watch.Slipped(shifts) {
		since := prove.Since(l, d, shifts[n-1].Tank)
		back = takenBack(shifts[n-1].Change, since)
		for _, j := range since {
			// Of a step that is not sure, and a job soon after it that is, the date may well be the job's.
			if s := &shifts[n-1]; s.Odds < prove.Proved && j.Change > 0 {
				s.Reach(l, j.Tank)
			}
		}
	}
	for _, s := range shifts {
		w.Shifts = append(w.Shifts, Shift{
			FromDate: s.From.Format("2006-01-02"), ToDate: s.To.Format("2006-01-02"), ChangePct: Figure(s.Change), LowPct: Figure(s.Low), HighPct: Figure(s.High),
			OddsChanged: Figure(s.Odds), Jobs: s.Jobs, JobsSince: jobsAfter(l, s.To), SinceTank: s.Tank + 1, Gradual: s.Gradual,
		})
	}
	if w.Alarm = watch.Slipped(shifts) && back == ""; back != "" {
		w.Shifts[len(shifts)-1].TakenBackBy = back
	}
	n := watch.Ahead(l, d, c, shifts, w.Alarm)
	w.Next = &NextTank{perHundred(n.Low), perHundred(n.Mid), perHundred(n.High), perHundred(n.Raises), perHundred(n.Clears)}
	return w
}

// jobsAfter are the jobs dated later than a shift may have come.
func jobsAfter(l *tank.Log, to book.Moment) []string {
	ids := []string{}
	for _, j := range l.Jobs {
		if !j.Measure() && j.Date.After(to.Time) && j.Tank < len(l.Tanks) {
			ids = append(ids, j.ID)
		}
	}
	return ids
}

// takenBack names the job with which more than half of a rise, in percent, was gone.
func takenBack(rise float64, since []prove.Settled) string {
	left := math.Log1p(rise / 100)
	for _, j := range since {
		if left += min(0, math.Log1p(j.Change/100)); left < math.Log1p(rise/100)/2 {
			return j.ID
		}
	}
	return ""
}

// perHundred turns ln(L/km) into L/100 km.
func perHundred(y float64) Figure { return Figure(100 * math.Exp(y)) }

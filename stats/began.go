package stats

import (
	"cmp"
	"math"
	"slices"

	"brimlog/ingest/book"
	"brimlog/ingest/quantity"
	"brimlog/ingest/tank"
	"brimlog/stats/prove"
	"brimlog/stats/suspect"
)

// A turn is a place in the log at which fuel or driving changed: a shift that no job accounts for, or a job by what it did.
type turn struct {
	job      int         // index in log.Jobs; -1 = a shift
	place    float64     // in tanks along the log
	from, to book.Moment // it lies between
	rise, sd float64     // of ln fuel per distance; 0 = not told
	felt     int         // 1 = it drives worse since, -1 = better
	form     suspect.Form
	doubt    float64 // that it came in the other form
	left     float64 // of the rise, once later turns have taken from it
	unsure   bool    // the odds of the shift are no proof
}

// atOnce is the chance that what a shift's window of so many tanks shows came at once and not over six or twelve tanks, both
// held to be as common. Measured on drawn logs (go test ./stats -run TestNarrowWindow -drawn 60 -v).
var atOnce = []float64{0.75, 0.75, 0.45, 0.45, 0.28}

// shiftForm tells from the window how a shift came on.
func shiftForm(width int) (suspect.Form, float64) {
	chance := atOnce[min(max(width, 1), len(atOnce)-1)]
	if chance >= 0.5 {
		return suspect.Sudden, 1 - chance
	}
	return suspect.Gradual, chance
}

// z90 is the half width, in standard deviations, of the central 90 %.
const z90 = 1.6448536269514722

// risen turns a change in percent, with its 90 % interval, into a logarithm.
func risen(mid, low, high Figure) (rise, sd float64) {
	rise = math.Log1p(float64(mid) / 100)
	return rise, (math.Log1p(float64(high)/100) - math.Log1p(float64(low)/100)) / (2 * z90)
}

// turns are those of a log, in order.
func (r *Review) turns(g ground) []turn {
	var all []turn
	for _, s := range r.Watch.Shifts {
		t := turn{job: -1, place: float64(s.SinceTank - 1), unsure: !s.Sure()}
		t.from, _ = book.ParseMoment(s.FromDate) // as the watch wrote them
		t.to, _ = book.ParseMoment(s.ToDate)
		t.rise, t.sd = risen(s.ChangePct, s.LowPct, s.HighPct)
		t.form, t.doubt = shiftForm(g.tanksWithin(t.from, t.to) - 1) // the window opens with the tank before
		if s.Gradual {
			t.form, t.doubt = suspect.Gradual, atOnce[len(atOnce)-1]
		}
		all = append(all, t)
	}
	told := 0
	for i, j := range g.log.Jobs {
		if j.Measure() {
			continue
		}
		if t := g.turnOf(i, r.Jobs[told]); t.rise != 0 || t.felt != 0 {
			all = append(all, t)
		}
		told++
	}
	slices.SortStableFunc(all, func(a, b turn) int { return cmp.Compare(a.place, b.place) })
	return all
}

// turnOf is what a job did. How it drives counts only after work on a part on which that depends, and where a symptom has
// changed by a whole grade: less may be the season.
func (g ground) turnOf(i int, told Job) turn {
	j := g.log.Jobs[i]
	t := turn{job: i, place: g.placeOf(i), from: j.Date, to: j.Date, form: suspect.Sudden}
	if v := told.Verdict; v != nil && slices.Contains([]string{prove.LessFuel, prove.MoreFuel, prove.LeaningLess, prove.LeaningMore}, *v) {
		t.rise, t.sd = risen(told.ChangePct, told.LowPct, told.HighPct)
	}
	if v := told.Driveability.Verdict; v != nil && worksOn(j) && len(told.Driveability.Changed()) > 0 {
		t.felt = map[string]int{"better": -1, "worse": 1}[*v]
	}
	return t
}

// worksOn tells whether a job is work on any part whose faults are known.
func worksOn(j tank.Job) bool {
	return !j.Measure() && slices.ContainsFunc(j.Areas, suspect.Standard().WorksOn)
}

// placeOf is where a job lies, in tanks along the log.
func (g ground) placeOf(job int) float64 {
	j := g.log.Jobs[job]
	if j.Tank >= len(g.log.Tanks) {
		return float64(len(g.log.Tanks))
	}
	t := g.log.Tanks[j.Tank]
	if !quantity.Known(j.At) {
		return float64(j.Tank) + 0.5
	}
	return float64(j.Tank) + min(max((j.At-t.From)/t.Km, 0), 1)
}

func (g ground) tanksWithin(from, to book.Moment) int {
	n := 0
	for _, t := range g.log.Tanks {
		if t.Closes.Date.After(from.Time) && !t.Closes.Date.After(to.Time) {
			n++
		}
	}
	return n
}

// onset is the newest turn for the worse that is not yet made good.
func onset(turns []turn) (turn, bool) {
	var o turn
	open := false
	for _, t := range turns {
		switch climbs := open && o.job < 0 && t.job < 0 && o.rise > 0; {
		case climbs && t.rise > 0: // two steps up that nobody named are one slow climb
			o.rise, o.left, o.sd = o.rise+t.rise, o.left+t.rise, math.Hypot(o.sd, t.sd)
			o.form, o.doubt, o.to = suspect.Gradual, atOnce[len(atOnce)-1], t.to
		case t.rise > 0 || t.felt > 0:
			o, open = t, true
			o.rise = max(o.rise, 0)
			o.left = o.rise
		case open && o.rise > 0:
			o.left += t.rise
			open = o.left > o.rise/2
		case open && t.felt < 0:
			open = false
		}
	}
	if !open {
		return turn{job: -1}, false
	}
	return o, true
}

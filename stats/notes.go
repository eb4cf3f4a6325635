package stats

import (
	"fmt"
	"math"
	"slices"

	"brimlog/ingest/book"
	"brimlog/ingest/quantity"
	"brimlog/ingest/tank"
	"brimlog/stats/prove"
)

// notesOf says what limits every answer of a log, and what would let it answer better.
func notesOf(b *book.Book, l *tank.Log) []string {
	notes := []string{}
	say := func(format string, a ...any) { notes = append(notes, fmt.Sprintf(format, a...)) }
	if n := len(b.Problems); n > 0 {
		say("%s could not be used or look doubtful: see check", plural(n, "entry", "entries"))
	}
	switch n := len(l.Tanks); {
	case len(b.Fills) == 0 && slices.ContainsFunc(b.Problems, func(p book.Problem) bool { return p.File == book.FillsFile }):
		say("no fill could be read: mend them first")
	case len(b.Fills) == 0:
		say("no fills yet: write down every visit to the pump, and fill to the brim each time")
	case n == 0 && l.Open.Full == 0:
		say("no fill was to the brim, so no tank can be measured: fill to the pump's first click twice, and note every litre between")
	case n == 0 && l.Open.Full == 1:
		say("one brim fill opens a tank: the next one closes it")
	case n == 0:
		say("no tank runs from brim to brim: each is broken by a missed fill or an odometer reading that can't be used")
	case n < 4:
		say("%s so far: the scatter of one tank is 3 to 6 %%, so four or more before a job and after it say far more", plural(n, "tank", "tanks"))
	}
	noted, aired, km := 0.0, 0.0, 0.0
	for _, t := range l.Tanks {
		noted += t.NotedShare() * t.Km
		aired += min(t.Km, t.Conditions.AirKm)
		km += t.Km
	}
	if km > 0 && noted/km < 0.5 {
		say("%.0f %% of the distance has trip notes: kind of road and cold starts of the rest are taken as unknown, which widens every answer", 100*noted/km)
	}
	if km > 0 && aired/km < 0.5 && l.Vehicle.Place.MonthlyC == nil {
		say("little is known of the air temperature: monthly_c in vehicle.toml, or air in the trip notes, would separate season from vehicle")
	}
	return notes
}

// jobNotes says what limits the answer for one job.
func jobNotes(l *tank.Log, j tank.Job, job Job, p prove.Proof) []string {
	notes := []string{}
	say := func(format string, a ...any) { notes = append(notes, fmt.Sprintf(format, a...)) }
	switch {
	case len(l.Tanks) == 0:
		return notes
	case j.Tank >= len(l.Tanks):
		say("no tank since this job yet")
		return notes
	case job.Verdict == nil:
		say("no tank before this job: nothing to hold it against but the expected range")
		return notes
	}
	if km := l.Tanks[len(l.Tanks)-1].To - quantity.Or(j.At, l.Tanks[j.Tank].From); km < transientKm {
		say("%s since: part of this may be how you drive since the job, which fades over about %s", far(l, km), far(l, fadesKm))
	}
	if n := len(job.TogetherWith); n > 0 {
		say("done within the same tank as %s: no log can tell them apart", list(job.TogetherWith))
	}
	width := math.Log1p(p.Current.High/100) - math.Log1p(p.Current.Low/100)
	if math.Abs(p.Last.Pull) > width/2 {
		say("leans on what cold is believed to cost: a year of tanks, or the air temperature noted on every trip, would settle it")
	}
	if was, on := weakened(p, l); was != "" && !prove.Final(p.Current.Verdict) {
		say("it was %s on %s, and the evidence has weakened since", was, on)
	}
	if quantity.Known(p.Current.Against) {
		say("consumption had risen or fallen without a job before this one; against the last healthy level it is %+.1f %%", p.Current.Against)
	}
	return notes
}

const (
	fadesKm     = 800  // how one drives since a job fades over so far
	transientKm = 2000 // and has all but faded after this
)

// far writes a distance in the owner's unit.
func far(l *tank.Log, km float64) string {
	u, ok := quantity.UnitNamed(l.Vehicle.Show.Distance)
	if !ok {
		u = quantity.Km
	}
	return quantity.Format(km, u)
}

// weakened finds a verdict reached earlier that no longer stands.
func weakened(p prove.Proof, l *tank.Log) (verdict, date string) {
	for _, s := range p.Path {
		if v := spoken[s.Verdict]; v != "" && s.Verdict != p.Current.Verdict {
			return v, l.Tanks[s.Tank].Closes.Date.Format("2006-01-02")
		}
	}
	return "", ""
}

var spoken = map[string]string{prove.LessFuel: "proved to use less fuel", prove.MoreFuel: "proved to use more fuel", prove.NoChange: "sure to be within 3 %"}

func plural(n int, one, more string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, more)
}

func list(words []string) string {
	out := ""
	for i, w := range words {
		switch {
		case i == 0:
		case i == len(words)-1:
			out += " and "
		default:
			out += ", "
		}
		out += w
	}
	return out
}

package charts

import (
	"html/template"

	"brimlog/ingest/quantity"
)

// A vigil is the section of the watch: what shifted without a job, which tanks stand out, and what a next tank would say.
type vigil struct {
	Calm     template.HTML // all there is to tell where nothing shifted and no tank stands out
	Shifts   []shiftCard   // the newest first
	Rest     string        // of what there is none
	Next     template.HTML
	Standing []standing
}

// watched tells what the watch has seen; it stays away where the watch was not asked or had no tank to look at.
func watched(l *logbook) *section {
	if l.Watch == nil || len(l.tanks) == 0 {
		return nil
	}
	v := vigil{Next: say(l.nextTank(), spaced(l.verge())), Standing: l.standing()}
	for i := len(l.Watch.Shifts) - 1; i >= 0; i-- {
		v.Shifts = append(v.Shifts, l.shiftCard(l.Watch.Shifts[i]))
	}
	n := count(len(l.tanks), "tank", "tanks")
	switch {
	case len(v.Shifts) == 0 && len(v.Standing) == 0:
		v.Calm = say("All quiet: over ", n, " nothing has shifted that a job does not account for, and no tank stands out.")
	case len(v.Shifts) == 0:
		v.Rest = "Nothing has shifted over " + n + " that a job does not account for."
	case len(v.Standing) == 0:
		v.Rest = "No single tank stands out from what was expected of it."
	}
	return &section{ID: "watch", Title: "On watch", Form: "watch.html", Data: v}
}

// nextTank says what a next tank should come to.
func (l *logbook) nextTank() template.HTML {
	n := l.Watch.Next
	if n == nil || !quantity.Known(float64(n.ExpectedLow)) || !quantity.Known(float64(n.ExpectedHigh)) {
		return ""
	}
	return say("A next tank like the recent ones should come to ", l.economies(float64(n.ExpectedLow), float64(n.ExpectedHigh)), ", 90"+fastened+"% sure.")
}

// verge says what a next tank would have to come to for the alarm to be raised or called off.
func (l *logbook) verge() template.HTML {
	n := l.Watch.Next
	if n == nil {
		return ""
	}
	switch raises, clears := float64(n.AlarmAbove), float64(n.ClearBelow); {
	case l.Watch.Alarm && quantity.Known(clears):
		return say("A next tank thriftier than ", l.economy(clears), " would call the alarm off.")
	case l.Watch.Alarm:
		return say("No single tank would call the alarm off.")
	case quantity.Known(raises):
		return say("A next tank thirstier than ", l.economy(raises), " would raise the alarm at once.")
	}
	return say("No single tank would raise the alarm; two or three thirsty ones in a row would.")
}

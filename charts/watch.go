package charts

import (
	"html/template"

	"brimlog/ingest/quantity"
	"brimlog/stats"
)

// A vigil is the section of the watch: what shifted without a job, which tanks stand out, and what a next tank would say.
type vigil struct {
	Calm     template.HTML // all there is to tell where nothing shifted and no tank stands out
	Shifts   []shiftCard
	Next     template.HTML
	Standing []standing
	Rest     string // said of the tanks where only a shift is told, and of the level where only tanks are
}

// A shiftCard is a shift as the page shows it.
type shiftCard struct {
	Mark     ruling
	Headline string
	Finding  template.HTML
	Fields   []field
}

// watched tells what the watch has seen; it stays away where the watch was not asked or had no tank to look at.
func watched(l *logbook) *section {
	if l.Watch == nil || len(l.tanks) == 0 {
		return nil
	}
	v := vigil{Standing: l.standing(), Next: l.ahead()}
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

func (l *logbook) shiftCard(s stats.Shift) shiftCard {
	c := shiftCard{Mark: shiftRuling(s), Headline: sentence(changed(float64(s.ChangePct))),
		Finding: say("It came some day from ", span2(s), ". ", l.blamed(s), spaced(l.curedSince(s)))}
	add := func(label string, value, under template.HTML) {
		c.Fields = append(c.Fields, field{label, value, under})
	}
	if b, a, ok := l.aside(s); ok {
		add("Before", l.economy(float64(b.Mid)), l.eighty(b))
		add("After", l.economy(float64(a.Mid)), l.eighty(a))
	}
	add("Change, 90"+fastened+"% sure", say(changes(float64(s.LowPct), float64(s.HighPct))), say("season, roads, load and all jobs allowed for"))
	add("Odds", say(odds(float64(s.OddsChanged))), say("against no shift in these dates"))
	add("First tank after it", say(number(float64(s.SinceTank), 0)), say("the likeliest; the dates hold it, 90"+fastened+"% sure"))
	return c
}

// shiftRuling shows a shift as a job's change of the same sign is shown.
func shiftRuling(s stats.Shift) ruling {
	r := rulings[shiftMark(s)]
	return ruling{Mark: r.mark, Word: r.word, Tone: r.tone}
}

func shiftMark(s stats.Shift) int {
	if s.ChangePct > 0 {
		return rulingNamed("more_fuel")
	}
	return rulingNamed("less_fuel")
}

// blamed says which jobs fell within the dates of a shift, and what to do where there is none.
func (l *logbook) blamed(s stats.Shift) template.HTML {
	switch {
	case len(s.Jobs) > 0:
		return say(l.named(s.Jobs), " fell within those dates, but the shift comes on top of what can be laid to ", one(len(s.Jobs), "that job", "those jobs"), ".")
	case s.ChangePct > 0:
		return say("No job is named for it: either something was done then that is missing from ", template.HTML("<code>work.csv</code>"), ", or something has slipped.")
	}
	return say("No job is named for it: if something was done then, write it into ", template.HTML("<code>work.csv</code>"), ".")
}

// curedSince names the newest job after a shift to more fuel that is proved to have brought less.
func (l *logbook) curedSince(s stats.Shift) template.HTML {
	for i := len(l.jobs) - 1; i >= 0 && s.ChangePct > 0; i-- {
		if j := l.jobs[i]; j.day > day(s.ToDate) && rulings[rulingOf(j)].verdict == "less_fuel" {
			return say("Since then ", link(j), " is proved to have brought ", changed(float64(j.ChangePct)), ".")
		}
	}
	return ""
}

// aside are the levels on either side of a shift.
func (l *logbook) aside(s stats.Shift) (before, after stats.Range, ok bool) {
	for i := 1; i < len(l.tanks); i++ {
		if l.tanks[i].Number == s.SinceTank {
			before, after = l.tanks[i-1].Level, l.tanks[i].Level
			return before, after, quantity.Known(float64(before.Mid)) && quantity.Known(float64(after.Mid))
		}
	}
	return before, after, false
}

// ahead says what a next tank should come to, and what would raise or clear the alarm.
func (l *logbook) ahead() template.HTML {
	n := l.Watch.Next
	if n == nil || !quantity.Known(float64(n.ExpectedLow)) || !quantity.Known(float64(n.ExpectedHigh)) {
		return ""
	}
	words := say("A next tank like the recent ones should come to ", l.economies(float64(n.ExpectedLow), float64(n.ExpectedHigh)), ", 90"+fastened+"% sure. ")
	switch raises, clears := float64(n.AlarmAbove), float64(n.ClearBelow); {
	case l.Watch.Alarm && quantity.Known(clears):
		return words + say("One thriftier than ", l.economy(clears), " would clear the alarm.")
	case l.Watch.Alarm:
		return words + say("No single tank would clear the alarm.")
	case quantity.Known(raises):
		return words + say("One thirstier than ", l.economy(raises), " would raise the alarm at once.")
	}
	return words + say("No single tank would raise the alarm; two or three thirsty ones in a row would.")
}

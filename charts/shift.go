package charts

import (
	"html/template"

	"brimlog/ingest/quantity"
	"brimlog/stats"
)

// A shiftCard is a shift as the page shows it.
type shiftCard struct {
	Mark     ruling
	Rule     *rule
	Headline string
	Finding  template.HTML
	Fields   []field
}

func (l *logbook) shiftCard(s stats.Shift) shiftCard {
	c := shiftCard{Mark: shiftRuling(s), Rule: shiftRule(s), Headline: sentence(sized(s)),
		Finding: say("It ", came(s), " between ", between(s), ". ", l.blamed(s), spaced(l.curedSince(s)))}
	add := func(label string, value, under template.HTML) {
		c.Fields = append(c.Fields, field{Label: label, Value: value, Under: under})
	}
	if b, a, ok := l.aside(s); ok && !s.Gradual { // the levels of what crept in lie further apart
		add("Before", l.economy(float64(b.Mid)), l.eighty(b))
		add("After", l.economy(float64(a.Mid)), l.eighty(a))
	}
	add("Change, 90"+fastened+"% sure", say(changes(float64(s.LowPct), float64(s.HighPct))), say("like for like, all jobs allowed for"))
	add("Odds", say(odds(float64(s.OddsChanged))), "")
	if s.Gradual {
		add("How it came", say("little by little"), say("so it fits far better than coming at once"))
		return c
	}
	add("Likeliest first tank", say(number(float64(s.SinceTank), 0)), say("90"+fastened+"% sure of the dates"))
	return c
}

// came tells how a shift came: at once on a day between its dates, or little by little from the first to the last.
func came(s stats.Shift) string {
	has, did := "come", "came"
	switch {
	case s.Gradual && s.ChangePct > 0:
		has, did = "crept up", "crept up"
	case s.Gradual:
		has, did = "crept down", "crept down"
	}
	if s.Sure() {
		return did
	}
	return "seems to have " + has
}

// sized is the size of a shift, with a perhaps where its odds fall short of proof.
func sized(s stats.Shift) string {
	if s.Sure() {
		return changed(float64(s.ChangePct))
	}
	return "perhaps " + changed(float64(s.ChangePct))
}

// shiftRuling shows a shift as a job's change of the same sign and the same certainty is shown.
func shiftRuling(s stats.Shift) ruling {
	r := rulings[shiftMark(s)]
	return ruling{Mark: r.mark, Tone: r.tone}
}

func shiftMark(s stats.Shift) int {
	switch up := s.ChangePct > 0; {
	case up && s.Sure():
		return rulingNamed("more_fuel")
	case up:
		return rulingNamed("leaning_more")
	case s.Sure():
		return rulingNamed("less_fuel")
	}
	return rulingNamed("leaning_less")
}

// between writes the dates that hold a shift: 3 and 17 Aug 2026.
func between(s stats.Shift) template.HTML {
	return name(dates(s.FromDate, s.ToDate, " and "))
}

// shiftRows are the shifts as the chart of the whole log marks them: first and last day, ruling, change %.
func shiftRows(l *logbook) (rows []row) {
	if l.Watch == nil {
		return nil
	}
	for _, s := range l.Watch.Shifts {
		if from, to := day(s.FromDate), day(s.ToDate); quantity.Known(from) && quantity.Known(to) {
			rows = append(rows, row{Figure(from), Figure(to), Figure(shiftMark(s)), cut(s.ChangePct, 2)})
		}
	}
	return rows
}

// blamed says which jobs fell within the dates of a shift, and what to do where there is none.
func (l *logbook) blamed(s stats.Shift) template.HTML {
	file, slid := template.HTML("<code>work.csv</code>"), "has slipped"
	if !s.Sure() {
		slid = "may have slipped"
	}
	switch {
	case len(s.Jobs) > 0:
		those := "it"
		if len(s.Jobs) > 1 {
			those = "them"
		}
		return say(l.named(s.Jobs), " fell within those dates, but this comes on top of what can be laid to ", those, ".")
	case s.ChangePct > 0:
		return say("No job is named for it: either something was done then that is missing from ", file, ", or something "+slid+".", spaced(l.behind(s)))
	}
	return say("No job is named for it: if something was done then, write it into ", file, ".")
}

// behind leads from a shift that nothing has taken back to what may be behind it, where that stands on the page.
func (l *logbook) behind(s stats.Shift) template.HTML {
	if suspects(l) == nil || l.curedSince(s) != "" {
		return ""
	}
	return say("The causes that fit stand under “", template.HTML(`<a href="#suspects">`), "What may be behind it", template.HTML(`</a>`), "”.")
}

// curedSince names the job that took a shift to more fuel back: the one that the watch found, else the first after it that is
// proved to have brought less.
func (l *logbook) curedSince(s stats.Shift) template.HTML {
	for i := 0; i < len(l.jobs) && s.ChangePct > 0; i++ {
		if j := l.jobs[i]; j.ID == s.TakenBackBy || s.TakenBackBy == "" && j.day > day(s.ToDate) && rulings[rulingOf(j)].verdict == "less_fuel" {
			return say("Since then ", link(j), " is proved to have brought ", changed(float64(j.ChangePct)), ".")
		}
	}
	return ""
}

// named lists jobs by what their owner calls them, each leading to its card.
func (l *logbook) named(ids []string) (all template.HTML) {
	for i, id := range ids {
		if i > 0 {
			all += ", "
		}
		all += l.linkTo(id)
	}
	return all
}

func (l *logbook) linkTo(id string) template.HTML {
	for _, j := range l.jobs {
		if j.ID == id {
			return link(j)
		}
	}
	return name(id)
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

// eighty is a range of economy with how sure it is.
func (l *logbook) eighty(r stats.Range) template.HTML {
	return say("80"+fastened+"% sure: ", l.economies(float64(r.Low), float64(r.High)))
}

package charts

import (
	"html/template"

	"brimlog/ingest/quantity"
	"brimlog/stats"
)

// slipped answers whether anything has changed that nobody did.
func slipped(l *logbook) (answer, bool) {
	if l.Watch == nil || len(l.tanks) == 0 {
		return answer{}, false
	}
	a := answer{Question: "Has anything slipped since?", Sure: l.verge()}
	n := len(l.Watch.Shifts)
	if n == 0 {
		a.Mark, a.Figure = ruling{Mark: "■", Tone: "even"}, say("No, nothing")
		a.Sentence = say("Over ", count(len(l.tanks), "tank", "tanks"), " nothing has shifted that a job does not account for.", spaced(l.outstanding()))
		return a, true
	}
	s := l.Watch.Shifts[n-1]
	switch {
	case l.Watch.Alarm && s.Sure():
		a.Mark, a.Figure = shiftRuling(s), say("Yes: ", changed(float64(s.ChangePct)))
	case l.Watch.Alarm:
		a.Mark, a.Figure = shiftRuling(s), say("It seems so: ", changed(float64(s.ChangePct)))
	case s.TakenBackBy != "" && s.Sure():
		a.Mark, a.Figure = ruling{Mark: "■", Tone: "even"}, say("Not any more")
	case s.TakenBackBy != "":
		a.Mark, a.Figure = ruling{Mark: "■", Tone: "even"}, say("No, not now")
	case s.ChangePct > 0:
		a.Mark, a.Figure = ruling{Mark: "▽", Tone: "bad"}, say("Perhaps: ", changed(float64(s.ChangePct)))
	default:
		a.Mark, a.Figure = shiftRuling(s), say("No: ", sized(s))
	}
	a.Rule = shiftRule(s)
	a.Sentence = say("Between ", between(s), began(s), l.candidates(s), ".", spaced(l.curedSince(s)), spaced(l.stillOpen(s)), spaced(l.outstanding()))
	a.Sure = say(sureOf(s), spaced(a.Sure))
	return a, true
}

// began goes on after the dates of a shift. Its size is told where the answer itself has none.
func began(s stats.Shift) string {
	size := "less"
	switch {
	case s.TakenBackBy != "":
		size = changed(float64(s.ChangePct))
	case s.ChangePct > 0:
		size = "more"
	}
	took := " began to take "
	switch sure := s.Sure(); {
	case s.Gradual && sure:
		took = " came, little by little, to take "
	case s.Gradual:
		took = " seems to have come, little by little, to take "
	case !sure:
		took = " seems to have begun to take "
	}
	return " it" + took + size + " for the same driving, "
}

// candidates names the jobs within the dates of a shift.
func (l *logbook) candidates(s stats.Shift) template.HTML {
	if len(s.Jobs) == 0 {
		return say("and ", template.HTML(`<a href="#watch">`), "no job is named for it", template.HTML(`</a>`))
	}
	return say("and ", l.named(s.Jobs), " fell ", template.HTML(`<a href="#watch">`), "within those dates", template.HTML(`</a>`))
}

// sureOf says in odds and in a range how much the log knows of a shift.
func sureOf(s stats.Shift) string {
	words := "Odds: " + odds(float64(s.OddsChanged)) + "."
	if quantity.Known(float64(s.LowPct)) && quantity.Known(float64(s.HighPct)) {
		words += " 90" + fastened + "% sure: " + changes(float64(s.LowPct), float64(s.HighPct)) + "."
	}
	return words
}

// stillOpen names the jobs done since a shift, while none of them is proved to have taken it back.
func (l *logbook) stillOpen(s stats.Shift) template.HTML {
	if len(s.JobsSince) == 0 || s.TakenBackBy != "" || s.ChangePct <= 0 {
		return ""
	}
	return say("Whether ", l.named(s.JobsSince), ", done since, took it back is not yet proved.")
}

// outstanding says how many tanks stand out; nothing where none does.
func (l *logbook) outstanding() template.HTML {
	n := 0
	for _, t := range l.Watch.Tanks {
		if t.Reading != nil {
			n++
		}
	}
	if n == 0 {
		return ""
	}
	return say(template.HTML(`<a href="#watch">`), count(n, "tank stands", "tanks stand"), " out", template.HTML(`</a>`), ".")
}

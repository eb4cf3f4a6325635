package suspect

import (
	"slices"
	"strings"
)

// told is what the log's circumstances say of the cause: the job before it, how it began, the weather, how it is used.
func (r reasons) told(cause int) []reason {
	w, c := r.w, r.w.t.Causes[cause]
	if !c.listed() {
		return nil
	}
	var all []reason
	add := func(text string, of func(Cause) float64) {
		all = append(all, reason{text, of(c) / w.average(of)})
	}
	if c.possible(w.e) == 0 {
		return []reason{{"only vehicles with " + c.Only + " can have it", 1e-3}}
	}
	if w.e.Onset.Form != FormUnknown || w.e.Jobs != nil {
		add(w.beginningSentence(c), func(c Cause) float64 { return w.t.beginning(c, w.e) })
	}
	if cold, known := w.e.share(c.Season); known && c.Season != "" {
		text := "it comes in the " + c.Season + " season, and this is not it"
		if cold > 0.4 {
			text = "it comes in the " + c.Season + " season, which this is"
		}
		add(text, func(c Cause) float64 { return c.weather(w.e) })
	}
	if c.Use {
		add("how it was driven is noted, and allowed for in the figure", func(c Cause) float64 { return c.usage(w.e) })
	}
	if c.OneTank {
		add("a matter of one fill shows in one tank", func(c Cause) float64 { return c.tanks(w.e) })
	}
	return all
}

// average of a circumstance over the listed causes, by how common they are.
func (w *weighing) average(of func(Cause) float64) float64 {
	sum := 0.0
	for i, share := range w.t.common(w.e) {
		if share > 0 {
			sum += share * of(w.t.Causes[i])
		}
	}
	return sum
}

// otherWork is the areas of the newest job that raises any cause; empty where none does.
func (w *weighing) otherWork() string {
	for _, j := range w.e.Jobs {
		if slices.ContainsFunc(w.t.Causes, func(c Cause) bool { return w.t.jobRaise(c, j) > 1 }) {
			return strings.Join(j.Areas, " and ")
		}
	}
	return ""
}

// beginningSentence names the job that raises the cause most, or how it began.
func (w *weighing) beginningSentence(c Cause) string {
	best, raise := -1, unwritten
	for i, j := range w.e.Jobs {
		if up := w.t.jobRaise(c, j); up > raise {
			best, raise = i, up
		}
	}
	if best >= 0 && raise > 1 {
		j := w.e.Jobs[best]
		work := "work on " + strings.Join(j.Areas, " and ")
		if j.What != "" {
			work += " ('" + j.What + "')"
		}
		if w.e.Onset.Form == FormUnknown {
			return work + " was done lately, and touches the part"
		}
		return work + " was done just before it began, and touches the part"
	}
	if c.Comes.Work >= 50 && w.e.Jobs != nil {
		return "it mostly comes from work on its part, and none is noted just before"
	}
	if other := w.otherWork(); other != "" && w.e.Onset.Form == Sudden && c.Comes.Work < 50 {
		return "it began just after work on " + other + ", which does not touch the part"
	}
	switch form, doubt := w.e.Onset.Form, w.e.Onset.Doubt; {
	case form != FormUnknown && doubt >= 0.4:
		return "it may have come at once or slowly; this comes " + c.Comes.words()
	case form == Sudden && doubt > misdated:
		return "it seems to have begun at once; this comes " + c.Comes.words()
	case form == Gradual && doubt > misdated:
		return "it seems to have come on slowly; this comes " + c.Comes.words()
	case form == Sudden:
		return "it began at once; this comes " + c.Comes.words()
	case form == Gradual:
		return "it came on slowly; this comes " + c.Comes.words()
	}
	return "no work on its part is noted lately; this comes " + c.Comes.words()
}

func (c Comes) words() string {
	switch {
	case c.Work >= 50:
		return "mostly with work"
	case c.Gradual >= 60:
		return "mostly slowly"
	case c.Sudden >= 50:
		return "mostly at once"
	}
	return "either way"
}

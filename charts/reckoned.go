package charts

import "html/template"

// reckoned says how the figures came about, and what limited them.
func reckoned(l *logbook) *section {
	var limits []template.HTML
	if len(l.tanks) > 0 { // else they stand where it is taught what to note
		limits = notes(l)
	}
	return &section{ID: "reckoned", Title: "How it was reckoned", Form: "reckoned.html", Data: map[string]any{
		"Notes": limits, "AsOf": spoken(l.AsOf), "Jobs": len(l.jobs) > 0, "Tanks": len(l.tanks) > 0, "Watch": l.Watch != nil && len(l.tanks) > 0,
	}}
}

// notes are what the program says of the whole log.
func notes(l *logbook) (all []template.HTML) {
	for _, n := range l.Notes {
		all = append(all, tight(sentence(n)))
	}
	return all
}

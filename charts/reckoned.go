package charts

import "html/template"

// reckoned says how the figures came about, and what limited them.
func reckoned(l *logbook) *section {
	var notes []template.HTML
	for _, n := range l.Notes {
		notes = append(notes, tight(sentence(n)))
	}
	return &section{ID: "reckoned", Title: "How it was reckoned", Form: "reckoned.html", Data: map[string]any{
		"Notes": notes, "AsOf": spoken(l.AsOf), "Jobs": len(l.jobs) > 0, "Tanks": len(l.tanks) > 0, "Watch": l.Watch != nil && len(l.tanks) > 0,
	}}
}

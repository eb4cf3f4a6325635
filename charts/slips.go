package charts

import (
	"html/template"
	"strings"
)

// A slip is an entry to look at.
type slip struct {
	Place      string
	Column     string
	Serious    string
	Message    template.HTML
	Suggestion template.HTML
}

// slips are the entries that can't be used or look mistaken; a clean log has no such section.
func slips(l *logbook) *section {
	if len(l.Problems) == 0 {
		return nil
	}
	var all []slip
	for _, p := range l.Problems {
		s := slip{Place: place(p.File, p.Line), Column: plain(p.Column), Serious: "worth a look", Message: name(sentence(p.Message)), Suggestion: dash}
		if p.Severity == "error" {
			s.Serious = "can’t be used"
		}
		if p.Suggestion != nil {
			s.Suggestion = name(*p.Suggestion)
		}
		all = append(all, s)
	}
	return &section{ID: "slips", Title: "Slips in the log", Form: "slips.html", Data: all}
}

// sentence starts with a capital, as the program's messages do not.
func sentence(s string) string {
	s = plain(s)
	for i := range s {
		if i > 0 {
			return strings.ToUpper(s[:i]) + s[i:]
		}
	}
	return strings.ToUpper(s)
}

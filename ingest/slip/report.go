package slip

import (
	"fmt"
	"slices"

	"brimlog/ingest/book"
)

// report notes a problem of a fill.
func (l *log) report(row int, stem, kind, severity string, suggestion *string, message string, a ...any) {
	l.problem(l.book.Fills[row].Place, stem, kind, severity, suggestion, fmt.Sprintf(message, a...))
}

// problem notes a problem in a column that is given without its unit.
func (l *log) problem(p book.Place, stem, kind, severity string, suggestion *string, message string) {
	l.problems = append(l.problems, book.Problem{Place: p, Column: l.sheets.column(p, stem), Kind: kind,
		Severity: severity, Message: message, Suggestion: suggestion})
}

// overrule takes back what the reader said of a drive's distance: the slip that was found accounts for it.
func (l *log) overrule(p book.Place) {
	column := l.sheets.column(p, "distance")
	l.readers = slices.DeleteFunc(l.readers, func(q book.Problem) bool { return q.Place == p && q.Column == column })
}

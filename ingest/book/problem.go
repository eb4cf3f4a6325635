package book

import "fmt"

// A Problem is an entry that cannot be used, or that looks like a slip.
type Problem struct {
	Place
	Column     string  `json:"column"`
	Kind       string  `json:"kind"`
	Severity   string  `json:"severity"` // error: the row cannot be used; doubt
	Message    string  `json:"message"`
	Suggestion *string `json:"suggestion"` // the corrected cell
}

// lineProblem is what is wrong with a line as a whole.
func lineProblem(file string, line int, format string, args ...any) Problem {
	return Problem{Place{file, line}, "", badValue, isError, fmt.Sprintf(format, args...), nil}
}

// Error writes the problem in one line: file, line, column, what is wrong and what to do.
func (p Problem) Error() string {
	if p.Column == "" {
		return fmt.Sprintf("%s:%d: %s", p.File, p.Line, p.Message)
	}
	return fmt.Sprintf("%s:%d: column %q: %s", p.File, p.Line, p.Column, p.Message)
}

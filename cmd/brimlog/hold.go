package main

import (
	"errors"
	"fmt"
	"strings"

	"brimlog/ingest/book"
)

// hold holds the entry against the log. Where it looks like a slip it asks, or refuses where nobody can be asked; what is only
// left empty is remarked.
func (e *entry) hold() error {
	for taken := 0; ; taken++ {
		draft, err := book.Draft(e.folder(), e.file, e.cells)
		if err != nil {
			return err
		}
		e.notes, e.doubts = nil, nil
		for _, p := range draft.Problems {
			if p.Suggestion == nil {
				e.notes = append(e.notes, p.Column+": "+p.Message)
			} else {
				e.doubts = append(e.doubts, p)
			}
		}
		e.doubts = append(e.doubts, judge(e.log, draft, e.now)...)
		switch {
		case len(e.doubts) == 0 || e.yes:
			return nil
		case e.talk == nil:
			return e.refuse()
		}
		again, err := e.doubt(taken)
		if err != nil || !again {
			return err
		}
	}
}

// refuse is what is said of a likely slip where nobody can be asked: the first one, in one line.
func (e *entry) refuse() error {
	p := e.doubts[0]
	more, give := "", "mend it"
	if n := len(e.doubts) - 1; n > 0 {
		more = fmt.Sprintf(" (and %s)", counted(n, "more doubt"))
	}
	if p.Suggestion != nil && *p.Suggestion != "" {
		give = fmt.Sprintf("give --%s %q", flagName(stemOf(p.Column)), *p.Suggestion)
	}
	return fmt.Errorf("%w%s; not written: %s, or --yes to write it all the same", p, more, give)
}

// mostTaken bounds how often corrections are taken before the owner has to decide.
const mostTaken = 5

// doubt tells the doubts and asks what to do; again where a correction was taken, which is to be judged anew.
func (e *entry) doubt(taken int) (again bool, err error) {
	e.talk.say("")
	e.talk.say("That looks like a slip:")
	for _, p := range e.doubts {
		where := spaced(stemOf(p.Column))
		if p.File != e.file || !e.isNew(p) {
			where = fmt.Sprintf("%s:%d %s", p.File, p.Line, where)
		}
		e.talk.say("%s: %s", where, p.Message)
	}
	first := e.doubts[0]
	correct := first.Suggestion != nil && e.isNew(first) && taken < mostTaken
	question := "w to write it all the same, Enter to write nothing"
	if correct {
		question = fmt.Sprintf("c to make %s %s, ", spaced(stemOf(first.Column)), shown(*first.Suggestion)) + question
	}
	for {
		text, err := e.talk.line(question, "")
		switch {
		case err != nil:
			return false, err
		case text == "" || strings.EqualFold(text, "n") || strings.EqualFold(text, "no"):
			return false, fmt.Errorf("%s: left as it was: nothing is written", e.file)
		case strings.EqualFold(text, "w") || strings.EqualFold(text, "write"):
			return false, nil
		case correct && (strings.EqualFold(text, "c") || strings.EqualFold(text, "correct")):
			return true, e.correct(first.Column, *first.Suggestion)
		}
		e.talk.say("want one of these letters, or Enter, got %q", text)
	}
}

func shown(suggestion string) string {
	if suggestion == "" {
		return "empty"
	}
	return suggestion
}

// isNew tells whether a problem is of the row that is about to be written.
func (e *entry) isNew(p book.Problem) bool {
	draft, err := book.Draft(e.folder(), e.file, e.cells)
	return err == nil && p.File == e.file && p.Line == lineOf(draft)
}

func lineOf(draft *book.Book) int {
	switch {
	case len(draft.Fills) > 0:
		return draft.Fills[0].Line
	case len(draft.Trips) > 0:
		return draft.Trips[0].Line
	case len(draft.Jobs) > 0:
		return draft.Jobs[0].Line
	}
	return 0
}

// correct takes over a suggestion: it goes by the name of the file's column, so what was typed for the same thing goes.
func (e *entry) correct(column, value string) error {
	stem := stemOf(column)
	for name := range e.cells {
		if stemOf(name) == stem {
			delete(e.cells, name)
		}
	}
	if strings.TrimSpace(column) == "" {
		return errors.New("the correction names no column")
	}
	e.cells[column] = value
	return nil
}

package main

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"brimlog/ingest/book"
	"brimlog/ingest/slip"
)

// fix puts right one problem after the other. Each change is written before the next is asked for, and the log is judged anew
// after it: lines may have moved, and one correction may make another needless.
func (a *app) fix(yes bool) error {
	if a.asOf != "" {
		return usage("check: --fix works on the log as it is: leave out --as-of")
	}
	t := a.talker()
	if t == nil && !yes {
		return errors.New("check: nothing is changed: want a terminal to ask at, got none: run it at one, or give --yes to write every correction that stands out")
	}
	left := map[string]bool{}
	for {
		b, err := book.Read(a.folder())
		if err != nil {
			return err
		}
		problems := slip.Find(b, wallClock())
		p, row, ok := a.next(problems, left)
		if !ok {
			return nil
		}
		m := mending{p, row, a.counterpart(problems, p, row)}
		left[keyOf(p, row)] = true
		if m.other != nil {
			left[keyOf(m.other.p, m.other.row)] = true
		}
		if yes {
			err = a.applyUnasked(b, m)
		} else {
			err = a.applyAsked(t, m)
		}
		if errors.Is(err, errStopped) {
			return nil
		}
		if err != nil {
			return err
		}
	}
}

// errStopped is the owner's wish to stop.
var errStopped = errors.New("stopped")

// next is the first problem of a row that was not left as it is.
func (a *app) next(problems []book.Problem, left map[string]bool) (book.Problem, book.Row, bool) {
	for _, p := range problems {
		row, err := book.RowAt(a.folder(), p.File, p.Line)
		if err == nil && p.Line > 1 && p.Column != "" && !left[keyOf(p, row)] {
			return p, row, true
		}
	}
	return book.Problem{}, book.Row{}, false
}

// keyOf knows a problem again when its line has moved.
func keyOf(p book.Problem, row book.Row) string {
	return strings.Join(append([]string{p.File, p.Column, p.Kind}, row.Cells...), "\x00")
}

// A mending is a problem in its row, with the one that has to be mended together with it: two cells that were exchanged.
type mending struct {
	p     book.Problem
	row   book.Row
	other *mending
}

// counterpart finds the problem whose cell belongs where this one's is, and the other way round.
func (a *app) counterpart(problems []book.Problem, p book.Problem, row book.Row) *mending {
	mine, _ := row.Cell(p.Column)
	for _, q := range problems {
		if p.Suggestion == nil || q.Suggestion == nil || q.File != p.File || q.Column != p.Column || q.Line == p.Line || *q.Suggestion != mine {
			continue
		}
		other, err := book.RowAt(a.folder(), q.File, q.Line)
		if there, _ := other.Cell(q.Column); err == nil && there == *p.Suggestion {
			return &mending{q, other, nil}
		}
	}
	return nil
}

// suggested writes the correction, and that of the counterpart.
func (a *app) suggested(m mending) error {
	err := a.put(m.p, m.row, *m.p.Suggestion)
	if err == nil && m.other != nil {
		if err = a.put(m.other.p, m.other.row, *m.other.p.Suggestion); err == nil {
			a.remark("these were two changes: brimlog undo takes back the second alone")
		}
	}
	return err
}

// applyUnasked writes a correction that stands out, and drops a row that another is the same as in every cell.
func (a *app) applyUnasked(b *book.Book, m mending) error {
	switch {
	case m.p.Suggestion != nil:
		return a.suggested(m)
	case isCopy(m.p) && a.hasTwin(b, m.row):
		return a.takeOut(m.p, m.row)
	}
	return nil
}

// applyAsked asks what to do about a problem.
func (a *app) applyAsked(t *talk, m mending) error {
	p, row := m.p, m.row
	t.say("")
	t.say("%s", p.Error())
	t.say("the row: %s", book.Visible(row.Text()))
	for {
		text, err := t.line(questionOf(m), "")
		switch answer := strings.ToLower(text); {
		case err != nil || answer == "q":
			return errStopped
		case answer == "" || answer == "n" || answer == "no":
			return nil
		case answer == "d":
			return a.takeOut(p, row)
		case isCopy(p):
			err = fmt.Errorf("want one of these letters, or Enter, got %q", text)
		case p.Suggestion != nil && (answer == "y" || answer == "yes"):
			err = a.suggested(m)
		default:
			err = a.put(p, row, text)
		}
		if err == nil {
			return nil
		}
		t.say("%v", err)
	}
}

// questionOf is what is asked about a problem.
func questionOf(m mending) string {
	p := m.p
	const otherwise = "d to drop the row, Enter to leave it, q to stop"
	switch {
	case isCopy(p):
		return otherwise
	case m.other != nil:
		return fmt.Sprintf("y to exchange it with that of line %d, the right %s, %s", m.other.p.Line, p.Column, otherwise)
	case p.Suggestion != nil:
		return fmt.Sprintf("y for %s %s, the right %s, %s", p.Column, shown(*p.Suggestion), p.Column, otherwise)
	}
	return "the right " + p.Column + ", " + otherwise
}

// isCopy tells whether the row as a whole is too much.
func isCopy(p book.Problem) bool { return p.Kind == "duplicate" && p.Suggestion == nil }

func (a *app) put(p book.Problem, row book.Row, value string) error {
	was, _ := row.Cell(p.Column)
	if was == value {
		return nil // it is right as it stands, says the owner
	}
	if err := book.Edit(a.folder(), row, book.Cells{p.Column: value}); err != nil {
		return err
	}
	a.remark("%s:%d: %s is now %q, was %q", p.File, p.Line, p.Column, value, was)
	return nil
}

func (a *app) takeOut(p book.Problem, row book.Row) error {
	if err := book.Drop(a.folder(), row); err != nil {
		return err
	}
	a.remark("taken out of %s, line %d: %s", p.File, p.Line, book.Visible(row.Text()))
	return nil
}

// remark tells a change: not on standard output where that carries a document.
func (a *app) remark(format string, args ...any) {
	w := a.out
	if a.json {
		w = a.err
	}
	fmt.Fprintf(w, format+"\n", args...)
}

// hasTwin tells whether another row of the file holds the same cells.
func (a *app) hasTwin(b *book.Book, row book.Row) bool {
	var lines []int
	for _, f := range b.Fills {
		lines = append(lines, f.Line)
	}
	switch row.File {
	case book.TripsFile:
		lines = lines[:0]
		for _, t := range b.Trips {
			lines = append(lines, t.Line)
		}
	case book.WorkFile:
		lines = lines[:0]
		for _, j := range b.Jobs {
			lines = append(lines, j.Line)
		}
	}
	return slices.ContainsFunc(lines, func(line int) bool {
		other, err := book.RowAt(a.folder(), row.File, line)
		return err == nil && line != row.Line && slices.Equal(other.Cells, row.Cells)
	})
}

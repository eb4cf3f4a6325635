package book

import (
	"errors"
	"slices"
)

// An Undone is what Undo took back.
type Undone struct {
	Did  string // what is taken back: Added, Edited or Dropped
	File string
	Line int    // where it begins
	Rows int    // one, or as many as one Append added
	Was  string // the row, or rows, as they stood in the file; empty for one that was dropped
	Now  string // the row as it stands in the file again; empty for one that was added
}

// Undo takes back what the last Append, Edit or Drop did to any file of the logbook: added rows go, as long as they still stand at
// the file's end just as they were written; a row that was edited or dropped stands again as it was, as long as nobody
// has changed the file since. It reaches back one change. A column that the change added stays, empty.
func Undo(dir string) (Undone, error) { return undo(osDisk{}, dir) }

func undo(d disk, dir string) (Undone, error) {
	a, err := lastDeed(d, dir)
	if err != nil {
		return Undone{}, err
	}
	if a == nil {
		return Undone{}, errors.New("undo: nothing to take back: no row was added or changed, or the last change was taken back already")
	}
	u := Undone{Did: a.Did, File: a.File, Line: a.Line, Rows: a.Rows}
	err = change(d, dir, a.File, func(t *target) ([]byte, error) {
		switch again, err := lastDeed(d, dir); {
		case err != nil:
			return nil, err
		case !a.same(again):
			return nil, errors.New("undo: another program has just changed a row: look at it first")
		}
		l, err := newLayout(t.file, t.old)
		if err != nil {
			return nil, err
		}
		if u.Was, u.Now, err = l.takeBack(a, sum(t.old) == a.After); err != nil {
			return nil, err
		}
		t.deed = &deed{Did: undone, File: a.File, Line: a.Line}
		return l.bytes(), nil
	})
	if err != nil {
		return Undone{}, err
	}
	return u, nil
}

// takeBack does the opposite of a deed, and gives the row or rows as they stood and as they stand now.
func (l *layout) takeBack(a *deed, untouched bool) (was, now string, err error) {
	if a.Did == Edited || a.Did == Dropped {
		if !untouched || a.At < 0 || a.At+a.Size > len(l.data) {
			return "", "", lineProblem(a.File, a.Line,
				"want the file as it was after the row was %s, got another: it was changed since, so put the row back by hand; it read %s",
				a.Did, Visible(lineless(a.Was)))
		}
		was = string(l.data[a.At : a.At+a.Size])
		l.data = slices.Replace(l.data, a.At, a.At+a.Size, a.Was...)
		return was, lineless(a.Was), nil
	}
	from, ok := l.endsWith(a)
	if !ok {
		return "", "", lineProblem(a.File, a.Line,
			"want the row that was added last at the end of the file, got another: the file was changed since, so drop it by its line")
	}
	was = string(l.data[from : from+a.Size])
	l.drop(from, from+a.Size)
	return was, "", nil
}

// endsWith finds where added rows begin, when they are the last thing in the file.
func (l *layout) endsWith(a *deed) (from int, ok bool) {
	l.rows(func(s span) bool {
		if s.line == a.Line {
			from, ok = s.from, true
		}
		return s.line < a.Line
	})
	if !ok {
		return 0, false
	}
	end := from + a.Size
	if a.Size <= 0 || end > len(l.data) || sum(l.data[from:end]) != a.Sum {
		return 0, false
	}
	return from, len(l.data) == end+len(lineEnd(l.data[end:]))
}

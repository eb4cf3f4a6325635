package book

import (
	"fmt"
	"slices"
	"strings"
)

// A Row is a line of a file as it stands there.
type Row struct {
	Place
	Header []string
	Cells  []string
	raw    string
}

// Cell is the row's cell in a column, by the column's whole name.
func (r Row) Cell(column string) (string, bool) {
	for i, h := range r.Header {
		if strings.EqualFold(strings.TrimSpace(h), column) {
			if i < len(r.Cells) {
				return plainText(r.Cells[i]), true
			}
			return "", true
		}
	}
	return "", false
}

// Text is the row as it stands in the file, quotes included, without its line end.
func (r Row) Text() string { return r.raw }

// RowAt gives the row that begins in a line, to look at and to hand to Edit or Drop.
func RowAt(dir, file string, line int) (Row, error) {
	if _, err := formOf(file); err != nil {
		return Row{}, err
	}
	data, err := load(dir, file)
	if err != nil {
		return Row{}, err
	}
	if data == nil {
		return Row{}, fmt.Errorf("%s: want the file in the logbook's folder, got none in %s: check the path", file, dir)
	}
	l, err := newLayout(file, data)
	if err != nil {
		return Row{}, err
	}
	s, err := l.at(line)
	return Row{Place{file, line}, l.header, s.cells, string(l.data[s.from:s.to])}, err
}

// Edit changes cells of a row, all of them or none, and leaves every other byte of the file alone. It refuses when
// the row no longer stands as it was read, and cells that Read would not understand.
func Edit(dir string, was Row, cells Cells) error { return edit(osDisk{}, dir, was, cells) }

func edit(d disk, dir string, was Row, cells Cells) error {
	f, err := formOf(was.File)
	if err != nil {
		return err
	}
	return change(d, dir, was.File, func(t *target) ([]byte, error) {
		l, _, err := stands(t, was)
		if err != nil {
			return nil, err
		}
		if err := f.checkHeader(l.header); err != nil {
			return nil, err
		}
		before := l.faults(f, l.header, was.Line)
		c := newComposer(f, l.header, func() Units { return unitsOf(d, dir) })
		fitted, err := c.fit(cells)
		if err != nil {
			return nil, err
		}
		if len(c.added) > 0 {
			l.widen(c.added)
		}
		s, err := l.at(was.Line)
		if err != nil {
			return nil, err
		}
		t.deed = &deed{Did: Edited, File: t.file, Line: s.line, Rows: 1, At: s.from, Was: slices.Clone(l.data[s.from:s.to])}
		for i, text := range fitted {
			l.set(&s, i, text)
		}
		t.deed.Size = s.to - s.from
		for _, p := range l.faults(f, c.names, was.Line) {
			if !slices.ContainsFunc(before, func(q Problem) bool { return q.Error() == p.Error() }) {
				return nil, p
			}
		}
		return l.bytes(), nil
	})
}

// faults are what is wrong with a row. Only what a change brought in is held against it.
func (l *layout) faults(f form, header []string, line int) []Problem {
	s, err := l.at(line)
	if err != nil {
		return []Problem{lineProblem(l.file, line, "%v", err)}
	}
	names := make([]string, len(header))
	for i, h := range header {
		names[i] = strings.ToLower(strings.TrimSpace(h))
	}
	return f.decode(&Book{}, l.pass(f, names, line), names, s.cells, Place{l.file, line})
}

// Drop takes a row out. It refuses when the row no longer stands as it was read.
func Drop(dir string, was Row) error { return drop(osDisk{}, dir, was) }

func drop(d disk, dir string, was Row) error {
	return change(d, dir, was.File, func(t *target) ([]byte, error) {
		l, s, err := stands(t, was)
		if err != nil {
			return nil, err
		}
		t.deed = &deed{Did: Dropped, File: t.file, Line: s.line, Rows: 1}
		t.deed.At, t.deed.Was = l.drop(s.from, s.to)
		return l.bytes(), nil
	})
}

// stands finds the row again, unchanged.
func stands(t *target, was Row) (*layout, span, error) {
	l, err := newLayout(t.file, t.old)
	if err != nil {
		return nil, span{}, err
	}
	s, err := l.at(was.Line)
	if err != nil {
		return nil, span{}, err
	}
	if string(l.data[s.from:s.to]) != was.raw {
		return nil, span{}, lineProblem(t.file, was.Line, "want the row as it was read, got another: look at it again")
	}
	return l, s, nil
}

package book

import (
	"bytes"
	"io"
	"slices"
	"strings"
)

// A layout is a CSV file as bytes: every change is made to the bytes that it concerns, and all others stay as their owner left
// them, with mark, line ends, quotes and columns.
type layout struct {
	file   string
	data   []byte // without the byte order mark
	marked bool
	eol    string
	header []string // as written
	body   int      // where the first row begins
}

// newLayout reads the header; an empty file has none. It works on a copy of data.
func newLayout(file string, data []byte) (*layout, error) {
	if err := sane(file, data); err != nil {
		return nil, err
	}
	l := &layout{file: file, data: slices.Clone(bytes.TrimPrefix(data, mark)), marked: bytes.HasPrefix(data, mark), eol: "\n"}
	if i := bytes.IndexByte(data, '\n'); i > 0 && data[i-1] == '\r' {
		l.eol = "\r\n"
	}
	head, _, end, err := newRecords(file, l.data).next()
	if err == io.EOF {
		return l, nil
	}
	l.header, l.body = head, end
	return l, err
}

func (l *layout) bytes() []byte {
	if l.marked {
		return append(slices.Clone(mark), l.data...)
	}
	return l.data
}

// A span is where a row stands in data, without its line end. Of a row that is no CSV, cells is nil.
type span struct {
	line, from, to int
	cells          []string
}

// rows visits the rows behind the header until visit says enough.
func (l *layout) rows(visit func(span) bool) {
	r := newRecords(l.file, l.data)
	if _, _, _, err := r.next(); err != nil {
		return
	}
	for from := l.body; ; {
		cells, line, end, err := r.next()
		if err == io.EOF {
			return
		}
		s := span{line, from + blankLines(l.data[from:]), end, cells}
		for s.to > s.from && (l.data[s.to-1] == '\n' || l.data[s.to-1] == '\r') {
			s.to--
		}
		from = end
		if !visit(s) {
			return
		}
	}
}

// blankLines counts the bytes of empty lines at the beginning.
func blankLines(data []byte) int {
	n := 0
	for n < len(data) && (data[n] == '\n' || data[n] == '\r' && n+1 < len(data) && data[n+1] == '\n') {
		n++
	}
	return n
}

// at finds the row that begins in a line.
func (l *layout) at(line int) (span, error) {
	var found *span
	last := 1
	l.rows(func(s span) bool {
		last = s.line
		if s.line == line {
			found = &s
		}
		return found == nil
	})
	switch {
	case found == nil && last == 1:
		return span{}, lineProblem(l.file, line, "no row begins in this line: the file has no rows yet")
	case found == nil:
		return span{}, lineProblem(l.file, line, "no row begins in this line: want one from 2 to %d, as brimlog check counts them (line 1 is the header)", last)
	case found.cells == nil:
		return *found, lineProblem(l.file, line, "want a row whose quotes are closed, got one that is not: mend it in an editor")
	}
	return *found, nil
}

// next is the line of a row that is added, and whether the last line is open: without a line end.
func (l *layout) next() (line int, open bool) {
	line = 1 + bytes.Count(l.data, []byte("\n"))
	if open = len(l.data) > 0 && l.data[len(l.data)-1] != '\n'; open {
		line++
	}
	return line, open
}

// drop takes out what stands from one byte to another, with one line end: its own or, at an open end, the one before. It gives what
// went, and where it stood.
func (l *layout) drop(from, to int) (at int, gone []byte) {
	end := to + len(lineEnd(l.data[to:]))
	if end == to {
		from = len(bytes.TrimSuffix(bytes.TrimSuffix(l.data[:from], []byte("\n")), []byte("\r")))
	}
	gone = slices.Clone(l.data[from:end])
	l.data = slices.Delete(l.data, from, end)
	return from, gone
}

func lineEnd(data []byte) string {
	for _, end := range []string{"\r\n", "\n"} {
		if bytes.HasPrefix(data, []byte(end)) {
			return end
		}
	}
	return ""
}

// set writes one cell of a row; a row that is too short for it is filled up with empty cells.
func (l *layout) set(s *span, column int, text string) {
	raw := slices.Clone(l.data[s.from:s.to])
	cells := rawCells(raw)
	for len(cells) <= column {
		raw = append(raw, ',')
		cells = append(cells, [2]int{len(raw), len(raw)})
	}
	raw = slices.Replace(raw, cells[column][0], cells[column][1], []byte(quoted(text))...)
	l.data = slices.Replace(l.data, s.from, s.to, raw...)
	s.to = s.from + len(raw)
}

// widen adds columns to the header, and an empty cell for each to every row.
func (l *layout) widen(names []string) {
	var wide []byte
	pad := func(from, to, have int) {
		wide = append(wide, l.data[from:to]...)
		for ; have < len(l.header)+len(names); have++ {
			wide = append(wide, ',')
		}
	}
	head := len(bytes.TrimRight(l.data[:l.body], "\r\n"))
	wide = append(wide, l.data[:head]...)
	for _, n := range names {
		wide = append(wide, ","+quoted(n)...)
	}
	body, at := len(wide)+l.body-head, head
	l.rows(func(s span) bool {
		wide = append(wide, l.data[at:s.from]...)
		if at = s.to; s.cells != nil {
			pad(s.from, s.to, len(s.cells))
		} else {
			wide = append(wide, l.data[s.from:s.to]...)
		}
		return true
	})
	l.data, l.body = append(wide, l.data[at:]...), body
	l.header = append(slices.Clone(l.header), names...)
}

// rawCells finds where each cell of a row stands, quotes included.
func rawCells(raw []byte) [][2]int {
	var cells [][2]int
	from, inside := 0, false
	for i, c := range raw {
		switch {
		case c == '"':
			inside = !inside
		case c == ',' && !inside:
			cells = append(cells, [2]int{from, i})
			from = i + 1
		}
	}
	return append(cells, [2]int{from, len(raw)})
}

// join writes a row.
func join(cells []string) string {
	parts := make([]string, len(cells))
	for i, c := range cells {
		parts[i] = quoted(c)
	}
	return strings.Join(parts, ",")
}

// quoted writes a cell, in quotes where it needs them.
func quoted(text string) string {
	if !strings.ContainsAny(text, ",\"\r\n") && strings.TrimSpace(text) == text {
		return text
	}
	return `"` + strings.ReplaceAll(text, `"`, `""`) + `"`
}

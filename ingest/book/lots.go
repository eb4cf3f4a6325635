package book

import (
	"errors"
	"io"
	"iter"

	"github.com/gocarina/gocsv"

	"brimlog/ingest/ahead"
)

// A sheet is a CSV file behind its header, of which each row is decoded into an R.
type sheet[R any] struct {
	*records
	codes []string // of the columns
}

// A lot is a few hundred rows of a sheet, so that memory stays small.
type lot[R any] struct {
	cells    []string   // of all its rows
	table    [][]string // what gocsv is handed: the codes, then the cells of each row
	lines    []int      // of the rows
	lost     []int      // lines that should have been rows, and could not be read as such
	problems []Problem
	rows     []R
	err      error
}

const lotRows = 256 // what a core's own cache holds

// lots gives the rows lot after lot, in the order of the file. While one is taken into the book the next are decoded.
func (s *sheet[R]) lots() iter.Seq[*lot[R]] { return ahead.Work(s.split, (*lot[R]).decode) }

// split splits the next rows into cells; what is no row becomes a problem. It tells whether more may follow: then the lot ends in a row,
// so that whatever was lost is lost before a row of its own lot.
func (s *sheet[R]) split(l *lot[R]) (more bool) {
	l.cells, l.table, l.lines, l.lost, l.problems = l.cells[:0], append(l.table[:0], s.codes), l.lines[:0], nil, nil
	for len(l.lines) < lotRows {
		cells, line, _, err := s.next()
		if err == io.EOF {
			return false
		}
		if err == nil {
			cells, err = s.fit(cells, line)
		}
		if err != nil {
			l.lose(line, err)
		} else if len(cells) > 0 {
			l.add(cells, line)
		}
	}
	return true
}

func (l *lot[R]) lose(line int, err error) {
	var p Problem
	if errors.As(err, &p) {
		l.problems, l.lost = append(l.problems, p), append(l.lost, line)
	}
}

func (l *lot[R]) add(cells []string, line int) {
	from := len(l.cells)
	l.cells = append(l.cells, cells...)
	l.table, l.lines = append(l.table, l.cells[from:]), append(l.lines, line)
}

// fit leaves the empty cells at the end of a row out: missing ones say as much, and a blank row has none left. A filled one beyond the
// header's spoils the row.
func (s *sheet[R]) fit(cells []string, line int) ([]string, error) {
	filled := len(cells)
	for filled > 0 && cells[filled-1] == "" {
		filled--
	}
	if n := len(s.codes); filled > n {
		return nil, lineProblem(s.file, line, "want %d cells as in the header, got %d: "+
			"put quotes around text with a comma in it, and write decimals with a point", n, len(cells))
	}
	return cells[:filled], nil
}

// decode makes rows of the cells.
func (l *lot[R]) decode() {
	if l.rows == nil {
		l.rows = make([]R, lotRows+1) // gocsv wants room for the codes too
	}
	l.err = gocsv.UnmarshalCSV(l, &l.rows)
}

// ReadAll and Read are what gocsv calls a reader; it asks for all.
func (l *lot[R]) ReadAll() ([][]string, error) { return l.table, nil }

func (l *lot[R]) Read() ([]string, error) { return nil, errors.ErrUnsupported }

package slip

import (
	"bytes"
	"encoding/csv"
	"os"
	"path/filepath"
	"strings"

	"brimlog/ingest/book"
	"brimlog/ingest/quantity"
)

// A cell is a figure as its owner wrote it.
type cell struct {
	column string // whole name
	number string // without the unit
	suffix string // the unit that it carries itself, with the blank before it
	unit   quantity.Unit
}

// base gives a number written the way of this cell, in base units.
func (c cell) base(number string) float64 {
	x, err := quantity.ParseNumber(number)
	if err != nil {
		return quantity.Unknown
	}
	return c.unit.ToBase(x)
}

// sheets are the files of the logbook as text, each read when first asked for: corrections are made in the figures as
// written.
type sheets struct {
	dir   string
	files map[string]*sheet
	style map[string]int // decimals of a column of the fills, by stem and unit
}

type sheet struct {
	header []string
	data   []byte
	lines  []int // where each begins
}

func (s *sheets) of(file string) *sheet {
	if f := s.files[file]; f != nil {
		return f
	}
	f := &sheet{}
	if s.dir != "" {
		f.header, _ = book.Header(s.dir, file)
		f.data, _ = os.ReadFile(filepath.Join(s.dir, file))
		f.index()
	}
	if s.files == nil {
		s.files = map[string]*sheet{}
	}
	s.files[file] = f
	return f
}

func (f *sheet) index() {
	for at := 0; at < len(f.data); {
		f.lines = append(f.lines, at)
		n := bytes.IndexByte(f.data[at:], '\n')
		if n < 0 {
			return
		}
		at += n + 1
	}
}

// row is the row that begins in a line; nil where there is none, as for an entry that is not written yet.
func (f *sheet) row(line int) []string {
	if line < 2 || line > len(f.lines) {
		return nil
	}
	cells, err := csv.NewReader(bytes.NewReader(f.data[f.lines[line-1]:])).Read()
	if err != nil {
		return nil
	}
	return cells
}

// column is the name, in the file, of a column given without its unit: the one that the row fills where there are several.
func (s *sheets) column(p book.Place, stem string) string {
	name, _ := s.find(p, stem)
	return name
}

func (s *sheets) find(p book.Place, stem string) (column, text string) {
	f := s.of(p.File)
	cells := f.row(p.Line)
	for i, h := range f.header {
		h = strings.ToLower(strings.TrimSpace(h))
		bare, _ := quantity.SplitColumn(h)
		if bare != stem && h != stem {
			continue
		}
		if column == "" {
			column = h
		}
		if i < len(cells) && strings.TrimSpace(cells[i]) != "" {
			return h, strings.TrimPrefix(strings.TrimSpace(cells[i]), "'")
		}
	}
	if column == "" {
		column = stem + usualUnit[stem]
	}
	return column, ""
}

// usualUnit completes a column's name where there is no file.
var usualUnit = map[string]string{"odometer": "_km", "odometer_start": "_km", "odometer_end": "_km", "distance": "_km", "volume": "_l"}

// cell is a figure, given in base units, as it stands in the file; as it would be written where it does not stand there yet.
func (s *sheets) cell(p book.Place, stem string, base float64) cell {
	column, text := s.find(p, stem)
	_, unit := quantity.SplitColumn(column)
	if end := strings.LastIndexAny(text, "0123456789.") + 1; end > 0 {
		if _, u, err := quantity.ParseIn(text, unit); err == nil {
			n := strings.TrimLeft(text[:end], "+")
			if short := quantity.Cell(base, u); decimals(n) > 3 && same(u.ToBase(number(short)), base) {
				n = short // a spreadsheet's binary fractions
			}
			return cell{column, n, text[end:], u}
		}
	}
	for _, u := range append([]quantity.Unit{unit}, unit.Units()...) {
		if n := quantity.Cell(base, u); same(u.ToBase(number(n)), base) {
			c := cell{column: column, number: n, unit: u}
			if u != unit {
				c.suffix = " " + u.String()
			}
			return c
		}
	}
	return cell{column: column, number: quantity.Cell(base, unit), unit: unit}
}

func number(s string) float64 {
	x, err := quantity.ParseNumber(s)
	if err != nil {
		return quantity.Unknown
	}
	return x
}

// same tells whether two figures differ by rounding in the machine alone.
func same(a, b float64) bool { return a-b < 1e-7 && b-a < 1e-7 }

// decimals is how many most figures of a column of the fills are written with; less than none where they are no
// round figures.
func (s *sheets) decimals(stem string, unit quantity.Unit, b *book.Book) int {
	key := stem + unit.String()
	if n, ok := s.style[key]; ok {
		return n
	}
	var count [5]int
	for _, f := range b.Fills[:min(len(b.Fills), 500)] {
		x := f.Litres
		if stem == "odometer" {
			x = f.Odometer
		}
		if c := s.cell(f.Place, stem, x); quantity.Known(x) && c.unit == unit && same(c.base(c.number), x) {
			count[min(decimals(c.number), len(count)-1)]++
		}
	}
	most := 0
	if count == [5]int{} {
		most = -1
	}
	for n, c := range count {
		if most >= 0 && c > count[most] {
			most = n
		}
	}
	if s.style == nil {
		s.style = map[string]int{}
	}
	s.style[key] = most
	return most
}

// lineOf is the line in which a text stands first, 1 where it stands nowhere.
func (s *sheets) lineOf(file, text string) int {
	data, _ := os.ReadFile(filepath.Join(s.dir, file))
	before, _, found := bytes.Cut(data, []byte(text))
	if !found {
		return 1
	}
	return 1 + bytes.Count(before, []byte("\n"))
}

package book

import (
	"fmt"
	"maps"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"brimlog/ingest/quantity"
)

// Cells are cells of a row by their column: by its whole name, or without its unit ("odometer", "volume"). The value may
// carry a unit ("48213 mi"). A column of the owner's own goes by its name in the header.
type Cells map[string]string

// A form is what the writing half knows of a file's columns.
type form interface {
	fileName() string
	columnNames() []string // in the usual order, a star for the unit
	lookup(name string) columnInfo
	checkHeader(cells []string) error
	// decode reads one row into b, and gives what makes it unfit to be written.
	decode(b *Book, p *pass, names, cells []string, place Place) (bad []Problem)
}

// columnInfo is what a name means in a file: that of a column, or of a stem without its unit.
type columnInfo struct {
	unit   quantity.Unit
	stem   bool
	needed bool
	known  bool
}

func formOf(file string) (form, error) {
	switch file {
	case FillsFile:
		return sheetForm[fillRow, *fillRow, fillCells]{fillSchema}, nil
	case TripsFile:
		return sheetForm[tripRow, *tripRow, tripCells]{tripSchema}, nil
	case WorkFile:
		return sheetForm[jobRow, *jobRow, jobCells]{workSchema}, nil
	}
	return nil, fmt.Errorf("%s: want %s, %s or %s: edit other files by hand", file, FillsFile, TripsFile, WorkFile)
}

type sheetForm[R any, P sheetRow[R], C any] struct{ *schema[C] }

func (f sheetForm[R, P, C]) fileName() string { return f.file }

func (f sheetForm[R, P, C]) columnNames() []string {
	names := make([]string, len(f.columns))
	for i, c := range f.columns {
		names[i] = c.name
	}
	return names
}

func (f sheetForm[R, P, C]) lookup(name string) columnInfo {
	for _, c := range f.columns {
		if stem, starred := strings.CutSuffix(c.name, "_*"); stem == name || c.name == name {
			return columnInfo{c.unit, starred, c.needed, true}
		}
	}
	if code, ok := f.byName[name]; ok {
		c := f.byCode[code[0]]
		return columnInfo{c.unit, false, c.needed, true}
	}
	return columnInfo{}
}

func (f sheetForm[R, P, C]) decode(b *Book, p *pass, names, cells []string, place Place) []Problem {
	var r R
	for i, name := range names {
		if i < len(cells) {
			_ = P(&r).UnmarshalCSVWithFields(f.byName[name], cells[i]) // what is wrong is in the row
		}
	}
	P(&r).take(b, place, p)
	for _, wrong := range P(&r).wrong() {
		wrong.Place = place
		b.Problems = append(b.Problems, wrong)
	}
	defer P(&r).done()
	return P(&r).refused(place)
}

func (f sheetForm[R, P, C]) checkHeader(cells []string) error {
	_, _, err := f.header(cells)
	return err
}

// A composer fits cells into the columns of a file, and adds the columns that it lacks.
type composer struct {
	form
	names []string // of the header's columns, in small letters
	added []string // columns to add
	units func() Units
}

func newComposer(f form, header []string, units func() Units) *composer {
	c := &composer{form: f, units: units}
	for _, h := range header {
		c.names = append(c.names, strings.ToLower(strings.TrimSpace(h)))
	}
	return c
}

// fit gives each cell its column's number and the text that goes there.
func (c *composer) fit(cells Cells) (map[int]string, error) {
	fitted := map[int]string{}
	for _, key := range slices.Sorted(maps.Keys(cells)) {
		text := strings.TrimSpace(cells[key])
		if err := printable(text); err != nil {
			return nil, fmt.Errorf("%s: column %q: %w", c.fileName(), key, err)
		}
		column, text, err := c.column(strings.ToLower(strings.TrimSpace(key)), text)
		if err != nil {
			return nil, err
		}
		if _, twice := fitted[column]; twice {
			return nil, fmt.Errorf("%s: column %q: want it once, got it under two names: leave one out", c.fileName(), c.names[column])
		}
		fitted[column] = text
	}
	return fitted, nil
}

// column finds the column for a cell, in this order: the very name; a column of the same thing in the cell's own unit; any
// column of the same thing, with the unit in the cell; a new column.
func (c *composer) column(key, text string) (int, string, error) {
	text = c.plain(key, text)
	if i := slices.Index(c.names, key); i >= 0 {
		info := c.lookup(key)
		return i, written(text, info.unit, info.known), nil
	}
	info := c.lookup(key)
	if !info.known {
		return 0, "", c.noColumn(key)
	}
	if stem, own := quantity.SplitColumn(key); !info.stem && own != quantity.Number {
		if bare := c.lookup(stem); bare.stem { // odometer_mi, where the file has another unit
			if _, err := quantity.ParseNumber(text); err == nil {
				text += " " + own.String()
			}
			return c.measured(stem, text, bare.unit)
		}
	}
	if info.stem {
		return c.measured(key, text, info.unit)
	}
	return c.add(key), written(text, info.unit, true), nil
}

// measured finds the column of a stem for a figure. What is no figure goes where one would, and is refused when the row is read
// back.
func (c *composer) measured(stem, text string, unit quantity.Unit) (int, string, error) {
	_, _, plain := quantity.ParseIn(text, quantity.Number)
	x, own, err := quantity.ParseIn(text, unit)
	carries := plain != nil && err == nil // a unit of its own
	var there []int
	for i, name := range c.names {
		s, u := quantity.SplitColumn(name)
		if s != stem || u == quantity.Number {
			continue
		}
		if carries && u == own {
			return i, figure(x), nil
		}
		there = append(there, i)
	}
	switch {
	case len(there) == 0 && carries:
		return c.add(stem + "_" + own.String()), figure(x), nil
	case len(there) == 0:
		own = c.units().of(unit)
		return c.add(stem + "_" + own.String()), written(text, own, true), nil
	case len(there) > 1 && !carries && text != "":
		return 0, "", fmt.Errorf("%s: column %q: want a unit behind %s, since the file has %s and %s: add one",
			c.fileName(), stem, quote(text), c.names[there[0]], c.names[there[1]])
	}
	return there[0], written(text, unitOf(c.names[there[0]]), true), nil
}

func figure(x float64) string { return strconv.FormatFloat(x, 'f', -1, 64) }

// longestCell bounds what is written into one cell, in bytes.
const longestCell = 10000

// printable refuses what would spoil the file for Read or for a terminal.
func printable(text string) error {
	switch {
	case len(text) > longestCell:
		return fmt.Errorf("want at most %d bytes, got %d: shorten it", longestCell, len(text))
	case !utf8.ValidString(text) || strings.ContainsFunc(text, func(r rune) bool { return harmless(r) != r }):
		return fmt.Errorf("want plain text in UTF-8, got control characters or another encoding in %s: take them out", quote(text))
	}
	return nil
}

func (c *composer) add(name string) int {
	c.names, c.added = append(c.names, name), append(c.added, name)
	return len(c.names) - 1
}

func (c *composer) noColumn(key string) error {
	known := c.columnNames()
	for i, n := range known {
		known[i] = strings.TrimSuffix(n, "_*")
	}
	for _, n := range c.names {
		if stem, _ := quantity.SplitColumn(n); n != "" && !slices.Contains(known, stem) && !slices.Contains(known, n) {
			known = append(known, n)
		}
	}
	if near := nearest(key, append(slices.Clone(known), c.names...)); near != "" {
		return fmt.Errorf("%s: column %s: the file has no such column%s", c.fileName(), quote(key), meaning(near))
	}
	return fmt.Errorf("%s: column %s: the file has no such column: want one of %s", c.fileName(), quote(key), strings.Join(known, ", "))
}

// written is a cell as it goes into the file. A figure with a sign before it and a unit behind would look like a formula, so
// it is turned into the column's own unit; text is guarded.
func written(text string, unit quantity.Unit, known bool) string {
	text = strings.ReplaceAll(strings.ReplaceAll(text, "\r\n", "\n"), "\r", "\n")
	if !likeFormula(text) {
		return text
	}
	if _, err := quantity.ParseNumber(text); err == nil && !strings.HasPrefix(text, "−") {
		return text
	}
	if x, err := quantity.Parse(text, unit); err == nil && known && unit != quantity.Number {
		return quantity.Cell(x, unit)
	}
	return guarded(text)
}

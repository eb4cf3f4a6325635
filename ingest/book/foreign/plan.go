package foreign

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"time"

	"brimlog/ingest/book"
	"brimlog/ingest/quantity"
)

// Options say where a sheet goes, and what it can't tell by itself.
type Options struct {
	File     string   // fills.csv, trips.csv or work.csv
	Name     string   // of the sheet, for messages
	Map      []string // column=heading: the heading's column, with its unit where one is given; none=heading leaves it out
	Dates    string   // dmy, mdy, ymd; empty where the sheet tells
	Decimal  string   // point, comma; empty where the sheet tells
	Odometer string   // the reading before the first row, of a sheet that has only distances
	Now      time.Time
}

// An OptionError is an option that cannot be followed, whatever the sheet.
type OptionError struct{ error }

func badOption(format string, args ...any) error { return OptionError{fmt.Errorf(format, args...)} }

// A column is a column of the sheet that means something.
type column struct {
	meaning
	at      int    // in the record
	heading string // as written
	name    string // of the logbook's column, once it is settled
	told    bool   // by --map
	how     string // what its reading was taken from
}

// A plan is how a sheet is read.
type plan struct {
	*sheet
	options Options
	dir     string
	columns []column
	passed  []Passed // headings that are not taken
	decimal int
	order   int
	why     map[string]string // how the decimal mark and the order of dates were settled
	sample  []record
	numbers *ballot
	dates   *ballot
	words   map[string]*wordCount
	timed   bool // a date carries a time other than midnight
}

// noColumn is the name that leaves a heading out.
const noColumn = "none"

// An assignment is one --map.
type assignment struct {
	name    string
	unit    scale
	heading string
}

// assignments reads the options' Map.
func (o Options) assignments() ([]assignment, error) {
	var all []assignment
	for _, text := range o.Map {
		name, heading, ok := strings.Cut(text, "=")
		name, heading = strings.ToLower(strings.TrimSpace(name)), trim(heading)
		if !ok || name == "" || heading == "" {
			return nil, badOption("--map: want column=heading, got %q", text)
		}
		a := assignment{name: strings.ReplaceAll(name, "-", "_"), heading: heading}
		if stem, unit := quantity.SplitColumn(a.name); unit != quantity.Number {
			a.name, a.unit = strings.TrimSuffix(stem, "_per"), scale{unit: unit}
		}
		if names := o.names(); !slices.Contains(names, a.name) {
			return nil, badOption("--map: %s has no column %q: want one of %s", o.File, name, strings.Join(names, ", "))
		}
		all = append(all, a)
	}
	return all, nil
}

// names are the columns that a heading may be mapped to.
func (o Options) names() []string {
	names := []string{noColumn, timeColumn}
	for _, c := range book.Columns(o.File) {
		names = append(names, c.Name)
	}
	if o.File == book.FillsFile {
		names = append(names, priceColumn, distanceColumn, partialColumn)
	}
	return names
}

// finds tells whether an assignment means a heading: the same words, or #3 for the third.
func (a assignment) finds(heading string, at int) bool {
	if n, err := strconv.Atoi(strings.TrimPrefix(a.heading, "#")); err == nil && strings.HasPrefix(a.heading, "#") {
		return n == at+1
	}
	return heading != "" && (heading == a.heading || fold(heading) == fold(a.heading) && fold(heading) != "")
}

// meanings reads a row of headings, the owner's word first.
func (o Options) meanings(headings []string, told []assignment) []column {
	columns := make([]column, len(headings))
	for i, h := range headings {
		c := column{meaning: means(o.File, h), at: i, heading: h}
		for _, a := range told {
			if a.finds(h, i) {
				if !c.understood() {
					c.meaning = unitsIn(h)
				}
				c.columns, c.told, c.how = []string{a.name}, true, "told by --map"
				if a.unit.known() && a.name == priceColumn {
					c.each = a.unit
				} else if a.unit.known() {
					c.unit = a.unit
				}
			}
		}
		columns[i] = c
	}
	return columns
}

// judge counts the headings that are understood, where they could be a table's: a date and something else.
func (o Options) judge(told []assignment) func([]string) int {
	return func(headings []string) int {
		dated, n := false, 0
		for _, c := range o.meanings(headings, told) {
			if c.understood() && c.columns[0] != reckoned {
				n++
			}
			dated = dated || slices.Contains(c.columns, dateColumn)
		}
		if !dated || n < 2 {
			return 0
		}
		return n
	}
}

// newPlan opens a sheet and reads its headings.
func newPlan(dir string, data []byte, o Options) (*plan, error) {
	if book.Columns(o.File) == nil {
		return nil, badOption("want %s, %s or %s to take rows into, got %q", book.FillsFile, book.TripsFile, book.WorkFile, o.File)
	}
	told, err := o.assignments()
	if err != nil {
		return nil, err
	}
	s, err := openSheet(o.Name, data, o.judge(told))
	if err != nil {
		return nil, err
	}
	p := &plan{sheet: s, options: o, dir: dir, why: map[string]string{}, words: map[string]*wordCount{},
		numbers: newBallot(len(decimalNames)), dates: newBallot(len(orderNames))}
	for _, c := range o.meanings(s.headings, told) {
		switch {
		case c.understood() && c.columns[0] == reckoned:
			p.pass(c, "the program works it out itself")
		case c.understood() && c.columns[0] == noColumn:
			p.pass(c, "told by --map")
		case c.understood():
			p.columns = append(p.columns, c)
		case c.heading != "":
			p.pass(c, "not understood")
		}
	}
	return p, p.allFound(told)
}

// allFound refuses a --map whose heading the sheet does not have.
func (p *plan) allFound(told []assignment) error {
	for _, a := range told {
		found := false
		for i, h := range p.headings {
			found = found || a.finds(h, i)
		}
		if !found {
			return refuse(p.file, p.headLine, "", "want a heading %q for --map, got %s", a.heading, quoted(p.headings))
		}
	}
	return nil
}

func (p *plan) pass(c column, why string) {
	p.passed = append(p.passed, Passed{visible(c.heading), why})
}

// find gives the column that was settled to be of a name.
func (p *plan) find(name string) *column {
	for i := range p.columns {
		if p.columns[i].name == name {
			return &p.columns[i]
		}
	}
	return nil
}

// cell is a column's cell of a record; rows may be short.
func (c *column) cell(cells []string) string {
	if c == nil || c.at >= len(cells) {
		return ""
	}
	return cells[c.at]
}

// quoted writes headings for a message.
func quoted(headings []string) string {
	const most = 12
	var parts []string
	for _, h := range headings {
		if h != "" {
			parts = append(parts, strconv.Quote(short(h)))
		}
	}
	if len(parts) > most {
		parts = append(parts[:most], "and more")
	}
	return strings.Join(parts, ", ")
}

// short keeps a text within a message.
func short(text string) string {
	const most = 40
	if r := []rune(text[:min(len(text), 4*most)]); len(r) > most {
		return string(r[:most]) + "…"
	}
	return text
}

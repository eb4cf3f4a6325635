package foreign

import (
	"fmt"
	"strconv"
	"strings"
	"time"

	"brimlog/ingest/book"
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
	assumed bool   // its unit is the logbook's own: nobody named one
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

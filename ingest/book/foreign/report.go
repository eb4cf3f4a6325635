package foreign

import (
	"slices"
	"strings"
	"unicode"

	"brimlog/ingest/book"
)

// A Report says how a sheet was read, and what became of its rows.
type Report struct {
	Sheet     string       `json:"sheet"`
	File      string       `json:"file"` // of the logbook
	Encoding  string       `json:"encoding"`
	Separator string       `json:"separator"`
	Decimal   string       `json:"decimal"` // point or comma
	DecimalBy string       `json:"decimal_by"`
	Dates     string       `json:"dates"` // dmy, mdy or ymd
	DatesBy   string       `json:"dates_by"`
	Headings  int          `json:"headings_line"`
	Columns   []Taken      `json:"columns"`
	Passed    []Passed     `json:"not_taken"`
	Rows      int          `json:"rows"`          // taken, or that would be
	Line      *int         `json:"line"`          // where the first one stands in File; nil where none was taken
	Already   int          `json:"already"`       // in the log before, and passed over
	Twice     []int        `json:"twice"`         // lines of the sheet that say again what another one says
	Totals    []int        `json:"totals"`        // lines of sums and means
	Notes     []int        `json:"notes_between"` // lines of words between the rows
	Blank     int          `json:"blank"`
	First     []book.Cells `json:"first_rows"`
}

// A Taken is a column of the sheet and what it is read as.
type Taken struct {
	Heading string `json:"heading"`
	Column  string `json:"column"` // of the logbook; price is a price, of which the cost is made
	How     string `json:"how"`
	From    string `json:"from"` // the first cell that is filled, as it stands in the sheet
}

// A Passed is a heading that is not taken, and why.
type Passed struct {
	Heading string `json:"heading"`
	Why     string `json:"why"`
}

// Bounds on what a report lists.
const (
	firstRows   = 5
	listedLines = 100
)

func (p *plan) newReport() *Report {
	r := &Report{Sheet: p.file, File: p.options.File, Encoding: p.encoding, Separator: p.separatorName(), Decimal: decimalNames[p.decimal],
		DecimalBy: p.why["decimal"], Dates: orderNames[p.order], DatesBy: p.why["dates"], Headings: p.headLine, Passed: p.passed,
		Columns: []Taken{}, Twice: []int{}, Totals: []int{}, Notes: []int{}, First: []book.Cells{}}
	if r.Passed == nil {
		r.Passed = []Passed{}
	}
	for i := range p.columns {
		c := &p.columns[i]
		t := Taken{Heading: visible(c.heading), Column: p.target(c), How: c.how}
		at := slices.IndexFunc(p.sample, func(r record) bool { return c.cell(r.cells) != "" })
		if at >= 0 {
			t.From = visible(short(c.cell(p.sample[at].cells)))
		}
		r.Columns = append(r.Columns, t)
	}
	return r
}

// target is the logbook's column that a column leads to.
func (p *plan) target(c *column) string {
	switch {
	case c.name == priceColumn:
		return "price_per_" + c.each.unit.String()
	case c.name == partialColumn:
		return fullColumn
	case c.unit.known() && unitFor(p.options.File, c.name).String() != "" && c.name != "hours" && c.name != "town_share":
		return c.name + "_" + c.unit.unit.String()
	}
	return c.name
}

// visible is a text as a terminal may show it: nothing in it that one would obey, and in one line.
func visible(text string) string {
	return strings.Map(func(r rune) rune {
		if unicode.IsControl(r) {
			return unicode.ReplacementChar
		}
		return r
	}, strings.Join(strings.Fields(text), " "))
}

// list notes a line of a kind, as far as a list stays readable.
func list(lines []int, line int) []int {
	if len(lines) < listedLines {
		return append(lines, line)
	}
	return lines
}

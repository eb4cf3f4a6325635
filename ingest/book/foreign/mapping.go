package foreign

import (
	"slices"
	"strconv"
	"strings"

	"brimlog/ingest/book"
	"brimlog/ingest/quantity"
)

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

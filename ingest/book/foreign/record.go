package foreign

import (
	"slices"
	"strings"

	"brimlog/ingest/book"
	"brimlog/ingest/quantity"
)

// A kind says what a line of a sheet is.
type kind int

const (
	row      kind = iota
	blankRow      // nothing in it
	headings      // the headings again, as on every printed page
	totalRow      // sums or means of the rows above
	noteRow       // words between the rows
	bareSums      // no date and no word: a row of sums, or a row that lost its date
)

// kind tells what a record is. What might be a row is one: it is refused later where it can't be read.
func (p *plan) kind(cells []string) kind {
	filled := 0
	for _, c := range cells {
		if c != "" {
			filled++
		}
	}
	date := p.find(dateColumn).cell(cells)
	_, dated := takeDay(date)
	figures := p.figures(cells)
	switch {
	case filled == 0:
		return blankRow
	case p.again(cells):
		return headings
	case dated && p.saysNothing(cells, figures):
		return noteRow
	case dated:
		return row
	case p.namesTotal(cells):
		return totalRow
	case len(figures) == 0 && !p.isJob(cells):
		return noteRow
	case date == "" && p.sumsOnly(figures):
		return bareSums
	}
	return row
}

// again tells whether the headings come once more.
func (p *plan) again(cells []string) bool {
	n := 0
	for i, c := range cells {
		if c == "" {
			continue
		}
		if i >= len(p.headings) || c != p.headings[i] {
			return false
		}
		n++
	}
	return n > 1
}

// figures are the columns of figures in which a record has one.
func (p *plan) figures(cells []string) []string {
	var with []string
	for i := range p.columns {
		c := &p.columns[i]
		if c.numeric(p.options.File) && strings.ContainsAny(c.cell(cells), "0123456789") {
			with = append(with, c.columns[0])
		}
	}
	return with
}

// numeric tells whether a column holds figures, by what it may stand for.
func (c *column) numeric(file string) bool {
	name := c.columns[0]
	if c.name != "" {
		name = c.name
	}
	switch name {
	case distanceColumn, priceColumn, costColumn, "gauge", "cold_starts":
		return true
	case dateColumn, timeColumn, partialColumn:
		return false
	}
	return quantityOf(file, name) != quantity.Number.Quantity()
}

// saysNothing tells whether a dated record is a remark: nothing in it that a row of the file is about.
func (p *plan) saysNothing(cells []string, figures []string) bool {
	if p.options.File == book.FillsFile {
		return len(figures) == 0
	}
	for i := range p.columns {
		switch c := &p.columns[i]; c.columns[0] {
		case dateColumn, timeColumn, "note":
		default:
			if c.cell(cells) != "" {
				return false
			}
		}
	}
	return true
}

// namesTotal looks for the word in the date's cell and in the first that is filled, unless that is one of free text.
func (p *plan) namesTotal(cells []string) bool {
	if totals(p.find(dateColumn).cell(cells)) {
		return true
	}
	first := slices.IndexFunc(cells, func(c string) bool { return c != "" })
	for i := range p.columns {
		if c := &p.columns[i]; c.at == first && slices.Contains([]string{"station", "note", "what"}, c.columns[0]) {
			return false
		}
	}
	return totals(cells[first])
}

// isJob tells whether a record names a job, with which a date is missing.
func (p *plan) isJob(cells []string) bool {
	return p.options.File == book.WorkFile && (p.find("what").cell(cells) != "" || p.find("id").cell(cells) != "")
}

// sumsOnly tells whether all figures are of columns that people add up.
func (p *plan) sumsOnly(figures []string) bool {
	return !slices.ContainsFunc(figures, func(name string) bool {
		return !slices.Contains([]string{volumeColumn, costColumn, priceColumn, distanceColumn, "hours"}, name)
	})
}

package foreign

import (
	"slices"
	"strings"
)

// A record is a row kept as a sample, to hold readings against what a vehicle can do.
type record struct {
	line  int
	cells []string
}

// Bounds on the sample: what is left open after so many rows stays open.
const (
	sampleRows  = 4000
	sampleBytes = 4 << 20
)

// A wordCount is what the cells of a column of yes and no hold.
type wordCount struct{ yes, no, empty int }

// learn passes over all rows once, and lets every cell say which readings of the sheet it allows.
func (p *plan) learn() error {
	if err := p.unitsRow(); err != nil {
		return err
	}
	held := 0
	return p.each(func(line int, cells []string) error {
		if p.kind(cells) != row {
			return nil
		}
		for i := range p.columns {
			p.hear(&p.columns[i], line, cells)
		}
		if len(p.sample) < sampleRows && held < sampleBytes {
			own := make([]string, len(cells))
			for i, c := range cells {
				own[i] = strings.Clone(c)
				held += len(c)
			}
			p.sample = append(p.sample, record{line, own})
		}
		return nil
	})
}

// hear lets one cell say what it knows.
func (p *plan) hear(c *column, line int, cells []string) {
	text := c.cell(cells)
	w := witness{line, c.heading, text}
	switch name := c.columns[0]; {
	case name == dateColumn:
		d, ok := takeDay(text)
		if ok && !d.ownOrder() {
			p.dates.cast(w, d.readings(p.options.Now))
		}
		if clock := readClock(d.clock); clock != "" && clock != "00:00" {
			p.timed = true
		}
	case yesNo(name):
		p.count(name, text)
	case c.numeric(p.options.File) || len(c.columns) > 1:
		if f, ok := takeFigure(trimMoney(text)); ok && allowedSuffix(f.suffix) {
			p.numbers.cast(w, f.readings())
		}
	}
}

func yesNo(name string) bool { return name == fullColumn || name == partialColumn || name == "missed" }

func (p *plan) count(name, text string) {
	n := p.words[name]
	if n == nil {
		n = &wordCount{}
		p.words[name] = n
	}
	switch own, _ := translate(answer, text); {
	case text == "" || nothing[text]:
		n.empty++
	case own == "yes":
		n.yes++
	case own == "no":
		n.no++
	}
}

// allowedSuffix tells whether what stands behind a figure may stand there: a unit, a currency, or nothing.
func allowedSuffix(suffix string) bool {
	suffix = strings.Trim(suffix, ".,")
	if suffix == "" {
		return true
	}
	_, unit := unitOf(suffix)
	folded := fold(suffix)
	return unit || moneyWords[folded] || hundredths[folded]
}

// unitsRow takes the first row behind the headings for their units, where nothing else is in it.
func (p *plan) unitsRow() error {
	visited, found := 0, false
	stop := errStop{}
	err := p.each(func(line int, cells []string) error {
		visited++
		if p.kind(cells) == blankRow {
			return nil
		}
		units := p.readUnits(cells)
		if units == nil {
			return stop
		}
		found = true
		for i, m := range units {
			if err := p.columns[i].takeUnit(p, line, m); err != nil {
				return err
			}
		}
		return stop
	})
	if err != nil && err != error(stop) {
		return err
	}
	if found {
		p.first += visited
	}
	return nil
}

type errStop struct{}

func (errStop) Error() string { return "enough" }

// readUnits reads a row as units, one for each column; nil where it is none.
func (p *plan) readUnits(cells []string) []meaning {
	units := make([]meaning, len(p.columns))
	some := false
	for at, cell := range cells {
		if cell == "" {
			continue
		}
		m := unitsIn(cell)
		whole := takeApart(cell)
		if _, figure := takeFigure(cell); figure || whole.rest != "" && m.order == "" {
			return nil
		}
		i := slices.IndexFunc(p.columns, func(c column) bool { return c.at == at })
		if some = some || m.unit.known() || m.each.known() || m.order != ""; i >= 0 {
			units[i] = m
		}
	}
	if !some {
		return nil
	}
	return units
}

// takeUnit takes over what the row of units says.
func (c *column) takeUnit(p *plan, line int, m meaning) error {
	if m.unit.known() && c.unit.known() && m.unit.unit != c.unit.unit && !(c.told || c.unit.vague || m.unit.vague) {
		return refuse(p.file, line, c.heading, "want one unit, got %s in the heading and %s below it: mend one of them", c.unit.unit, m.unit.unit)
	}
	if m.unit.known() && (!c.unit.known() || c.unit.vague) {
		c.unit = m.unit
		if c.how == "" {
			c.how = "unit from the row below the headings"
		}
	}
	if m.each.known() && !c.each.known() {
		c.each = m.each
	}
	c.cents = c.cents || m.cents
	if m.order != "" {
		c.order = m.order
	}
	return nil
}

package foreign

import (
	"slices"
	"strings"

	"brimlog/ingest/book"
)

// settle decides everything that holds for the sheet as a whole, or refuses.
func (p *plan) settle() error {
	for i := range p.columns {
		if c := &p.columns[i]; len(c.columns) == 1 {
			c.name = c.columns[0]
		}
	}
	if err := p.once(); err != nil {
		return err
	}
	if err := p.learn(); err != nil {
		return err
	}
	for _, step := range []func() error{p.settleDecimal, p.settleFuel, p.settleOdometer, p.settlePrice, p.settleRest, p.once, p.spare,
		p.complete, p.settleDates, p.settleUnits, p.weighUnits} {
		if err := step(); err != nil {
			return err
		}
	}
	return nil
}

// once sees to it that no two headings lead to the same column. What the owner told goes before what was understood; notes are
// joined.
func (p *plan) once() error {
	for i := 0; i < len(p.columns); i++ {
		c := p.columns[i]
		if c.name == "" || c.name == "note" {
			continue
		}
		for j := i + 1; j < len(p.columns); j++ {
			d := p.columns[j]
			if d.name != c.name {
				continue
			}
			if c.told == d.told {
				return refuse(p.file, p.headLine, c.heading, "want one column of the %s, got %q as well: choose with --map %s=%s",
					inWords(c.name), d.heading, c.name, p.tag(c))
			}
			gone := j
			if d.told {
				gone = i
			}
			p.pass(p.columns[gone], "another was told by --map")
			p.columns = slices.Delete(p.columns, gone, gone+1)
			return p.once()
		}
	}
	return nil
}

// tag is how --map may name a column's heading.
func (p *plan) tag(c column) string {
	n := 0
	for _, h := range p.headings {
		if h == c.heading {
			n++
		}
	}
	if n == 1 {
		return shellWord(c.heading)
	}
	return "#" + itoa(c.at+1)
}

// shellWord puts quotes around what a shell would take apart.
func shellWord(s string) string {
	if strings.ContainsAny(s, " \t'\"$&|<>();*?[]#~`\\!") {
		return "'" + strings.ReplaceAll(s, "'", `'\''`) + "'"
	}
	return s
}

func inWords(name string) string { return strings.ReplaceAll(name, "_", " ") }

// others tells whether a column is there besides c.
func (p *plan) others(c *column, name string) bool {
	return slices.ContainsFunc(p.columns, func(d column) bool { return d.at != c.at && d.name == name })
}

// settleFuel tells labels of fuel from volumes, which share their headings.
func (p *plan) settleFuel() error {
	for i := range p.columns {
		c := &p.columns[i]
		if c.name != "" || !slices.Contains(c.columns, fuelColumn) {
			continue
		}
		c.name, c.how = fuelColumn, "labels, by its cells"
		if figures, octane := p.looksOf(c); figures && !octane && !p.others(c, volumeColumn) {
			c.name, c.how = volumeColumn, "figures, by its cells"
		}
	}
	return nil
}

// looksOf tells whether all cells of a column are figures, and whether they are octane numbers.
func (p *plan) looksOf(c *column) (figures, octane bool) {
	octane = true
	for _, r := range p.sample {
		text := c.cell(r.cells)
		if empty(text) {
			continue
		}
		f, ok := takeFigure(text)
		if !ok || !allowedSuffix(f.suffix) {
			return false, false
		}
		figures = true
		octane = octane && len(f.digits) <= 3 && f.digits >= "80" && f.digits <= "99" || f.digits == "100" || f.digits == "102"
	}
	return figures, octane
}

// settlePrice tells the price of a litre from what was paid, where the heading says only 'price'.
func (p *plan) settlePrice() error {
	for i := range p.columns {
		c := &p.columns[i]
		if c.name != "" || !slices.Contains(c.columns, priceColumn) {
			continue
		}
		switch {
		case p.others(c, costColumn):
			c.name, c.how = priceColumn, "not the cost, which has its own column"
		case p.others(c, priceColumn):
			c.name, c.how = costColumn, "not the price of a litre, which has its own column"
		default:
			return refuse(p.file, p.headLine, c.heading, "want either what was paid or the price of a litre or gallon, got a word for both: "+
				"say --map cost=%s or --map price_per_l=%[1]s", p.tag(*c))
		}
	}
	return nil
}

// settleRest gives a column with several meanings the one that no other column has.
func (p *plan) settleRest() error {
	for i := range p.columns {
		c := &p.columns[i]
		if c.name != "" {
			continue
		}
		free := slices.DeleteFunc(slices.Clone(c.columns), func(name string) bool { return p.others(c, name) })
		if len(free) != 1 {
			return refuse(p.file, p.headLine, c.heading, "want either %s or %s, got a word for both: say --map %s=%s or --map %s=%[4]s",
				inWords(c.columns[0]), inWords(c.columns[1]), c.columns[0], p.tag(*c), c.columns[1])
		}
		c.name, c.how = free[0], "not the "+inWords(c.columns[1-slices.Index(c.columns, free[0])])+", which has its own column"
	}
	return nil
}

// spare leaves out what another column says better: a tank's distance where there is an odometer.
func (p *plan) spare() error {
	if p.options.File != book.FillsFile || p.find(odometerColumn) == nil {
		return nil
	}
	p.columns = slices.DeleteFunc(p.columns, func(c column) bool {
		if c.name == distanceColumn {
			p.pass(c, "the odometer says it")
		}
		return c.name == distanceColumn
	})
	return nil
}

// complete refuses a sheet without what its rows need.
func (p *plan) complete() error {
	need := map[string][]string{
		book.FillsFile: {dateColumn, volumeColumn, odometerColumn},
		book.TripsFile: {dateColumn},
		book.WorkFile:  {dateColumn},
	}[p.options.File]
	for _, name := range need {
		if p.find(name) != nil {
			continue
		}
		if name == odometerColumn && p.find(distanceColumn) != nil {
			if p.options.Odometer != "" {
				continue
			}
			d := p.find(distanceColumn)
			return refuse(p.file, p.headLine, d.heading, "want odometer readings, got only the distance of each tank, which cannot be told from "+
				"its neighbours when one is missing: add a column of readings, or give the reading before the first row with --odometer")
		}
		return refuse(p.file, p.headLine, "", "want a column of the %s, got the headings %s: name it with --map %s=heading",
			inWords(name), quoted(p.headings), name)
	}
	return nil
}

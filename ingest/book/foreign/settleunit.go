package foreign

import (
	"strconv"
	"strings"

	"brimlog/ingest/book"
	"brimlog/ingest/quantity"
)

func itoa(n int) string { return strconv.Itoa(n) }

// settleUnits finds the unit of every column of figures that has one: its own, else that of the logbook's column.
func (p *plan) settleUnits() error {
	header, err := book.Header(p.dir, p.options.File)
	if err != nil {
		return err
	}
	for i := range p.columns {
		c := &p.columns[i]
		if c.name == priceColumn {
			if err := p.settleEach(c, header); err != nil {
				return err
			}
			continue
		}
		base := unitFor(p.options.File, c.name)
		if base == quantity.Number || base == quantity.Percent || c.name == "hours" {
			continue
		}
		if err := p.settleUnit(c, base, header); err != nil {
			return err
		}
	}
	return nil
}

func (p *plan) settleUnit(c *column, base quantity.Unit, header []string) error {
	own := ownUnits(header, c.name)
	if c.name == distanceColumn && p.options.File == book.FillsFile {
		own = ownUnits(header, odometerColumn)
	}
	switch {
	case c.unit.vague:
		return p.settleGallon(c, &c.unit, own)
	case c.unit.known():
		if c.how == "" {
			c.how = "unit from the heading"
		}
	case len(own) == 1:
		c.unit, c.assumed = scale{unit: own[0]}, true
		if c.how == "" || !c.told {
			c.how = join(c.how, "in the logbook's own unit, as the sheet names none")
		}
	case len(own) == 0:
		c.unit, c.assumed = scale{unit: base}, true
		c.how = join(c.how, "in "+base.String()+", as neither the sheet nor the logbook names a unit")
	default:
		return refuse(p.file, p.headLine, c.heading, "want a unit, got none, and the logbook has the %s in %s and %s: say --map %s_%[3]s=%s",
			inWords(c.name), own[0], own[1], c.name, p.tag(*c))
	}
	return nil
}

func join(a, b string) string {
	if a == "" {
		return b
	}
	return a + "; " + b
}

// ownUnits are the units of the logbook's columns of a thing.
func ownUnits(header []string, stem string) []quantity.Unit {
	var units []quantity.Unit
	for _, h := range header {
		if s, u := quantity.SplitColumn(strings.ToLower(strings.TrimSpace(h))); s == stem && u != quantity.Number {
			units = append(units, u)
		}
	}
	return units
}

// settleGallon finds out whose gallon is meant: another heading says it, or the logbook itself counts in gallons.
func (p *plan) settleGallon(c *column, s *scale, own []quantity.Unit) error {
	var said []quantity.Unit
	for _, h := range p.headings {
		for _, u := range append(takeApart(h).units, takeApart(h).each) {
			if !u.vague && (u.unit == quantity.GallonUK || u.unit == quantity.GallonUS) {
				said = append(said, u.unit)
			}
		}
		switch fold(h) {
		case "mpg uk", "uk mpg", "mpg imp", "mpg imperial":
			said = append(said, quantity.GallonUK)
		case "mpg us", "us mpg":
			said = append(said, quantity.GallonUS)
		}
	}
	how := "gallons by another heading"
	if len(said) == 0 {
		how = "gallons as the logbook's own"
		for _, u := range own {
			if u != quantity.Litre {
				said = append(said, u)
			}
		}
	}
	for _, u := range said {
		if u != said[0] {
			said = nil
			break
		}
	}
	if len(said) == 0 {
		name := c.name
		if name == priceColumn {
			name = "price_per"
		}
		return refuse(p.file, p.headLine, c.heading, "want UK or US gallons, got gallons without their country: say --map %s_gal_uk=%s or --map %[1]s_gal_us=%[2]s",
			name, p.tag(*c))
	}
	*s, c.how = scale{unit: said[0]}, join(c.how, how)
	return nil
}

// settleEach finds out what a price buys.
func (p *plan) settleEach(c *column, header []string) error {
	volume := p.find(volumeColumn)
	switch {
	case c.each.vague && volume != nil && !volume.unit.vague && (volume.unit.unit == quantity.GallonUK || volume.unit.unit == quantity.GallonUS):
		c.each = volume.unit
	case c.each.vague:
		return p.settleGallon(c, &c.each, ownUnits(header, volumeColumn))
	case !c.each.known() && volume != nil && volume.unit.known():
		c.each = volume.unit
	case !c.each.known():
		c.each = scale{unit: quantity.Litre}
		if own := ownUnits(header, volumeColumn); len(own) == 1 {
			c.each.unit = own[0]
		}
	}
	if c.each.vague {
		return p.settleGallon(c, &c.each, ownUnits(header, volumeColumn))
	}
	c.how = join(c.how, "times the volume it gives the cost")
	if p.find(costColumn) != nil {
		c.how = "taken where the cost is empty"
	}
	return nil
}

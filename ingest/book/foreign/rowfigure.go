package foreign

import (
	"math"
	"strconv"

	"brimlog/ingest/book"
	"brimlog/ingest/quantity"
)

// put writes a figure under its column's name and unit.
func (r *rowReader) put(c *column, number string, x float64, unit quantity.Unit) {
	r.figure[c.name] = unit.ToBase(x)
	switch {
	case c.name == priceColumn:
		if r.figure[c.name] = x / c.each.unit.ToBase(1); c.cents {
			r.figure[c.name] /= 100
		}
	case c.name == distanceColumn && r.options.File == book.FillsFile:
	case c.name == "gauge" && unit == quantity.Percent:
		r.cells[c.name] = strconv.FormatFloat(x/100, 'f', -1, 64)
	case unitFor(r.options.File, c.name).String() == "" || c.name == "hours" || c.name == "town_share":
		r.cells[c.name] = number
	default:
		r.cells[c.name+"_"+unit.String()] = number
	}
}

// finishFill reckons the cost from the price, and the odometer from the distance where the sheet has only that.
func (r *rowReader) finishFill(line int, cells []string, before book.Moment) error {
	price, hasPrice := r.figure[priceColumn]
	litres, hasVolume := r.figure[volumeColumn]
	if _, paid := r.figure[costColumn]; hasPrice && hasVolume && !paid {
		r.cells[costColumn] = strconv.FormatFloat(math.Round(price*litres*100)/100, 'f', 2, 64)
	}
	if !hasVolume {
		return refuse(r.file, line, r.find(volumeColumn).heading, "want a volume, got an empty cell in a row with a date and figures: "+
			"write what was filled, or empty the row where nothing was")
	}
	c := r.find(distanceColumn)
	if c == nil || !quantity.Known(r.driven) {
		return nil
	}
	km, ok := r.figure[distanceColumn]
	switch {
	case !ok:
		return refuse(r.file, line, c.heading, "want the distance since the last fill, got an empty cell: write it, since all later readings hang on it")
	case r.when.Before(before.Time):
		return refuse(r.file, line, r.find(dateColumn).heading, "want the rows in the order of their dates, got %q after a later one: sort the sheet by date", r.find(dateColumn).cell(cells))
	}
	r.driven += km
	r.figure[odometerColumn] = r.driven
	r.cells[odometerColumn+"_"+c.unit.unit.String()] = quantity.Cell(r.driven, c.unit.unit)
	return nil
}

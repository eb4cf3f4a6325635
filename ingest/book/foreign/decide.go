package foreign

import (
	"fmt"
	"slices"
	"time"

	"brimlog/ingest/quantity"
)

// settleDecimal decides which mark is the decimal one.
func (p *plan) settleDecimal() error {
	if told := p.options.Decimal; told != "" {
		if p.decimal = slices.Index(decimalNames, told); p.decimal < 0 {
			return badOption("--decimal: want point or comma, got %q", told)
		}
		p.why["decimal"] = "told by --decimal"
		return nil
	}
	left := p.numbers.left()
	if len(left) == 0 {
		a, b := p.numbers.out[point], p.numbers.out[comma]
		return refuse(p.file, a.line, a.heading, "want one decimal mark in the whole sheet, got %q here and %q in line %d: "+
			"mend one of them, or say --decimal point or comma", short(a.text), short(b.text), b.line)
	}
	w, open := p.numbers.open(left)
	p.decimal, p.why["decimal"] = left[0], "no cell depends on it"
	switch {
	case len(left) == 1:
		w := p.numbers.out[1-left[0]]
		p.why["decimal"] = "by " + quotedAt(*w)
	case open:
		can := slices.DeleteFunc(left, func(decimal int) bool { return !p.canBe(decimal) })
		if len(can) != 1 {
			return refuse(p.file, w.line, w.heading, "want one reading, got %q, which can be %s or %s: say --decimal comma or point",
				short(w.text), figureOf(w.text).read(comma), figureOf(w.text).read(point))
		}
		p.decimal, p.why["decimal"] = can[0], "the other reading is beyond any vehicle"
	}
	return nil
}

func figureOf(text string) figure {
	f, _ := takeFigure(trimMoney(text))
	return f
}

func quotedAt(w witness) string { return "\"" + short(w.text) + "\" in line " + itoa(w.line) }

// settleOdometer tells readings of the odometer from distances, which share some headings and are mixed up under others.
func (p *plan) settleOdometer() error {
	litres := p.values(p.column(volumeColumn), p.decimal)
	for i := range p.columns {
		c := &p.columns[i]
		if c.name != "" && (c.name != odometerColumn || c.told) || !slices.Contains(c.columns, odometerColumn) {
			continue
		}
		km := p.values(c, p.decimal)
		reading, distance := p.asReadings(km, litres), p.asDistances(km, litres)
		switch {
		case c.name == odometerColumn && !(reading == out && distance == fits):
		case c.name == odometerColumn:
			c.name, c.how = distanceColumn, "distances, by its figures: they do not go on from one another"
		case p.others(c, odometerColumn):
			c.name, c.how = distanceColumn, "not the odometer, which has its own column"
		case p.others(c, distanceColumn), reading != out && distance == out:
			c.name, c.how = odometerColumn, "readings, by its figures"
		case reading == out && distance == fits:
			c.name, c.how = distanceColumn, "distances, by its figures"
		default:
			return refuse(p.file, p.headLine, c.heading, "want either the odometer or the distance of a tank, got a word for both, and the "+
				"figures do not tell: say --map odometer=%s or --map distance=%[1]s", p.tag(*c))
		}
	}
	return nil
}

// NoDateOpen is why dates are read in an order that decides nothing: each can be read in one way only.
const NoDateOpen = "no date depends on it"

// settleDates decides the order of day, month and year.
func (p *plan) settleDates() error {
	told, why := p.options.Dates, "told by --dates"
	if c := p.find(dateColumn); told == "" && c.order != "" {
		told, why = c.order, "by the heading"
	}
	if told != "" {
		if p.order = slices.Index(orderNames, told); p.order < 0 {
			return badOption("--dates: want dmy, mdy or ymd, got %q", told)
		}
		p.why["dates"] = why
		return nil
	}
	left := p.dates.left()
	if len(left) == 0 {
		return p.mixedDates()
	}
	w, open := p.dates.open(left)
	p.order, p.why["dates"] = left[0], NoDateOpen
	switch {
	case open:
		return p.datesByOdometer(w, left)
	case len(left) == 1:
		p.why["dates"] = "by " + quotedAt(*p.excluding(left[0]))
	}
	return nil
}

// datesByOdometer decides what the dates alone leave open: by an order that is wrong the odometer runs back in time. One pair
// of rows may do so by a slip of the pen; two that share no row are believed.
func (p *plan) datesByOdometer(w witness, left []int) error {
	const enough = 2
	var can []int
	doubt := ""
	for _, order := range left {
		switch pairs := p.drivesBack(order); {
		case len(pairs) == 0:
			can = append(can, order)
		case len(pairs) < enough:
			doubt = fmt.Sprintf(" (by %s the odometer runs back once, to line %d, which is too little to go by)", orderNames[order], pairs[0])
			can = append(can, order)
		}
	}
	if len(can) != 1 {
		return refuse(p.file, w.line, w.heading, "want one reading, got %q, which can be %s%s: say --dates dmy, mdy or ymd", short(w.text), p.choices(w.text, left), doubt)
	}
	p.order, p.why["dates"] = can[0], "by any other the odometer would run back in time, more than once"
	return nil
}

// excluding is the cell that left only one order: the last of those that ruled out another.
func (p *plan) excluding(order int) *witness {
	var last *witness
	for i, w := range p.dates.out {
		if i != order && (last == nil || w.line > last.line) {
			last = w
		}
	}
	return last
}

func (p *plan) mixedDates() error {
	a, b := p.dates.out[dmy], p.dates.out[mdy]
	return refuse(p.file, a.line, a.heading, "want dates in one order in the whole sheet, got %q here and %q in line %d: "+
		"mend them, or say --dates dmy, mdy or ymd", short(a.text), short(b.text), b.line)
}

// choices writes what a date may be.
func (p *plan) choices(text string, orders []int) string {
	d, _ := takeDay(text)
	s := ""
	for i, order := range orders {
		y, m, dd, _ := d.read(order, p.options.Now)
		if i > 0 {
			s += " or "
		}
		s += time.Date(y, time.Month(m), dd, 0, 0, 0, 0, time.UTC).Format("2 January 2006")
	}
	return s
}

// drivesBack gives the lines where by an order of dates the odometer stands lower than on an earlier day, each by rows that no other of
// them shares.
func (p *plan) drivesBack(order int) (lines []int) {
	c := p.find(odometerColumn)
	if c == nil {
		c = p.find("odometer_end")
	}
	if c == nil {
		c = p.find("odometer_start")
	}
	var lastDay string
	lastKm := quantity.Unknown
	for _, r := range p.sample {
		km := p.value(c, r.cells, p.decimal)
		d, ok := takeDay(p.find(dateColumn).cell(r.cells))
		if !ok || !quantity.Known(km) {
			continue
		}
		day := d.readings(p.options.Now)[order]
		if lastDay != "" && (day > lastDay && km < lastKm || day < lastDay && km > lastKm) {
			lines = append(lines, r.line)
			lastDay, lastKm = "", quantity.Unknown // this row is spent
			continue
		}
		lastDay, lastKm = day, km
	}
	return lines
}

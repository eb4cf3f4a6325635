package foreign

import (
	"errors"
	"slices"
	"strconv"
	"strings"
	"time"

	"brimlog/ingest/book"
	"brimlog/ingest/quantity"
)

// A rowReader makes rows of the logbook out of records.
type rowReader struct {
	*plan
	cells  book.Cells // of the row; the next row takes its place
	figure map[string]float64
	when   book.Moment
	driven float64 // km as shown, where the sheet has only distances
}

func (p *plan) newRowReader() (*rowReader, error) {
	r := &rowReader{plan: p, cells: book.Cells{}, figure: map[string]float64{}, driven: quantity.Unknown}
	c := p.find(distanceColumn)
	if p.options.Odometer == "" || p.options.File != book.FillsFile || c == nil {
		return r, nil
	}
	var err error
	if r.driven, err = quantity.Parse(p.options.Odometer, c.unit.unit); err != nil {
		return nil, badOption("--odometer: %v", err)
	}
	return r, nil
}

// read makes a row of a record, in r.cells.
func (r *rowReader) read(line int, cells []string) error {
	clear(r.cells)
	clear(r.figure)
	before := r.when
	if err := r.readDate(line, cells); err != nil {
		return err
	}
	for i := range r.columns {
		c := &r.columns[i]
		if err := r.readCell(c, line, c.cell(cells)); err != nil {
			return err
		}
	}
	if r.options.File == book.FillsFile {
		return r.finishFill(line, cells, before)
	}
	return nil
}

func (r *rowReader) readDate(line int, cells []string) error {
	c := r.find(dateColumn)
	text := c.cell(cells)
	d, ok := takeDay(text)
	year, month, date, valid := 0, 0, 0, false
	if ok {
		year, month, date, valid = d.read(r.order, r.options.Now)
	}
	switch {
	case text == "":
		return refuse(r.file, line, c.heading, "want a date, got an empty cell in a row with figures: write it, or empty the row")
	case !ok && dayNumber.MatchString(text):
		return refuse(r.file, line, c.heading, "want a date, got %q, a spreadsheet's count of days: format the column as a date, and save again", text)
	case !ok:
		return refuse(r.file, line, c.heading, "want a date such as 2024-02-11, got %q: write it out, or empty the row", short(text))
	case !valid:
		return refuse(r.file, line, c.heading, "want a day that the calendar has and that is past, in the order %s, got %q: mend it, or say --dates dmy, mdy or ymd",
			orderNames[r.order], short(text))
	}
	clock := readClock(d.clock)
	if d.clock != "" && clock == "" {
		return refuse(r.file, line, c.heading, "want a time of day such as 17:40, got %q: mend it", short(d.clock))
	}
	if !r.timed {
		clock = ""
	}
	if t := r.find(timeColumn); t != nil && !empty(t.cell(cells)) {
		if clock = readClock(t.cell(cells)); clock == "" {
			return refuse(r.file, line, t.heading, "want a time of day such as 17:40, got %q: mend it", short(t.cell(cells)))
		}
	}
	m, err := stamp(time.Date(year, time.Month(month), date, 0, 0, 0, 0, time.UTC).Format("2006-01-02"), clock)
	if err != nil {
		return refuse(r.file, line, c.heading, "%v", err)
	}
	r.when, r.cells[dateColumn] = m, m.String()
	return nil
}

// readCell reads one cell into the row.
func (r *rowReader) readCell(c *column, line int, text string) error {
	switch {
	case c.name == dateColumn || c.name == timeColumn:
		return nil
	case yesNo(c.name):
		return r.readAnswer(c, line, text)
	case c.name == "gauge" && strings.Contains(text, "/"):
		r.cells[c.name] = text
	case c.numeric(r.options.File):
		return r.readFigure(c, line, text)
	case text == "":
	case c.name == "note" && r.cells["note"] != "":
		r.cells["note"] += "; " + text
	case c.name == "area":
		r.cells[c.name] = areas(text)
	default:
		r.cells[c.name] = text
		if own, ok := translate(c.name, text); ok {
			r.cells[c.name] = own
		}
	}
	return nil
}

// areas translates words split by a slash.
func areas(text string) string {
	parts := strings.Split(text, "/")
	for i, part := range parts {
		if own, ok := translate("area", part); ok {
			parts[i] = own
		}
	}
	return strings.Join(parts, "/")
}

// readAnswer reads yes or no. A column that has only one of the two, and else empty cells, says the other by them.
func (r *rowReader) readAnswer(c *column, line int, text string) error {
	own, ok := translate(answer, text)
	n := r.words[c.name]
	switch {
	case text == "" || nothing[text]:
		switch {
		case n.yes > 0 && n.no == 0:
			own = "no"
		case n.no > 0 && n.yes == 0:
			own = "yes"
		default:
			return nil
		}
	case !ok:
		return refuse(r.file, line, c.heading, "want yes or no, got %q: mend it, or leave the column out with --map none=%s", short(text), r.tag(*c))
	}
	if c.name == partialColumn {
		own = map[string]string{"yes": "no", "no": "yes"}[own]
		r.cells[fullColumn] = own
		return nil
	}
	r.cells[c.name] = own
	return nil
}

// readFigure reads a number, with its unit.
func (r *rowReader) readFigure(c *column, line int, text string) error {
	if empty(text) {
		return nil
	}
	f, ok := takeFigure(trimMoney(text))
	suffix := strings.Trim(f.suffix, ".,")
	number := ""
	if ok {
		number = f.read(r.decimal)
	}
	switch {
	case strings.HasPrefix(text, "#") || strings.HasPrefix(text, "Err:"):
		return refuse(r.file, line, c.heading, "want a number, got %q, a formula that failed: mend it in the sheet, or empty the cell", short(text))
	case !ok:
		return refuse(r.file, line, c.heading, "want a number such as 48213, got %q: mend it, or empty the cell", short(text))
	case !allowedSuffix(suffix):
		return refuse(r.file, line, c.heading, "want a number with a unit or none, got %q: mend it, or empty the cell", short(text))
	case number == "":
		return refuse(r.file, line, c.heading, "want a number with a decimal %s, as in the rest of the sheet, got %q: mend it, or say --decimal comma or point",
			decimalNames[r.decimal], short(text))
	}
	x, err := strconv.ParseFloat(number, 64)
	if err != nil {
		return refuse(r.file, line, c.heading, "want a number such as 48213, got %q: mend it", short(text))
	}
	unit := c.unit.unit
	if own, ok := unitOf(suffix); ok && suffix != "" {
		if own.vague {
			own.unit = unit
		}
		if own.unit.Quantity() != unit.Quantity() && !(c.name == "gauge" && own.unit == quantity.Percent) && unitFor(r.options.File, c.name) != quantity.Percent {
			return refuse(r.file, line, c.heading, "want a figure in %s, got %q: mend it", unit.Label(), short(text))
		}
		unit = own.unit
	}
	r.put(c, number, x, unit)
	return nil
}

// blame turns what the logbook refused in the row into what is wrong with the sheet.
func (r *rowReader) blame(line int, err error) error {
	var wrong book.Problem
	if !errors.As(err, &wrong) {
		return refuse(r.file, line, "", "%s", strings.TrimPrefix(err.Error(), r.options.File+": "))
	}
	stem, _ := quantity.SplitColumn(wrong.Column)
	at := slices.IndexFunc(r.columns, func(c column) bool { return c.name == stem || c.name == wrong.Column })
	if at < 0 {
		return refuse(r.file, line, wrong.Column, "%s", wrong.Message)
	}
	c := r.columns[at]
	if slices.Contains([]string{dateColumn, odometerColumn, volumeColumn}, c.name) {
		return refuse(r.file, line, c.heading, "%s", wrong.Message)
	}
	return refuse(r.file, line, c.heading, "%s; or leave the column out with --map none=%s", wrong.Message, r.tag(c))
}

package charts

import (
	"html/template"

	"brimlog/ingest/quantity"
)

// A line is a tank in the table. What changes with the reader's unit, the script writes anew from the tank's row.
type line struct {
	Number   int
	Dates    string
	Economy  string
	Sd       string
	Like     string
	Level    string
	Distance string
	Fuel     string
	Air      string
	Town     string
	Noted    string
	Partials string
	Cost     string
	Lines    string
	Expected string
	Mark     *ruling // of a tank that stands out
	Note     template.HTML
}

// tanks are all tanks in a table, the newest first: what the chart of the whole log is drawn from.
func tanks(l *logbook) *section {
	if len(l.tanks) == 0 {
		return nil
	}
	u := l.unit
	var lines []line
	standing := false
	for i := len(l.tanks) - 1; i >= 0; i-- {
		t, r := l.tanks[i], l.data.Tanks[i]
		n := line{
			Number:   t.Number,
			Dates:    stretch(t),
			Economy:  u.Economy.write(float64(r[2])),
			Sd:       number(float64(t.SdPct), 1),
			Like:     both(u.Economy, r[4], r[6]),
			Level:    both(u.Economy, r[7], r[9]),
			Distance: u.Distance.write(float64(r[10])),
			Fuel:     u.Volume.write(float64(r[11])),
			Air:      u.Temperature.write(float64(r[12])),
			Town:     number(100*float64(t.TownShare), 0),
			Noted:    number(100*float64(t.NotedShare), 0),
			Partials: number(float64(t.Partials), 0),
			Cost:     number(float64(t.Cost), 2),
			Lines:    lineRange(t.FromLine, t.ToLine),
			Expected: dash,
			Note:     note(t.Note),
		}
		if t.watched != nil {
			n.Expected = both(u.Economy, r[13], r[14])
		}
		if k := readingOf(t.watched); k >= 0 {
			m := readingMark(k)
			n.Mark, standing = &m, true
		}
		lines = append(lines, n)
	}
	return &section{ID: "tanks", Title: "All tanks", Form: "tanks.html", Data: map[string]any{
		"Lines": lines, "Unit": u, "Currency": or(plain(l.Show.Currency), "currency not named"), "Long": len(lines) > onPaper, "OnPaper": onPaper, "Watched": l.Watch != nil, "Standing": standing,
	}}
}

// onPaper is how many tanks are printed; page/print.css has the same number.
const onPaper = 120

func both(s scale, low, high Figure) string { return s.between(float64(low), float64(high), dash) }

func lineRange(from, to int) string {
	if from <= 0 || to <= 0 {
		return dash
	}
	return number(float64(from), 0) + dash + number(float64(to), 0)
}

func note(s string) template.HTML {
	if s == "" {
		return ""
	}
	return name(s)
}

// stretch writes the dates of a tank.
func stretch(t tank) string { return dates(t.FromDate, t.ToDate, " – ") }

// dates writes a stretch of time without saying month or year twice.
func dates(first, last, joint string) string {
	if !quantity.Known(day(first)) || !quantity.Known(day(last)) {
		return plain(first) + joint + plain(last)
	}
	from, to := dated(day(first)), dated(day(last))
	layout := "2 Jan 2006"
	switch {
	case from.Year() == to.Year() && from.Month() == to.Month():
		layout = "2"
	case from.Year() == to.Year():
		layout = "2 Jan"
	}
	return from.Format(layout) + joint + to.Format("2 Jan 2006")
}

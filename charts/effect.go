package charts

import (
	"html/template"

	"brimlog/ingest/quantity"

	"github.com/go-echarts/go-echarts/v2/opts"
)

// An effect is a line of the table behind the chart of all jobs.
type effect struct {
	Number        int
	Job           template.HTML
	Date          string
	Mark          ruling
	Change, Range string
	Odds          string
	Before, After int
}

func effects(l *logbook) (all []effect) {
	for _, j := range l.jobs {
		all = append(all, effect{j.Number, link(j), spoken(j.Date), j.ruling(), orDash(j, changed(float64(j.ChangePct))),
			changes(float64(j.LowPct), float64(j.HighPct)), wager(float64(j.OddsChanged)), j.TanksBefore, j.TanksAfter})
	}
	return all
}

func orDash(j job, s string) string {
	if !quantity.Known(float64(j.ChangePct)) {
		return dash
	}
	return s
}

// effectRows are the jobs with a range to draw: place, change, its ends, ruling, number.
func effectRows(l *logbook) (rows []row) {
	for _, j := range l.jobs {
		if j.Verdict == nil || !quantity.Known(float64(j.ChangePct)) || !quantity.Known(float64(j.LowPct)) || !quantity.Known(float64(j.HighPct)) {
			continue
		}
		rows = append(rows, row{Figure(len(rows)), cut(j.ChangePct, 2), cut(j.LowPct, 2), cut(j.HighPct, 2), Figure(rulingOf(j)), Figure(j.Number)})
	}
	return rows
}

func effectsChart(rows []row) drawing {
	var shown []float64
	for _, r := range rows {
		shown = append(shown, float64(r[2]), float64(r[3]))
	}
	low, high := around(0, shown, 40)
	c := blank("effects", 12, opts.XAxis{Type: "category", Name: "count"},
		opts.YAxis{Type: "value", Name: "change", Inverse: opts.Bool(true)}, "axis")
	add(c, "no change", "", "zero", nil, []int{0, 1}, []row{{-3, 3}})
	add(c, "effect", "", "effect", []int{0}, []int{1, 2, 3}, rows)
	return drawing{Option: option(c), Low: Figure(low), High: Figure(high)}
}

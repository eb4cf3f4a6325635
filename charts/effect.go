package charts

import (
	"html/template"
	"slices"

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

// tally sums up the verdicts, in the order in which they matter, for those who can't or won't look at the chart.
func (l *logbook) tally() template.HTML {
	words := say("Of ", count(len(l.jobs), "job", "jobs"), ":")
	joint := " "
	for _, g := range []struct {
		one, many string
		named     bool
		verdicts  []string
	}{
		{"is proved to have brought less fuel", "are proved to have brought less fuel", true, []string{"less_fuel"}},
		{"is proved to have brought more", "are proved to have brought more", true, []string{"more_fuel"}},
		{"changed less than 3" + fastened + "% either way", "changed less than 3" + fastened + "% either way", false, []string{"no_change"}},
		{"is not decided", "are not decided", false, []string{"leaning_less", "leaning_more", "undecided"}},
		{"has nothing to be judged by", "have nothing to be judged by", false, []string{"", "measure"}},
	} {
		var ids []string
		for _, j := range l.jobs {
			if slices.Contains(g.verdicts, rulings[rulingOf(j)].verdict) {
				ids = append(ids, j.ID)
			}
		}
		if len(ids) == 0 {
			continue
		}
		words += say(joint, count(len(ids), g.one, g.many))
		if g.named && len(ids) <= 4 {
			words += say(" (", l.named(ids), ")")
		}
		joint = "; "
	}
	return words + "."
}

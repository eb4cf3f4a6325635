package charts

import (
	"html/template"

	"brimlog/ingest/quantity"

	"github.com/go-echarts/go-echarts/v2/opts"
)

// An evidence is what the charts of one job are drawn from. The charts themselves are the same for all jobs and travel
// once. A row of Path is: its place from 0, change %, its low and high end, odds, the day, the ruling, the tank. A row of Levels is: 0 before
// or 1 after, L/100 km, its low and high end.
type evidence struct {
	Path   []row   `json:"path"`
	Levels []row   `json:"levels"`
	Ends   [3]ends `json:"ends"` // of the scales: levels, growth, odds
}

type ends [2]Figure

// opening is how many first tanks of a path may reach beyond the scale: what is known then spans so much that all later tanks would lie on one line.
const opening = 3

func evidenceOf(l *logbook, j job) evidence {
	e := evidence{Path: []row{}, Levels: []row{}}
	var changes, wagers, levels []float64
	for i, p := range j.Path {
		e.Path = append(e.Path, row{Figure(i), cut(p.ChangePct, 2), cut(p.LowPct, 2), cut(p.HighPct, 2), odd(p.OddsChanged),
			Figure(day(p.ToDate)), Figure(rulingNamed(p.Verdict)), Figure(p.Tank)})
		changes = append(changes, float64(p.ChangePct))
		if i >= min(opening, len(j.Path)-1) {
			changes = append(changes, float64(p.LowPct), float64(p.HighPct))
		}
		wagers = append(wagers, float64(p.OddsChanged))
	}
	for i, r := range []struct{ Low, Mid, High Figure }{{j.Before.Low, j.Before.Mid, j.Before.High}, {j.After.Low, j.After.Mid, j.After.High}} {
		if quantity.Known(float64(r.Mid)) && quantity.Known(float64(r.Low)) && quantity.Known(float64(r.High)) {
			e.Levels = append(e.Levels, row{Figure(i), cut(r.Mid, 5), cut(r.Low, 5), cut(r.High, 5)})
			levels = append(levels, float64(r.Low), float64(r.High))
		}
	}
	low, high := span(levels)
	low -= 0.18 * (high - low) // room for the figures above the bars
	e.Ends[0] = ends{cut(Figure(low), 2), cut(Figure(high), 2)}
	low, high = around(0, changes, 40)
	e.Ends[1] = ends{Figure(low), Figure(high)}
	low, high = decades(wagers)
	e.Ends[2] = ends{Figure(low), Figure(high)}
	return e
}

// evidenceCharts are the three charts of a job, still without its rows.
func evidenceCharts(l *logbook) {
	tanks := opts.XAxis{Type: "category", Name: "count"}

	c := blank("levels", 12, opts.XAxis{Type: "category", Name: "side"}, opts.YAxis{Type: "value", Name: "economy"}, "axis")
	add(c, "level", "levels", "range", []int{0}, []int{1, 2, 3}, nil)
	l.data.Charts["levels"] = drawing{Option: option(c)}

	c = blank("growth", 12, tanks, opts.YAxis{Type: "value", Name: "change", Inverse: opts.Bool(true)}, "axis")
	add(c, "no change", "", "zero", nil, []int{0, 1}, []row{{-3, 3}})
	add(c, "change", "path", "funnel", []int{0}, []int{1, 2, 3}, nil)
	l.data.Charts["growth"] = drawing{Option: option(c)}

	c = blank("odds", 12, tanks, opts.YAxis{Type: "log", Name: "odds"}, "axis")
	add(c, "proof", "", "proof", nil, []int{0}, []row{{20}})
	add(c, "odds", "path", "wager", []int{0}, []int{4}, nil)
	l.data.Charts["odds"] = drawing{Option: option(c)}
}

// grown tells how the answer came about, for those who can't or won't look.
func grown(j job) template.HTML {
	first, last := j.Path[0], j.Path[len(j.Path)-1]
	words := say("After the first tank the odds were ", odds(float64(first.OddsChanged)), " and the change could be ", changes(float64(first.LowPct), float64(first.HighPct)), ".")
	if len(j.Path) > 1 {
		words += say(" After ", count(len(j.Path), "tank", "tanks"), " they are ", odds(float64(last.OddsChanged)), ", and it is ",
			changes(float64(last.LowPct), float64(last.HighPct)), ".")
	}
	for i, p := range j.Path {
		if p.Verdict == "less_fuel" || p.Verdict == "more_fuel" || p.Verdict == "no_change" {
			return words + say(" The first verdict, “", rulings[rulingNamed(p.Verdict)].word, "”, came after ", count(i+1, "tank", "tanks"), ", on ", spoken(p.ToDate), ".")
		}
	}
	return words
}

// around is the range of xs and the centre, no further than limit from it.
func around(centre float64, xs []float64, limit float64) (low, high float64) {
	low, high = centre-4, centre+4
	for _, x := range xs {
		if quantity.Known(x) {
			low, high = min(low, max(x, centre-limit)), max(high, min(x, centre+limit))
		}
	}
	return low, high
}

func cut(x Figure, decimals int) Figure { return Figure(round(float64(x), decimals)) }

// odd keeps three digits of odds, and keeps them above nought, which a scale of powers has no place for.
func odd(x Figure) Figure {
	f := float64(x)
	if !quantity.Known(f) {
		return x
	}
	f = min(max(f, 1e-6), 1e6)
	for _, step := range []struct {
		from     float64
		decimals int
	}{{100, 0}, {1, 2}, {0.01, 4}} {
		if f >= step.from {
			return Figure(round(f, step.decimals))
		}
	}
	return Figure(f)
}

package charts

import (
	"html/template"
	"strings"

	"brimlog/ingest/quantity"
	"brimlog/stats"
	"brimlog/stats/expect"

	"github.com/go-echarts/go-echarts/v2/opts"
)

// An outlook is the section of what the vehicle should use: healthy, as tuned, beside what was measured.
type outlook struct {
	Direction string
	Unit      unit
	Sentence  template.HTML
	Cautions  []string
	Grounds   []template.HTML // what it stands on
	Chart     bool
	Levels    []outlookLevel
	Tuned     bool // something was read of the tune
	Roads     []outlookRoad
	Noted     bool // the shares of the roads come from the log
	Missing   []outlookGap
	Runs      []outlookRun
	Found     string // what the runs tell
	RunCare   []string
}

type (
	outlookLevel struct {
		Name           string
		Economy, Range template.HTML
		Fuel           string
		low, mid, high Figure
		state          int // its place among the states of page/story.js
	}
	outlookRoad struct {
		Road, Share           string
		Healthy, Range, Tuned template.HTML
	}
	outlookGap struct{ Where, What, Narrower string }
	outlookRun struct{ Name, Healthy, Tuned, Taken, Chance string }
)

// expected shows the section where the expected range was reckoned.
func expected(l *logbook) *section {
	e := l.Expect
	if e == nil || e.Refused != nil {
		return nil
	}
	o := outlook{Direction: l.unit.direction(), Unit: l.unit, Sentence: l.outlookSentence(e), Grounds: l.outlookGrounds(e), Tuned: len(e.Readings) > 0}
	for _, c := range e.Caution {
		o.Cautions = append(o.Cautions, sentence(c))
	}
	o.Levels = l.outlookLevels(e)
	if o.Chart = len(o.Levels) > 1; o.Chart {
		l.data.Charts["expected"] = outlookChart(o.Levels)
	}
	o.Roads, o.Noted = l.outlookRoads(e), e.Noted
	for _, m := range e.Missing {
		if m.NarrowerPct >= 0.5 {
			o.Missing = append(o.Missing, outlookGap{whereToTell(m.Key), m.What, percent(m.NarrowerPct, 0)})
		}
	}
	o.runs(e.Timed)
	return &section{ID: "expected", Title: "What it should use", Form: "expected.html", Data: o}
}

// outlookSentence is the answer; in the reader's unit where it has one.
func (l *logbook) outlookSentence(e *stats.Expected) template.HTML {
	if quantity.Known(float64(e.ExcessPct)) {
		return say(strings.ReplaceAll(e.Sentence(quantity.LPer100Km), " %", fastened+"%"))
	}
	return say("Healthy, this engine should return ", l.economy(float64(e.Healthy.Mid)), " (80"+fastened+"% sure: ", l.reach(e.Healthy), ").")
}

func (l *logbook) reach(r expect.Range) template.HTML {
	return l.economies(float64(r.Low), float64(r.High))
}

// bare and bareReach are the same for cells whose heading carries the unit.
func (l *logbook) bare(x Figure) template.HTML {
	return said("bare", l.unit.Economy.write(float64(x)), float64(x))
}

func (l *logbook) bareReach(r expect.Range) template.HTML {
	low, high := float64(r.Low), float64(r.High)
	return said("bares", l.unit.Economy.between(low, high, " to "), low, high)
}

// outlookGrounds says which tanks, weather and readings the answer stands on.
func (l *logbook) outlookGrounds(e *stats.Expected) (all []template.HTML) {
	if s := e.Since; s.FromTank != nil {
		measured := say("Measured over ", count(s.Tanks, "tank", "tanks"))
		switch {
		case s.Shift:
			measured += " since the last shift that no job accounts for"
		case s.Job != "":
			measured += say(" since ", name(s.Job))
		}
		measured += say(", " + spoken(s.FromDate) + " to " + spoken(s.ToDate))
		if t := float64(e.Roads.AirC); quantity.Known(t) {
			measured += say(", at ", said("temperature", l.unit.Temperature.withLabel(t), t), " on average")
		}
		all = append(all, measured+".")
	}
	if len(e.Readings) > 0 {
		tuned := say("Tuned as read: ")
		for i, h := range e.Readings {
			if i > 0 {
				tuned += ", "
			}
			tuned += say(name(h.Name+" = "+h.Text), " (", name(h.Job), ")")
		}
		all = append(all, tuned+".")
	}
	for _, n := range e.Notes {
		all = append(all, tight(sentence(n))+".")
	}
	return all
}

// outlookLevels are the three levels, as far as there is something to tell of them.
func (l *logbook) outlookLevels(e *stats.Expected) (all []outlookLevel) {
	add := func(state int, title string, r expect.Range, over Figure) {
		if quantity.Known(float64(r.Mid)) {
			all = append(all, outlookLevel{title, l.bare(r.Mid), l.bareReach(r), changed(float64(over)), r.Low, r.Mid, r.High, state})
		}
	}
	add(0, "Healthy", e.Healthy, Figure(quantity.Unknown))
	all[0].Fuel = dash
	if len(e.Readings) > 0 {
		add(1, "As tuned", e.AsTuned, e.TunePct)
	}
	add(2, "Measured", e.Measured, e.ExcessPct)
	return all
}

// outlookChart draws each level with its range, over the strip of what is healthy. A row is: place, L/100 km, its low and
// high end, the state.
func outlookChart(levels []outlookLevel) drawing {
	low, high := float64(levels[0].low), float64(levels[0].high)
	var rows []row
	for i, v := range levels {
		rows = append(rows, row{Figure(i), cut(v.mid, 5), cut(v.low, 5), cut(v.high, 5), Figure(v.state)})
		low, high = min(low, float64(v.low)), max(high, float64(v.high))
	}
	c := blank("expected", 12, opts.XAxis{Type: "category", Name: "side"}, opts.YAxis{Type: "value", Name: "economy"}, "axis")
	add(c, "healthy range", "", "strip", nil, []int{0, 1}, []row{{cut(levels[0].low, 5), cut(levels[0].high, 5)}})
	add(c, "expected", "", "outlook", []int{0}, []int{1, 2, 3}, rows)
	room := 0.18 * (high - low) // for the figures above
	return drawing{Option: option(c), Low: cut(Figure(low-room), 2), High: cut(Figure(high), 2)}
}

func (l *logbook) outlookRoads(e *stats.Expected) (all []outlookRoad) {
	for _, r := range e.ByRoad {
		if float64(r.Share) >= 0.005 {
			all = append(all, outlookRoad{r.Road, percent(100*float64(r.Share), 0), l.bare(r.Healthy.Mid), l.bareReach(r.Healthy), l.bare(r.AsTuned.Mid)})
		}
	}
	return all
}

// runs tells of a coast-down and a pull that somebody has timed.
func (o *outlook) runs(t *expect.TimedAnswer) {
	if t == nil || t.Verdict == "" {
		return
	}
	o.Found, o.RunCare = t.Reason+".", t.Caution
	add := func(title string, r *expect.TimedRun) {
		if r != nil {
			o.Runs = append(o.Runs, outlookRun{title, seconds(r.Healthy), seconds(r.AsTuned), number(float64(r.Taken), 1), percent(100*float64(r.Chance), 0)})
		}
	}
	add("Coasting down", t.Coast)
	add("Pulling in top gear", t.Pull)
}

func seconds(r expect.Range) string {
	if !quantity.Known(float64(r.Mid)) {
		return dash
	}
	return number(float64(r.Low), 1) + " to " + number(float64(r.High), 1)
}

// whereToTell names the place of a key that would narrow the range.
func whereToTell(key string) string {
	if column, ok := strings.CutPrefix(key, "trips: "); ok {
		return "trips.csv, " + column
	}
	if table, key, ok := strings.Cut(key, "."); ok {
		return "vehicle.toml, [" + table + "] " + key
	}
	return "vehicle.toml, " + key
}

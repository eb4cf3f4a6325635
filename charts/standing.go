package charts

import (
	"html/template"

	"brimlog/ingest/quantity"
	"brimlog/stats"
)

// readings say how a tank stands out: by shape, by word, and by what it means. They stand in the order of the marks in page/marks.js.
var readings = []struct{ reading, mark, word, tone, means string }{
	{"thirsty", "▼", "thirsty", "bad", "more than roads, weather and chance explain"},
	{"frugal", "▲", "frugal", "good", "less than roads, weather and chance explain"},
	{"short_fill", "◒", "short fill", "open", "not quite to the brim; the next tank makes good for it"},
	{"over_fill", "◓", "over-fill", "open", "past the usual brim; the next tank makes good for it"},
	{"entry_slip", "✕", "slip of the pen?", "open", "too far off for driving: look at the entry"},
}

// reading is the place of a tank's reading among the readings; -1 where it is ordinary.
func reading(t stats.WatchedTank) int {
	if t.Reading == nil {
		return -1
	}
	for i, r := range readings {
		if r.reading == *t.Reading {
			return i
		}
	}
	return -1
}

// A standing is a tank that stands out.
type standing struct {
	Number   int
	Link     bool // it stands in the table of all tanks
	Dates    string
	Economy  template.HTML
	Expected template.HTML
	Score    string
	Mark     ruling
	Means    string
	Line     string
}

// standing lists the tanks that stand out, the newest first.
func (l *logbook) standing() (all []standing) {
	for i := len(l.tanks) - 1; i >= 0; i-- {
		t := l.tanks[i]
		r := reading(t.watched)
		if r < 0 {
			continue
		}
		w := t.watched
		all = append(all, standing{
			Number: t.Number, Dates: stretch(t), Economy: l.economy(float64(w.LPer100Km)),
			Expected: l.economies(float64(w.ExpectedLow), float64(w.ExpectedHigh)), Score: deviations(float64(w.Score)),
			Mark: ruling{Mark: readings[r].mark, Word: readings[r].word, Tone: readings[r].tone}, Means: readings[r].means, Line: lineRange(t.FromLine, t.ToLine),
		})
	}
	return all
}

// deviations writes how far a tank lies off what was expected, and which way.
func deviations(x float64) string {
	switch {
	case !quantity.Known(x):
		return dash
	case x < 0:
		return number(-x, 1) + " below"
	}
	return number(x, 1) + " above"
}

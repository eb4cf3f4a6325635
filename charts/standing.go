package charts

import (
	"html/template"
	"math"
	"slices"

	"brimlog/ingest/quantity"
	"brimlog/stats"
)

// readings say how a tank stands out: by shape, by word, and by what it means. They stand in the order of the marks in page/marks.js.
var readings = []struct{ reading, mark, word, tone, key, means string }{
	{"thirsty", "▼", "thirsty", "bad", "a tank that stands out as thirsty", "more than roads, weather and chance explain"},
	{"frugal", "▲", "frugal", "good", "a tank that stands out as frugal", "less than roads, weather and chance explain"},
	{"short_fill", "◒", "short fill", "open", "a short fill", "not quite to the brim; the next tank makes good for it"},
	{"over_fill", "◓", "over-fill", "open", "an over-fill", "past the usual brim; the next tank makes good for it"},
	{"entry_slip", "✕", "slip of the pen?", "open", "perhaps a slip of the pen", "too far off for driving: look at the entry"},
}

// slipOfThePen is the place among the readings of a tank whose figures say nothing of driving.
const slipOfThePen = 4

// readingOf is the place of a tank's reading among the readings; -1 where it is ordinary.
func readingOf(w *stats.WatchedTank) int {
	if w == nil || w.Reading == nil {
		return -1
	}
	for i, r := range readings {
		if r.reading == *w.Reading {
			return i
		}
	}
	return -1
}

func readingMark(i int) ruling {
	r := readings[i]
	return ruling{Mark: r.mark, Word: r.word, Tone: r.tone}
}

// A standing is a tank that stands out.
type standing struct {
	Number            int
	Dates             string
	Economy, Expected template.HTML
	Off               string // how far
	Mark              ruling
	Means             string
	Lines             string // in fills.csv
}

// standing lists the tanks that stand out, the newest first.
func (l *logbook) standing() (all []standing) {
	for i := len(l.tanks) - 1; i >= 0; i-- {
		t, w := l.tanks[i], l.tanks[i].watched
		r := readingOf(w)
		if r < 0 {
			continue
		}
		all = append(all, standing{
			Number: t.Number, Dates: stretch(t), Economy: l.economy(float64(w.LPer100Km)), Expected: l.economies(float64(w.ExpectedLow), float64(w.ExpectedHigh)),
			Off: scatters(float64(w.Score)), Mark: readingMark(r), Means: readings[r].means, Lines: lineRange(t.FromLine, t.ToLine),
		})
	}
	return all
}

// shapes are the marks of the tanks that stand out, each once with what it means, in the order of the readings.
func (l *logbook) shapes() (all []ruling) {
	for i := range readings {
		if slices.ContainsFunc(l.tanks, func(t tank) bool { return readingOf(t.watched) == i }) {
			m := readingMark(i)
			m.Word = readings[i].key
			all = append(all, m)
		}
	}
	return all
}

// scatters writes how far a tank lies off what was expected of it; which way, its reading says.
func scatters(deviations float64) string {
	if !quantity.Known(deviations) {
		return dash
	}
	return number(math.Abs(deviations), 1) + " times the scatter"
}

package charts

import (
	"math"

	"brimlog/ingest/quantity"
)

// Chances past which a level is surely above what is healthy, or surely below.
const (
	surelyAbove = 0.90
	likelyAbove = 0.75
	surelyBelow = 0.10
)

// changedRoundly is a change in whole percents: a range as wide as this one deserves no more.
func changedRoundly(pct float64) string {
	word := " more fuel"
	if pct < 0 {
		word = " less fuel"
	}
	return percent(math.Abs(pct), 0) + word
}

// normal answers whether what was measured is what such an engine needs.
func normal(l *logbook) (answer, bool) {
	e := l.Expect
	if e == nil || e.Refused != nil || !quantity.Known(float64(e.ExcessPct)) {
		return answer{}, false
	}
	excess, chance := float64(e.ExcessPct), float64(e.ChanceAboveHealthy)
	a := answer{
		Question: "Is this normal for the engine?",
		Mark:     ruling{Mark: "■", Tone: "even"},
		Sentence: say("Over the last ", newestTanks(e.Since.Tanks), " it used ", l.economy(float64(e.Measured.Mid)), "; healthy, it should return ", l.economy(float64(e.Healthy.Mid)), ", or ", l.reach(e.Healthy),
			" with what is not known of it, on the same roads in the same weather."),
		Sure: say("Chance that it takes more than it should: ", percent(100*chance, 0), "."),
	}
	switch {
	case e.Vague():
		a.Mark, a.Figure = ruling{Mark: "◇", Tone: "open"}, say("Hardly known yet")
		a.Sure = say("Its displacement and mass in vehicle.toml would tell far more. ", a.Sure)
	case chance >= surelyAbove:
		a.Mark, a.Figure = ruling{Mark: "▼", Tone: "bad"}, say("No: "+changedRoundly(excess)+" than it should")
	case chance >= likelyAbove:
		a.Mark, a.Figure = ruling{Mark: "▽", Tone: "bad"}, say("Perhaps not: "+changedRoundly(excess))
	case chance <= surelyBelow:
		a.Mark, a.Figure = ruling{Mark: "◇", Tone: "open"}, say("Better than most: "+changedRoundly(excess))
	default:
		a.Figure = say("Yes, within its range")
	}
	a.Rule = normalRule(e, markNamed(a.Mark.Mark))
	if len(e.Caution) > 0 {
		a.Mark, a.Sure = ruling{Mark: "▼", Tone: "bad"}, say("A reading calls for caution: see “What it should use”. ", a.Sure)
	}
	return a, true
}

// newestTanks goes on after "the last": "tank", "5 tanks".
func newestTanks(n int) string {
	if n == 1 {
		return "tank"
	}
	return count(n, "tank", "tanks")
}

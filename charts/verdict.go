package charts

import (
	"fmt"
	"html/template"
	"math"

	"brimlog/ingest/quantity"
)

// A ruling is how a verdict is shown: by shape, by word and by colour, each of them enough without the others.
type ruling struct {
	Mark string
	Word string
	Tone string // a class of the style sheet
}

// rulings stand in the order of the marks in page/marks.js.
var rulings = []struct{ verdict, mark, word, tone string }{
	{"less_fuel", "▲", "less fuel, proved", "good"},
	{"leaning_less", "△", "perhaps less fuel", "good"},
	{"no_change", "■", "no change", "even"},
	{"undecided", "◇", "can’t tell yet", "open"},
	{"leaning_more", "▽", "perhaps more fuel", "bad"},
	{"more_fuel", "▼", "more fuel, proved", "bad"},
	{"", "○", "nothing to compare with", "open"},
	{"measure", "●", "a measurement", "open"},
}

const measured = 7

// counted is how many tanks after a job its evidence is followed.
const counted = 40

// rulingOf is the place of a job's verdict in rulings.
func rulingOf(j job) int {
	if j.Kind == "measure" {
		return measured
	}
	if j.Verdict == nil {
		return rulingNamed("")
	}
	return rulingNamed(*j.Verdict)
}

func rulingNamed(verdict string) int {
	for i, r := range rulings {
		if r.verdict == verdict {
			return i
		}
	}
	return 6
}

// markNamed is the place of a mark in rulings.
func markNamed(mark string) int {
	for i, r := range rulings {
		if r.mark == mark {
			return i
		}
	}
	return 6
}

func (j job) ruling() ruling {
	i := rulingOf(j)
	r := rulings[i]
	return ruling{Mark: r.mark, Word: r.word, Tone: r.tone}
}

// headline is the verdict in a few words with its figure.
func (j job) headline() string {
	switch verdict := rulings[rulingOf(j)].verdict; verdict {
	case "less_fuel", "more_fuel":
		return changed(float64(j.ChangePct))
	case "leaning_less", "leaning_more":
		return "perhaps " + changed(float64(j.ChangePct))
	default:
		return rulings[rulingOf(j)].word
	}
}

// found is the headline for a list, where what is proved has to say so.
func (j job) found() string {
	if j.proved() {
		return j.headline() + ", proved"
	}
	return j.headline()
}

// finding is the verdict as a sentence.
func (j job) finding() string {
	mid, low, high := float64(j.ChangePct), float64(j.LowPct), float64(j.HighPct)
	small := ""
	if math.Abs(low) < 3 && math.Abs(high) < 3 {
		small = " A small change, but a real one."
	}
	switch rulings[rulingOf(j)].verdict {
	case "less_fuel":
		return "Yes: the same driving takes " + changed(mid) + " than just before it." + small
	case "more_fuel":
		return "It made things worse: the same driving takes " + changed(mid) + " than just before it." + small
	case "no_change":
		return "Whatever it did lies within 3" + fastened + "% either way: not worth the name of a change."
	case "leaning_less", "leaning_more":
		return "Perhaps: it looks like " + changed(mid) + ", but chance may still have done that."
	case "undecided":
		return sentence(whole(changes(low, high))) + " would all fit the log."
	case "measure":
		return "Something was measured and nothing was changed, so there is nothing to judge."
	}
	return "No answer: " + j.missing() + "."
}

// missing says which tanks a job without a verdict lacks.
func (j job) missing() string {
	switch {
	case j.TanksBefore == 0 && j.TanksAfter == 0:
		return "there is no whole tank before it and none since"
	case j.TanksBefore == 0:
		return "there is no whole tank before it to compare with"
	case j.TanksAfter == 0:
		return "there is no tank since it"
	}
	return "the tanks beside it can’t be compared"
}

// proved tells whether the job is proved to have changed something.
func (j job) proved() bool {
	v := rulings[rulingOf(j)].verdict
	return v == "less_fuel" || v == "more_fuel"
}

// settled tells whether more tanks could add anything.
func (j job) settled() bool {
	switch rulings[rulingOf(j)].verdict {
	case "leaning_less", "leaning_more", "undecided":
		return false
	}
	return true
}

// togo says how many more tanks it will take, and with what chances; nothing where the verdict is reached.
func (j job) togo(chances string) template.HTML {
	if j.settled() {
		return ""
	}
	if len(j.Path) >= counted {
		return say("The ", number(counted, 0), " tanks that are counted after a job have passed, so this is how it stays.")
	}
	if j.TanksToGo == nil {
		return say("Driving as of late, it would take more than two years to settle. Noting the trips narrows it sooner.")
	}
	return say("About ", count(*j.TanksToGo, "more tank like the recent ones", "more tanks like the recent ones"), " should settle it", chances, ".")
}

func (j job) chances() string {
	s := ""
	for _, c := range j.ChanceWithin {
		if !quantity.Known(float64(c.Chance)) {
			continue
		}
		if s != "" {
			s += ", "
		}
		s += fmt.Sprintf("within %d: %s", c.Tanks, percent(100*float64(c.Chance), 0))
	}
	if s == "" {
		return ""
	}
	return " (chance " + s + ")"
}

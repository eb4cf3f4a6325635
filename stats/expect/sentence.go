package expect

import (
	"fmt"
	"math"

	"brimlog/ingest/quantity"
)

// Chances past which a level counts as surely above what is healthy, or surely below.
const (
	surelyAbove = 0.9
	surelyBelow = 0.1
)

// Sentence is the answer in one sentence, in the unit u of economy: how far off, how sure, and how much of it the
// readings explain.
func (a Answer) Sentence(u quantity.Unit) string {
	excess, sure := float64(a.ExcessPct), float64(a.ChanceAboveHealthy)
	if !quantity.Known(excess) {
		low, high := a.Healthy.Low, a.Healthy.High
		if u.MoreIsBetter() {
			low, high = high, low
		}
		return fmt.Sprintf("Healthy, this engine should return %s %s, %s to %s with what is not known of it%s.",
			quantity.Format(float64(a.Healthy.Mid), u), a.where(), quantity.FormatNumber(float64(low), u), quantity.FormatNumber(float64(high), u), a.wouldCost())
	}
	if a.Vague() {
		low, high := a.Healthy.Low, a.Healthy.High
		if u.MoreIsBetter() {
			low, high = high, low
		}
		return fmt.Sprintf("What this engine should need is hardly known yet, anything from %s to %s %s; tell %s its displacement and mass before making anything of the %.0f %% %s.",
			quantity.FormatNumber(float64(low), u), quantity.FormatNumber(float64(high), u), u.Label(), "vehicle.toml", math.Abs(excess), moreOrLess(excess))
	}
	s := fmt.Sprintf("%.0f %% %s than this engine should need healthy %s", math.Abs(excess), moreOrLess(excess), a.where())
	switch {
	case math.Abs(excess) < nothing:
		return "As much as this engine should need healthy " + a.where() + a.explained(0) + "."
	case sure >= surelyAbove:
		return s + a.explained(excess) + "."
	case sure <= surelyBelow:
		return s + ": better than most of its kind, so doubt the figures before the engine" + a.explained(excess) + "."
	}
	return s + fmt.Sprintf(": within what its kind differs by (the chance that it takes more than it should is %.0f %%)", 100*sure) + a.explained(excess) + "."
}

// vague is the ratio of the ends of a healthy range from which it says nothing of one vehicle: as wide as where neither size
// nor weight is told.
const vague = 1.68

// Vague tells whether the healthy range is too wide to hold one vehicle against.
func (a Answer) Vague() bool { return float64(a.Healthy.High) > vague*float64(a.Healthy.Low) }

// nothing is a percentage that is written as 0.
const nothing = 0.5

func (a Answer) where() string {
	if a.Noted {
		return "on these roads in this weather"
	}
	return "on usual roads"
}

func moreOrLess(x float64) string {
	if x < 0 {
		return "less"
	}
	return "more"
}

// wouldCost says what the tune costs where nothing was measured at the pump to set it against.
func (a Answer) wouldCost() string {
	if tune := float64(a.TunePct); math.Abs(tune) >= nothing {
		what, _ := a.culprits()
		return fmt.Sprintf("; %s as measured should make it %.0f %% %s", what, math.Abs(tune), moreOrLess(tune))
	}
	return ""
}

// explained is what the readings account for. Where there is no excess there is nothing to explain: then it says what the
// pump should show and does not.
func (a Answer) explained(excess float64) string {
	tune := float64(a.TunePct)
	what, explains := a.culprits()
	switch {
	case math.Abs(tune) < nothing:
		return ""
	case tune < 0 && excess < nothing:
		return fmt.Sprintf("; %s as measured would save %.0f %%", what, -tune)
	case tune < 0:
		return fmt.Sprintf("; %s as measured would save %.0f %%, which explains none of it", what, -tune)
	case excess < nothing:
		return fmt.Sprintf("; %s as measured should cost %.0f %%, which the pump does not show", what, tune)
	case tune > 2*excess+5:
		return fmt.Sprintf("; %s as measured should cost %.0f %%, more than the pump shows", what, tune)
	case tune > 0.75*excess:
		return fmt.Sprintf("; %s as measured would cost %.0f %%, enough to explain it", what, tune)
	case float64(a.ChanceAboveTuned) > surelyAbove:
		return fmt.Sprintf("; %s as measured %s %.0f of that; something else is wrong as well", what, explains, tune)
	}
	return fmt.Sprintf("; %s as measured %s %.0f of that", what, explains, tune)
}

// culprits names the parts of the tune that count, with their verb: the cam explains, the cam and the mixture explain.
func (a Answer) culprits() (who, explains string) {
	var names []string
	for _, p := range a.Parts {
		if math.Abs(float64(p.FuelPct)) >= nothing {
			names = append(names, "the "+p.Name)
		}
	}
	switch len(names) {
	case 1:
		return names[0], "explains"
	case 2:
		return names[0] + " and " + names[1], "explain"
	}
	return "the tune", "explains"
}

package expect

import (
	"fmt"
	"strings"

	"brimlog/ingest/quantity"
)

// Chances past which a run counts as amiss, or as in order.
const (
	amiss   = 0.9
	inOrder = 0.75
)

// tellApart names where the fault lies.
func tellApart(coast, pull *TimedRun) (verdict, reason string) {
	var doubts []string
	for _, r := range []*TimedRun{coast, pull} {
		if r != nil && r.Doubt != "" {
			doubts = append(doubts, r.Doubt)
		}
	}
	if len(doubts) > 0 {
		return "undecided", strings.Join(doubts, "; ")
	}
	known := func(r *TimedRun) bool { return r != nil && quantity.Known(float64(r.Chance)) }
	if !known(coast) && !known(pull) {
		return "", ""
	}
	if !known(pull) && float64(coast.Chance) > amiss {
		return "undecided", dragging(coast) + ": something drags, whatever the engine does; feel for heat at the hubs, without touching them, before the next drive; a pull would tell whether the engine is amiss as well"
	}
	if !known(coast) || !known(pull) {
		return "undecided", "it takes both runs to tell chassis from engine: a coast-down and a pull"
	}
	c, p := float64(coast.Chance), float64(pull.Chance)
	drags := dragging(coast)
	weak := fmt.Sprintf("it pulls in %.1f s where %.1f s is healthy", float64(pull.Taken), float64(pull.Healthy.Mid))
	switch {
	case c > amiss && p > amiss:
		return "both", drags + "; " + weak + ", more than the drag accounts for"
	case c > amiss:
		return "chassis", drags + "; the pull is no weaker than that accounts for: brakes, bearings, tyres, oils before the engine"
	case p > amiss && c < inOrder:
		return "engine", weak + ", and it rolls freely: the engine, the clutch or the gearing"
	case c < inOrder && p < inOrder:
		return "neither", "it rolls and pulls as it should within what such runs can tell"
	}
	return "undecided", drags + "; " + weak + ": too near to call, repeat both runs"
}

// dragging tells of a coast-down beside the healthy one.
func dragging(r *TimedRun) string {
	return fmt.Sprintf("it coasts %.1f s where %.1f s is healthy (%.0f N more to drag along)", float64(r.Taken), float64(r.Healthy.Mid), float64(r.ExtraForce))
}

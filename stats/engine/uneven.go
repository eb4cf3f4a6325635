package engine

import (
	"fmt"
	"slices"
	"strings"
)

// Shares of the best cylinder's pressure below which another is weak, and all but dead (common practice: a tenth between them is
// in order, a quarter is a fault).
const (
	weakShare = 0.75
	deadShare = 0.50
)

// Uneven names the cylinders, counted in the order of the list, that stand far below the best of them: why such an engine should
// not be driven hard, and what it is a sign of. Both are nil where they are even.
func Uneven(bars []float64) (stop, notes []string) {
	if len(bars) < 2 {
		return nil, nil
	}
	best := slices.Max(bars)
	var weak, dead []int
	for i, bar := range bars {
		if bar < weakShare*best {
			weak = append(weak, i)
		}
		if bar < deadShare*best {
			dead = append(dead, i)
		}
	}
	if len(weak) == 0 {
		return nil, nil
	}
	if len(dead) > 0 {
		stop = append(stop, fmt.Sprintf("%s all but dead: a burnt valve, a broken ring, a blown gasket or worse; do not pull hard or drive far before it is found", named(dead, bars, best)))
	}
	sign := "a valve, a ring or the gasket there; oil in the plug hole raises it if it is the rings"
	if len(weak) == 2 && weak[1] == weak[0]+1 {
		sign = "two neighbours: the head gasket between them first"
	}
	notes = append(notes, fmt.Sprintf("%s far below the rest: %s; not the cam, which takes from all alike", named(weak, bars, best), sign))
	notes = append(notes, CrankingCaution())
	if len(dead) > 0 {
		notes = append(notes, "a cylinder as low as that is reckoned not to fire: what it draws goes out unburnt, and the others turn it")
	}
	return stop, notes
}

// named lists cylinders with their pressures: "cylinder 4 (3 bar of 11.2) is".
func named(which []int, bars []float64, best float64) string {
	var each []string
	for _, i := range which {
		each = append(each, fmt.Sprintf("%d (%g bar of %g)", i+1, bars[i], best))
	}
	if len(each) == 1 {
		return "cylinder " + each[0] + " is"
	}
	last := len(each) - 1
	return "cylinders " + strings.Join(each[:last], ", ") + " and " + each[last] + " are"
}

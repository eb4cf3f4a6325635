package engine

import (
	"math"
	"slices"
)

// surelyDead is the share of the best cylinder's pressure at which one no longer fires at all. Above deadShare it still does, if
// weakly, and between the two now and then (judged).
const surelyDead = 0.25

// misses is how often a cylinder of that pressure fails to fire, 0 to 1.
func misses(bar, best float64) float64 {
	if !(best > 0) { // nothing to tell one from another by
		return 0
	}
	return 1 - between(bar/best, surelyDead, deadShare)
}

// DeadFromBar is the share of the cylinders that do not fire, from what a gauge showed of each.
func DeadFromBar(cylinders []float64) float64 {
	if len(cylinders) == 0 {
		return 0
	}
	best, sum := slices.Max(cylinders), 0.0
	for _, bar := range cylinders {
		sum += misses(bar, best)
	}
	return sum / float64(len(cylinders))
}

// dragging is the cycle of an engine in which so large a share of the cylinders is turned by the others: what those draw goes out
// unburnt, and what they take to turn must come from the rest.
func (c Cycle) dragging(share float64, dead Cycle) Cycle {
	mean := func(fires, dead float64) float64 { return (1-share)*fires + share*dead }
	c.IMEP, c.BMEP = mean(c.IMEP, dead.IMEP), mean(c.BMEP, dead.BMEP)
	c.FuelKg, c.Filling = mean(c.FuelKg, dead.FuelKg), mean(c.Filling, dead.Filling)
	c.Balance = Balance{worse(c.Balance.MassPct, dead.Balance.MassPct), worse(c.Balance.EnergyPct, dead.Balance.EnergyPct)}
	return c
}

func worse(a, b float64) float64 {
	if math.Abs(a) > math.Abs(b) {
		return a
	}
	return b
}

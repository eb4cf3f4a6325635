package stats

import (
	"math"

	"brimlog/ingest/quantity"
)

// HealthyLevel is what the vehicle as it is now should return when healthy, in L/100 km on the log's usual roads in an average
// season, 80 %: on the footing of the tanks' levels, so that the two can be held against each other. Expect answers for
// the roads and the weather of the measured tanks; what those took beyond the usual is what they were measured at over their level.
// Unknown where there is no expected range.
func (r *Review) HealthyLevel() Range {
	unknown := Figure(quantity.Unknown)
	e, n := r.Expect, len(r.Tanks)
	if e == nil || e.Refused != nil || n == 0 {
		return Range{Low: unknown, Mid: unknown, High: unknown}
	}
	usual := float64(r.Tanks[n-1].Level.Mid) / float64(e.Measured.Mid)
	if !quantity.Known(usual) || math.IsInf(usual, 0) {
		usual = 1 // nothing measured: the answer is for the roads of the whole log
	}
	at := func(x Figure) Figure { return Figure(float64(x) * usual) }
	return Range{Low: at(e.Healthy.Low), Mid: at(e.Healthy.Mid), High: at(e.Healthy.High)}
}

package expect

import (
	"fmt"

	"brimlog/ingest/quantity"
)

// Past these a time is no measure of the vehicle (judged): so many deviations better than healthy, or so many times worse.
const (
	tooGood      = 3.5
	tooShortFold = 4.0 // coasting: drag that would have the brakes smoking
	tooLongFold  = 4.0 // pulling: a lower gear or a lifted foot rather than a tired engine
)

// question says why a time can't be right; then nothing is concluded from it.
func (r *TimedRun) question(why string) {
	if why != "" {
		r.Doubt, r.Chance, r.ExtraForce = why, quantity.Figure(quantity.Unknown), quantity.Figure(quantity.Unknown)
	}
}

func coastDoubts(r TimedRun, healthy []float64) string {
	taken, mid := float64(r.Taken), float64(r.Healthy.Mid)
	switch {
	case departure(healthy, taken) > tooGood:
		return fmt.Sprintf("it is said to coast %.1f s where %.1f s is healthy, longer than any such vehicle rolls on the level: downhill, downwind, or the speeds or the watch misread; time it again, both ways", taken, mid)
	case taken < mid/tooShortFold:
		return fmt.Sprintf("it is said to coast %.1f s where %.1f s is healthy, as short as with the brakes on: in gear, or the speeds or the watch misread; feel for hot hubs first, then time it again", taken, mid)
	}
	return ""
}

func pullDoubts(r TimedRun, healthy []float64) string {
	taken, mid := float64(r.Taken), float64(r.Healthy.Mid)
	switch {
	case departure(healthy, taken) < -tooGood:
		return fmt.Sprintf("it is said to pull in %.1f s where %.1f s is healthy, faster than such an engine can in top gear: a lower gear, downhill, or the speeds or the watch misread; time it again, both ways", taken, mid)
	case taken > mid*tooLongFold:
		return fmt.Sprintf("it is said to pull in %.1f s where %.1f s is healthy, slower than any engine that is worth a drive: the throttle not open, uphill, or the speeds or the watch misread; time it again, both ways", taken, mid)
	}
	return ""
}

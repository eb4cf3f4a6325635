package expect

import (
	"fmt"
	"math"

	"brimlog/ingest/quantity"
	"brimlog/stats/engine"
)

// A Correction is true distance over shown distance: the reading odometer_correction.
type Correction struct {
	Factor float64
	Sd     float64
	Why    string
}

// Reading is the correction as work.csv takes it.
func (c Correction) Reading() string { return fmt.Sprintf("odometer_correction=%.3f", c.Factor) }

// ReadsTooHighPct is by how much consumption reckoned on the shown distance is wrong, in percent: + = it reads too high.
func (c Correction) ReadsTooHighPct() float64 { return 100 * (c.Factor - 1) }

// ForTyres is the correction once tyres of another size are fitted than the instrument was made for. It holds for
// readings from that job on; before is the instrument's own correction on the original size, Unknown = 1. The error is an
// *engine.BoundError.
func ForTyres(original, now Tyre, before float64) (Correction, error) {
	own := quantity.Or(before, 1)
	f := own * now.Circumference() / original.Circumference()
	for _, err := range []error{
		engine.Within("the correction before", own, leastCorrection, mostCorrection, ""),
		engine.Within("odometer_correction", f, leastCorrection, mostCorrection, ""),
	} {
		if err != nil {
			return Correction{}, err
		}
	}
	return Correction{f, f * math.Hypot(original.Sd, now.Sd), fmt.Sprintf("%s rolls %.3f m a turn, %s %.3f m", now.Code, now.Circumference(), original.Code, original.Circumference())}, nil
}

// Past these it is no correction but a slip, or miles for kilometres.
const (
	leastCorrection = 0.5
	mostCorrection  = 2.0
)

// postKm is how well a distance post or satellite position is passed, and markKm how well the instrument is read, as
// half-widths in km.
const (
	postKm = 0.010
	markKm = 0.050
)

// ForMeasured is the correction from a distance known to be true, between posts or by satellite. The longer it is, the
// better: over 1 km it is worth 4 %, over 20 km 0.2 %. The error is an *engine.BoundError.
func ForMeasured(trueKm, shownKm float64) (Correction, error) {
	f := trueKm / shownKm
	checks := []error{
		engine.Within("true distance", trueKm, 0.1, 5000, "km"),
		engine.Within("shown distance", shownKm, 0.1, 5000, "km"),
		engine.Within("odometer_correction", f, leastCorrection, mostCorrection, ""),
	}
	for _, err := range checks {
		if err != nil {
			return Correction{}, err
		}
	}
	// both ends of each, rectangular (JCGM 100:2008)
	sd := f * math.Sqrt(2.0/3) * math.Hypot(postKm/trueKm, markKm/shownKm)
	return Correction{f, sd, fmt.Sprintf("%g km true, %g km shown", trueKm, shownKm)}, nil
}

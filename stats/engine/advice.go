package engine

import (
	"fmt"
	"math"

	"brimlog/ingest/quantity"
)

// Limits of a phase error, in crank degrees (common practice).
const (
	acceptable = 2.0
	lookAgain  = 4.0
)

func verdict(phase float64) string {
	switch off := math.Abs(phase); {
	case off <= acceptable:
		return "good"
	case off <= lookAgain:
		return "fair"
	}
	return "out"
}

// turn says which way to turn the cam against the crank, and what that leaves.
func (q CamQuestion) turn(phase, whole, left float64) string {
	if math.Abs(phase) <= acceptable {
		return "leave it: within 2 crank degrees of its card"
	}
	where, way := "late", "on, the way it runs,"
	if phase > 0 {
		where, way = "early", "back, against the way it runs,"
	}
	by := fmt.Sprintf("%.1f cam degrees", math.Abs(phase)/2)
	s := fmt.Sprintf("the cam is %s: set it %s by %s relative to the crank", where, way, by)
	if quantity.Known(whole) {
		s = fmt.Sprintf("the cam is %s: set it %s by %s", where, way, inTeeth(phase, whole, left, by))
	}
	if q.Drive == Gears {
		s += "; between two gears the cam runs against the crank"
	}
	return s
}

// inTeeth puts a turn into whole teeth where those bring it nearer.
func inTeeth(phase, whole, left float64, by string) string {
	if whole == 0 || math.Abs(left) >= math.Abs(phase) {
		return by + " relative to the crank: no whole tooth brings it nearer, so by an offset key or dowel, or a slotted sprocket"
	}
	s := fmt.Sprintf("%.0f %s relative to the crank", math.Abs(whole), plural("tooth", "teeth", whole))
	switch {
	case math.Abs(left) < 0.05:
		return s + ", which puts it right"
	case math.Abs(left) <= acceptable:
		return s + fmt.Sprintf(", which leaves it %.1f crank degrees %s: within the limit", math.Abs(left), lateOrEarly(left))
	}
	return s + fmt.Sprintf(", which leaves it %.1f crank degrees %s: the rest by an offset key or dowel, or a slotted sprocket", math.Abs(left), lateOrEarly(left))
}

func plural(one, many string, n float64) string {
	if math.Abs(n) == 1 {
		return one
	}
	return many
}

// notes say what limits the answer and what else moved.
func (q CamQuestion) notes(phase, sd float64, in, ex Centreline) []string {
	notes := []string{}
	note := func(when bool, format string, args ...any) {
		if when {
			notes = append(notes, fmt.Sprintf(format, args...))
		}
	}
	off := math.Abs(phase)
	tooth := ToothCrank(q.Card.SprocketTeeth)
	byExhaust := q.byExhaust(ex.Deg)
	note(!q.Card.Known(), "without the card's four events there is nothing to set a reading against")
	note(off > lookAgain && in.Repeats+ex.Repeats > 0, "more than 4 degrees out: find top centre again with the piston stop and read once more before anything is undone")
	note(in.Repeats == 1 || in.Repeats == 0 && ex.Repeats == 1, "one reading only: three would tell its scatter")
	scatter := math.Max(quantity.Or(in.Scatter, 0), quantity.Or(ex.Scatter, 0))
	note(scatter > 2, "the repeats scatter by %.1f degrees: a slack chain, a follower that sticks, or the wheel slipped", scatter)
	notes = append(notes, q.flanksApart("intake", q.Intake, q.Card.IntakeDuration())...)
	notes = append(notes, q.flanksApart("exhaust", q.Exhaust, q.Card.ExhaustDuration())...)
	note(in.Repeats > 0 && ex.Repeats > 0 && math.Abs(byExhaust-phase) > 3*math.Hypot(in.Sd, ex.Sd)/math.Sqrt2,
		"the exhaust lobe gives %+.1f degrees where the intake gives %+.1f: a worn lobe, another grind, or a slip in reading", byExhaust, phase)
	note(off > lookAgain && off < tooth/2, "less than half a tooth (a tooth is %.0f crank degrees): key, dowel, slack chain or a skimmed head rather than a jumped tooth", tooth)
	note(quantity.Known(sd) && off > acceptable && off < 1.645*sd+acceptable, "the reading is good to %.1f degrees (one in ten lies outside), so it may still be within the limit", 1.645*sd)
	return append(notes, q.sparkNotes(phase)...)
}

// byExhaust is the phase error that the exhaust lobe's centreline alone gives.
func (q CamQuestion) byExhaust(centreline float64) float64 {
	return centreline - q.Card.ExhaustCentreline()
}

// LobesDisagree tells whether the exhaust lobe, where both were read, says something else than the answer by more than any reading is out:
// then nothing is to be moved by either. ByExhaust is what it says.
func (q CamQuestion) LobesDisagree(a CamAnswer) (byExhaust float64, disagree bool) {
	byExhaust = q.byExhaust(float64(a.MeasuredExhaustCentreline))
	return byExhaust, quantity.Known(float64(a.MeasuredIntakeCentreline)) && math.Abs(byExhaust-float64(a.PhaseErrorCrankDeg)) > lookAgain
}

// sparkNotes say what the cam did to the ignition.
func (q CamQuestion) sparkNotes(phase float64) []string {
	off := math.Abs(phase)
	switch {
	case !(off > acceptable):
		return nil
	case q.Ignition == IgnitionReset:
		return []string{"the ignition was set with the cam as it stands: set it once more after the cam is put right, or it will be as far off the other way"}
	case q.Ignition == IgnitionMoved:
		return []string{fmt.Sprintf("the ignition stands %.0f crank degrees %s too, since the distributor turns with the cam; set it once more after the cam is put right", off, lateOrEarly(phase))}
	}
	return []string{fmt.Sprintf("where the distributor turns with the cam the ignition stands %.0f crank degrees %s too, unless it was set again since: a timing light tells; set it once more after the cam is put right", off, lateOrEarly(phase)), LightCaution()}
}

func lateOrEarly(phase float64) string {
	if phase < 0 {
		return "late"
	}
	return "early"
}

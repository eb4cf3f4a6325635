package main

import (
	"fmt"
	"math"

	"brimlog/ingest/quantity"
	"brimlog/stats"
	"brimlog/stats/engine"
)

// cam tells where the cam stands: the answer, what follows from it, the card beside the engine, and how to read it safely.
func (s *sheet) cam(q engine.CamQuestion, doc camDocument) {
	s.answer("%s", camSentence(q, doc.CamAnswer))
	for _, why := range doc.Stop {
		s.point("CAUTION: %s", why)
	}
	if quantity.Known(float64(doc.PhaseErrorCrankDeg)) {
		s.point("%s", doc.Turn)
	}
	if sd := float64(doc.PhaseErrorSd); quantity.Known(sd) {
		s.point("%s, good to %.1f crank degrees (nine of ten such readings lie within %.1f)", counted(doc.Repeats, "round"), sd, 1.645*sd)
	}
	if scatter := float64(doc.ScatterDeg); quantity.Known(scatter) {
		s.point("the rounds scatter by %.1f degrees", scatter)
	}
	for _, n := range doc.Notes {
		s.point("%s", n)
	}
	s.wrote(doc.Written)
	if q.Card.Known() {
		s.gap()
		s.camTable(q.Card, doc.CamAnswer)
	}
	if teeth := q.Card.SprocketTeeth; quantity.Known(teeth) {
		s.gap()
		s.say("A tooth of %g is %s cam degrees, %s at the crank.", teeth, short(doc.DegreesPerToothCam), short(doc.DegreesPerToothCrank))
	}
	s.gap()
	s.say("To read it: find top centre with a piston stop, the wheel on the crank; turn the way the engine runs to the chosen lift going up, read, on over the nose to the same lift coming down, read again. The middle of the two is the centreline. Do it three times.")
	for _, c := range doc.Caution {
		s.point("%s", c)
	}
}

func camSentence(q engine.CamQuestion, c engine.CamAnswer) string {
	phase := float64(c.PhaseErrorCrankDeg)
	switch {
	case !quantity.Known(phase) && q.Card.Known():
		return "No reading yet, so no phase error: this is the card alone."
	case !quantity.Known(phase):
		return "Nothing to set the cam against yet: give its card, or the sprocket's teeth and offset."
	}
	if by, disagree := q.LobesDisagree(c); disagree {
		return fmt.Sprintf("The lobes disagree: by the intake the cam stands %+.1f crank degrees against its card, by the exhaust %+.1f. One was misread, or is not the card's.", phase, by)
	}
	if phase == 0 {
		return "The cam stands just as its card has it."
	}
	s := fmt.Sprintf("The cam stands %.1f crank degrees %s against its card", math.Abs(phase), lateOrEarly(phase))
	if c.Verdict == "good" {
		return s + ": within the 2 that are as good as any."
	}
	if whole, left := float64(c.NearestTeeth), math.Abs(float64(c.ResidualCrankDeg)); quantity.Known(whole) {
		s += fmt.Sprintf(": %s of %g", teethOut(math.Abs(whole)), q.Card.SprocketTeeth)
		switch {
		case whole == 0:
			s += ", less than half of one"
		case left < 0.05:
			s += ", nothing over"
		case math.Signbit(float64(c.ResidualCrankDeg)) == math.Signbit(phase):
			s += fmt.Sprintf(" and %.1f degrees over", left)
		default:
			s += fmt.Sprintf(" less %.1f degrees", left)
		}
	}
	return s + "."
}

func teethOut(n float64) string {
	switch n {
	case 0:
		return "no whole tooth"
	case 1:
		return "one tooth"
	}
	return fmt.Sprintf("%.0f teeth", n)
}

func lateOrEarly(phase float64) string {
	if phase < 0 {
		return "late"
	}
	return "early"
}

// camTable sets the card beside the engine as it stands.
func (s *sheet) camTable(card engine.Card, c engine.CamAnswer) {
	now := card.Moved(float64(c.PhaseErrorCrankDeg)) // unknown throughout without a phase
	row := func(what string, of func(engine.Card) float64) []string {
		return []string{what, short(stats.Figure(of(card))), short(stats.Figure(of(now)))}
	}
	s.table([]string{"degrees ", "card", "as it stands"}, [][]string{
		row("intake opens before top centre", func(c engine.Card) float64 { return c.IntakeOpensBTDC }),
		row("intake closes after bottom centre", func(c engine.Card) float64 { return c.IntakeClosesABDC }),
		row("exhaust opens before bottom centre", func(c engine.Card) float64 { return c.ExhaustOpensBBDC }),
		row("exhaust closes after top centre", func(c engine.Card) float64 { return c.ExhaustClosesATDC }),
		row("intake centreline after top centre", engine.Card.IntakeCentreline),
		row("exhaust centreline before top centre", engine.Card.ExhaustCentreline),
		row("intake duration", engine.Card.IntakeDuration),
		row("exhaust duration", engine.Card.ExhaustDuration),
		row("overlap", engine.Card.Overlap),
		row("lobe separation, cam degrees", engine.Card.LobeSeparation),
		row("advance against straight-up", engine.Card.Advance),
	})
}

// short writes a figure with no more decimals than it needs, one at most.
func short(f stats.Figure) string {
	if x := float64(f); quantity.Known(x) && math.Abs(x-math.Round(x)) < 0.05 {
		return number(stats.Figure(math.Round(x)), 0)
	}
	return number(f, 1)
}

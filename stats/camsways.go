package stats

import (
	"brimlog/ingest/book"
	"brimlog/stats/suspect"
)

// anotherCam is by how many crank degrees of intake duration a card must differ for another character (common practice: grinds of
// one family are sold in steps of eight to ten).
const anotherCam = 8

// restlessFrom is the overlap, crank degrees, from which no engine idles evenly (common practice).
const restlessFrom = 50

// asFitted leaves out a trace of what the camshaft brings by itself: a shorter one than the vehicle's first gives up a little at
// the top, a longer one idles unevenly and is a little soft from low revs, and so does any with a long overlap at idle. More
// than a trace is no cam's way.
func (g ground) asFitted(e *suspect.Evidence, n *notes) {
	was, now := g.log.Vehicle.Engine.Cam, g.log.Vehicle.After(done(g.log)).Engine.Cam
	longer := intake(now) - intake(was)
	leaveOut := func(kind string, symptoms ...book.Symptom) {
		for _, k := range symptoms {
			if e.Grades[k].Counts() == book.Trace {
				e.Grades[k] = suspect.Judged{}
				n.say("a trace of %s is as a %s camshaft has it, and is not counted", symptomNames[k], kind)
			}
		}
	}
	switch {
	case longer <= -anotherCam:
		leaveOut("milder", book.WeakHigh)
	case longer >= anotherCam:
		leaveOut("livelier", book.RoughIdle, book.WeakLow)
	case now.IntakeOpensBTDC+now.ExhaustClosesATDC >= restlessFrom:
		leaveOut("lively", book.RoughIdle)
	}
}

// intake is how long the card keeps the intake valve open, crank degrees; unknown where it does not say.
func intake(c book.Cam) float64 { return c.IntakeOpensBTDC + 180 + c.IntakeClosesABDC }

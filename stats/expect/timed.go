package expect

import (
	"math"

	"brimlog/ingest/book"
	"brimlog/ingest/quantity"
	"brimlog/stats/engine"
)

// A Timing is a timed coast-down or pull between two speeds, both directions averaged.
type Timing struct {
	FromKmh, ToKmh float64
	Seconds        float64
	Repeat         float64 // the owner's own scatter, a share of the time; Unknown = the usual 3 %
	Healthy        float64 // s that it took while healthy, in the same weather; Unknown = nobody timed it
}

// usualRepeat is how well two such times agree with each other (common practice).
const usualRepeat = 0.03

// A TimedQuestion is what bears on a coast-down and a pull; either may be missing.
type TimedQuestion struct {
	Vehicle     book.Vehicle
	Roads       Roads // for air, load and height
	Tune        engine.Tune
	Coast, Pull *Timing
}

// A TimedAnswer sets the times beside what they should be.
type TimedAnswer struct {
	Coast   *TimedRun `json:"coast"`
	Pull    *TimedRun `json:"pull"`
	Verdict string    `json:"verdict"` // chassis, engine, both, neither, undecided; empty where nothing was timed
	Reason  string    `json:"reason"`
	Caution []string  `json:"caution"`
}

// A TimedRun is one of them. Seconds; low and high hold 80 % and have the owner's own scatter in them.
type TimedRun struct {
	FromKmh    float64         `json:"from_kmh"`
	ToKmh      float64         `json:"to_kmh"`
	Healthy    Range           `json:"healthy_s"`
	AsTuned    Range           `json:"as_tuned_s"`
	Taken      quantity.Figure `json:"taken_s"`
	ExtraForce quantity.Figure `json:"extra_force_n"` // coast: what holds it back beyond healthy
	Chance     quantity.Figure `json:"chance_amiss"`  // that it coasts too short, or pulls too long
}

// Answer reckons what both runs should take. The error is an *engine.BoundError.
func (q TimedQuestion) Answer() (TimedAnswer, error) {
	car, err := newCar(q.Vehicle)
	if err != nil {
		return TimedAnswer{}, err
	}
	if err := checkRoads(q.Roads); err != nil {
		return TimedAnswer{}, err
	}
	for _, t := range []*Timing{q.Coast, q.Pull} {
		if err := t.check(); err != nil {
			return TimedAnswer{}, err
		}
	}
	tuned, err := compareTunes(q.Vehicle.Engine, q.Tune)
	if err != nil {
		return TimedAnswer{}, err
	}
	road := car.testRoad(q.Roads)
	a := TimedAnswer{Caution: engine.RoadCautions}
	extra := 0.0
	if q.Coast != nil {
		a.Coast = road.coasted(*q.Coast)
		extra = quantity.Or(float64(a.Coast.ExtraForce), 0)
	}
	if q.Pull != nil {
		a.Pull = road.pulled(*q.Pull, tuned, extra)
	}
	a.Verdict, a.Reason = tellApart(a.Coast, a.Pull)
	return a, nil
}

func (t *Timing) check() error {
	if t == nil {
		return nil
	}
	checks := []error{
		engine.Within("speed", t.FromKmh, 5, 200, "km/h"), engine.Within("speed", t.ToKmh, 5, 200, "km/h"),
		engine.Within("seconds", t.Seconds, 0.5, 600, "s"), engine.Within("seconds", t.Healthy, 0.5, 600, "s"),
		engine.Within("repeatability", t.Repeat, 0, 0.5, ""),
		engine.Within("speeds apart", math.Abs(t.FromKmh-t.ToKmh), 5, 200, "km/h"),
	}
	for _, err := range checks {
		if err != nil {
			return err
		}
	}
	return nil
}

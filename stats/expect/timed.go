package expect

import (
	"math"

	"brimlog/ingest/quantity"
	"brimlog/stats/engine"
)

// A Timing is a timed coast-down or pull between two speeds, both directions averaged.
type Timing struct {
	FromKmh, ToKmh float64
	Seconds        float64 // Unknown = not driven yet: what should it take?
	Repeat         float64 // the owner's own scatter, a share of the time; Unknown = the usual 3 %
	Healthy        float64 // s that it took while healthy, in the same weather; Unknown = nobody timed it
	AirC           float64 // on that day; Unknown = as on the roads
}

// UsualRepeat is how well two such times agree with each other (common practice), as a share.
const UsualRepeat = 0.03

// NewTiming is a run of which no more is known. Unknown seconds ask what it should take.
func NewTiming(fromKmh, toKmh, seconds float64) Timing {
	u := quantity.Unknown
	return Timing{FromKmh: fromKmh, ToKmh: toKmh, Seconds: seconds, Repeat: u, Healthy: u, AirC: u}
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
	Chance     quantity.Figure `json:"chance_amiss"`  // that it coasts too short, or pulls too long; null where the time is in doubt
	Doubt      string          `json:"doubt"`         // why the time can't be right; empty = it can
}

// timed reckons both runs with what the cycle model has made of the tune.
func (c car) timed(r Roads, tuned tunes, coast, pull *Timing) TimedAnswer {
	a := TimedAnswer{Caution: engine.RoadCautions}
	extra := 0.0
	if coast != nil {
		a.Coast = c.testRoad(coast.on(r)).coasted(*coast)
		extra = quantity.Or(float64(a.Coast.ExtraForce), 0)
	}
	if pull != nil {
		a.Pull = c.testRoad(pull.on(r)).pulled(*pull, tuned, extra)
	}
	a.Verdict, a.Reason = tellApart(a.Coast, a.Pull)
	return a
}

// on is the road of the run: without a load, in that day's air.
func (t Timing) on(r Roads) Roads {
	r.LoadKg, r.TowKg, r.AirC = quantity.Unknown, quantity.Unknown, quantity.Or(t.AirC, r.AirC)
	return r
}

func checkTimings(all ...*Timing) error {
	for _, t := range all {
		if err := t.Check(); err != nil {
			return err
		}
	}
	return nil
}

// Check refuses runs that nobody drives. The error is an *engine.BoundError.
func (t *Timing) Check() error {
	if t == nil {
		return nil
	}
	checks := []error{
		engine.Within("speed", t.FromKmh, 5, 200, "km/h"), engine.Within("speed", t.ToKmh, 5, 200, "km/h"),
		engine.Within("seconds", t.Seconds, 0.5, 600, "s"), engine.Within("seconds", t.Healthy, 0.5, 600, "s"),
		engine.Within("air_c", t.AirC, -50, 60, "degrees C"), engine.Within("repeatability", t.Repeat, 0, 0.5, ""),
		engine.Within("speeds apart", math.Abs(t.FromKmh-t.ToKmh), 5, 200, "km/h"),
	}
	for _, err := range checks {
		if err != nil {
			return err
		}
	}
	return nil
}

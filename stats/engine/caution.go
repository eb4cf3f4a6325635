package engine

import (
	"math"
	"strings"

	"brimlog/ingest/quantity"
)

// Cautions stand wherever a reading is asked for. The maker's handbook comes before all of them.
var (
	// WheelCautions go with the degree wheel.
	WheelCautions = []string{
		"ignition off, key out, battery earth lead off, out of gear, wheels chocked",
		"all plugs out, so that the crank turns by hand and nothing springs back",
		"turn by hand on the crank bolt only, the way the engine runs, and take up the slack; never turn it by the cam",
		"stop at any hard stop: a valve may be on a piston; turn back a little and find out why before going on",
		"take the piston stop out before anything but a hand turns the engine",
		"the maker's handbook overrules this page, above all for tightening and for engines whose valves meet the pistons",
	}
	// StarterCautions go with a compression test.
	StarterCautions = []string{
		"ignition disabled at its feed, never by an open plug lead; no fuel vapour near a spark",
		"out of gear, brake on, hands, hair and clothes clear of belts and fan",
		"injection: take the pump's fuse out first",
	}
	// RunningCautions go with every reading taken from a running engine.
	RunningCautions = []string{
		"outdoors only: carbon monoxide kills without a smell",
		"hands, leads, hair and clothes clear of fan and belts; do not stand in line with the fan",
		"out of gear, brake on, wheels chocked; exhaust and coolant are hot, never open a hot cooling system",
	}
	// RoadCautions go with a timed coast-down or pull.
	RoadCautions = []string{
		"only on a level, straight, empty road where the speeds are legal, dry and without wind; a passenger reads the watch",
		"coast out of gear with the ignition on: switched off, steering lock and brake servo are lost",
		"both directions, at least twice; give up the run for any other road user",
		"brakes, tyres and steering must be sound first",
	}
)

// LightCaution is how a timing light is used safely, in one note for where an answer asks for it.
func LightCaution() string {
	return "with the timing light: " + strings.Join(RunningCautions, "; ") + "; the maker's handbook comes first"
}

// CrankingCaution is the same of the compression gauge.
func CrankingCaution() string {
	return "with the compression gauge: " + strings.Join(StarterCautions, "; ") + "; the maker's handbook comes first"
}

// Stop tells why an engine in this state of tune should not be driven on, or nil: readings past which it soon breaks
// (common practice).
func (t Tune) Stop() []string {
	var why []string
	when := func(bad bool, what string) {
		if bad {
			why = append(why, what)
		}
	}
	spark, whether := t.IgnitionError(), ""
	if spark != 0 && !quantity.Known(t.IgnitionDeg) {
		whether = "where the distributor turns with the cam and was not set again since, "
	}
	if math.Abs(t.CamPhaseDeg) >= 24 { // and until that is right nothing else matters
		return []string{"the cam is so far out that valves may meet pistons: do not start it; turn it by hand and stop at any hard stop"}
	}
	when(spark >= 8, whether+"the spark is far too early: it knocks under load, and a knocking engine burns its pistons; do not pull hard before it is set")
	when(spark <= -15, whether+"the spark is far too late: exhaust, manifold and valves overheat; do not drive far or fast before it is set")
	when(t.Lambda >= 1.2, "so weak a mixture misfires and runs hot under load: do not pull hard before the cause is found")
	when(t.Lambda <= 0.75 || t.LambdaIdle <= 0.75, "so rich a mixture washes the oil off the cylinders and fills a garage with carbon monoxide: run it outdoors only")
	return why
}

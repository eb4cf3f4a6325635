package stats

import (
	"math"

	"brimlog/ingest/book"
	"brimlog/ingest/quantity"
	"brimlog/ingest/tank"
	"brimlog/stats/engine"
	"brimlog/stats/expect"
)

// costsByModel is what the causes that were read off the engine cost on it, by the cycle model.
func costsByModel(l *tank.Log, v book.Vehicle, parts []expect.Part) map[string]float64 {
	costs := map[string]float64{}
	tune := readTune(l)
	for _, p := range parts {
		cause := ""
		switch p.Name {
		case "ignition":
			if h, ok := tune.ignition(); ok {
				cause = earlyOrLate(h.values[0], "ign_advanced", "ign_retarded")
			}
		case "cam":
			if h, ok := tune.readings["cam_phase_deg"]; ok {
				cause = camCause(h.values[0], v.Engine.Cam.SprocketTeeth)
			}
		}
		if cause != "" && quantity.Known(float64(p.FuelPct)) {
			costs[cause] = float64(p.FuelPct)
		}
	}
	return costs
}

func earlyOrLate(degrees float64, early, late string) string {
	if degrees > 0 {
		return early
	}
	return late
}

// camCause is the cause that such a phase error is, by whole teeth of the cam's sprocket.
func camCause(degrees, sprocket float64) string {
	switch teeth := math.Round(math.Abs(degrees) / engine.ToothCrank(quantity.Or(sprocket, usualSprocket))); {
	case teeth == 1:
		return earlyOrLate(degrees, "cam_advanced_1t", "cam_retarded_1t")
	case teeth == 2 && degrees < 0:
		return "cam_retarded_2t"
	case teeth == 0 && degrees < 0:
		return "chain_stretch"
	}
	return ""
}

// usualSprocket is the teeth of a cam sprocket that nobody has counted (common practice).
const usualSprocket = 40

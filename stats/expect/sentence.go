package expect

import (
	"fmt"
	"math"

	"brimlog/ingest/quantity"
)

// Sentence is the answer in one sentence or two: how far off, how sure, and how much of it the readings explain.
func (a Answer) Sentence() string {
	excess, sure := float64(a.ExcessPct), float64(a.ChanceAboveHealthy)
	if !quantity.Known(excess) {
		return fmt.Sprintf("Healthy, this engine should need %.1f L/100 km on these roads in this weather, %.1f to %.1f with what is not known of it.",
			a.Healthy.Mid, a.Healthy.Low, a.Healthy.High)
	}
	way := "more"
	if excess < 0 {
		way = "less"
	}
	s := fmt.Sprintf("%.0f %% %s than this engine should need healthy on these roads in this weather", math.Abs(excess), way)
	switch {
	case sure >= 0.9:
		return s + a.explained(excess) + "."
	case sure <= 0.1:
		return s + ": better than most of its kind, so doubt the figures before the engine."
	}
	return s + fmt.Sprintf(": within what its kind differs by (the chance that it takes more than it should is %.0f %%)", 100*sure) + a.explained(excess) + "."
}

// explained is what the readings account for.
func (a Answer) explained(excess float64) string {
	tune := float64(a.TunePct)
	switch {
	case math.Abs(tune) < 0.5:
		return ""
	case tune < 0:
		return fmt.Sprintf("; the tune as measured would save %.0f, so it explains none of it", -tune)
	case tune > 0.75*excess && excess > 0:
		return fmt.Sprintf("; the tune as measured would cost %.0f, enough to explain it", tune)
	case float64(a.Measured.Low) > float64(a.AsTuned.High):
		return fmt.Sprintf("; the tune as measured explains %.0f of that, and something else is wrong as well", tune)
	}
	return fmt.Sprintf("; the tune as measured explains %.0f of that", tune)
}

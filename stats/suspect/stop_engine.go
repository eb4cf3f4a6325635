package suspect

import (
	"slices"
	"strings"

	"brimlog/ingest/quantity"
	"brimlog/stats/engine"
)

// A warning is what a reading by itself warns of.
type warning struct{ sign, text string }

// warnings are of the readings past which an engine soon breaks, each by itself: a cam that was read early says nothing of
// a spark that nobody has read, so the distributor is not supposed to have gone with it.
func warnings(e Evidence) (all []warning) {
	e.Readings = slices.Concat(e.Standing, e.Readings)
	u := quantity.Unknown
	read := func(names ...string) float64 {
		for _, name := range names {
			if x, ok := value(e.Readings, name); ok {
				return x
			}
		}
		return u
	}
	sound := engine.Tune{CamPhaseDeg: u, IgnitionDeg: u, Lambda: u, LambdaIdle: u, DistributorReset: true}
	cam, spark, mixture, idle := sound, sound, sound, sound
	cam.CamPhaseDeg, spark.IgnitionDeg = read("cam_phase_deg"), sparkRead(e)
	mixture.Lambda, idle.LambdaIdle = read("lambda_cruise", "lambda"), quantity.Or(read("lambda_idle"), engine.LambdaFromCO(read("co_pct")))
	add := func(sign string, texts []string) {
		for _, text := range texts {
			all = append(all, warning{sign, text})
		}
	}
	add("cam_phase_deg", cam.Stop())
	add("ignition_deg", spark.Stop())
	add("lambda_cruise", mixture.Stop())
	add("lambda_idle", idle.Stop())
	if r, ok := list(e.Readings, "compression_bar"); ok {
		why, _ := engine.Uneven(r.Values)
		add("compression_bar", why)
	}
	return all
}

// sparkRead is how far the spark lies from its setting, crank degrees, + = early.
func sparkRead(e Evidence) float64 {
	if x, ok := value(e.Readings, "ignition_deg"); ok {
		return x
	}
	x, ok := value(e.Readings, "timing_idle_deg")
	want, known := e.Expected["timing_idle_deg"]
	if !ok || !known {
		return quantity.Unknown
	}
	return x - want.Value
}

// forbids tells whether it says what not to do.
func (w warning) forbids() bool { return strings.Contains(w.text, "do not ") }

// stop is made of what is wrong, a colon, and what not to do.
func (w warning) stop() Stop {
	why, do, _ := strings.Cut(w.text, ": ")
	may := parked
	if strings.Contains(do, "do not start") {
		may = still
	}
	return Stop{w.sign, "Stop: " + why + ".", strings.ToUpper(do[:1]) + do[1:] + ".", may}
}

// cautions are the warnings that forbid nothing.
func cautions(e Evidence) (texts []string) {
	for _, w := range warnings(e) {
		if !w.forbids() {
			texts = append(texts, w.text)
		}
	}
	return texts
}

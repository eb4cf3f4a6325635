package suspect

import (
	"fmt"
	"math"

	"brimlog/ingest/book"
	"brimlog/ingest/quantity"
)

// A departed is a reading held against what is sound.
type departed struct {
	known     bool
	departure float64
	sd        float64
	text      string
	note      string
}

// A gauge turns readings into the departure of one sign.
type gauge func(s Sign, e Evidence) departed

// The gauges that need more than 'reading minus what is assumed'.
var gauges = map[string]gauge{
	"static_timing":       staticTiming,
	"centrifugal":         difference("timing_2500_deg", "timing_idle_deg"),
	"vacuum_advance":      difference("timing_2500_vac_deg", "timing_2500_deg"),
	"mixture_cruise":      mixtureCruise,
	"mixture_idle":        mixtureIdle,
	"idle_vacuum":         idleVacuum,
	"compression":         compressionLevel,
	"tyres":               softestTyre,
	"fuel_pressure":       fuelPressure,
	"coast":               timed,
	"pull":                timed,
	"odometer":            odometer,
	"cam_phase":           plainGauge,
	"tdc_mark":            plainGauge,
	"chain_slack":         plainGauge,
	"back_pressure":       plainGauge,
	"running_temperature": plainGauge,
}

// against is x held against the owner's own earlier figure, else against what this vehicle should read, else against
// what is assumed of its kind.
func (s Sign) against(e Evidence, x float64, names []string, text string) departed {
	if own, has := all(e.Baseline, names); has {
		return departed{known: true, departure: x - own, sd: s.OwnSD, text: text}
	}
	if want, has := e.Expected[names[0]]; has && len(names) == 1 {
		return departed{known: true, departure: x - want.Value, sd: math.Hypot(want.SD, s.OwnSD), text: text}
	}
	return departed{known: true, departure: x - s.Assumed, sd: s.SD, text: text}
}

// all is the value of one reading, or what the second is below the first; false unless all are there.
func all(rs []book.Reading, names []string) (float64, bool) {
	x, ok := value(rs, names[0])
	if len(names) == 1 || !ok {
		return x, ok
	}
	y, ok := value(rs, names[1])
	return x - y, ok
}

// ratio is as against, in percent of the figure it is held against.
func (s Sign) ratio(x, own float64, hasOwn bool, assumed, assumedSD float64, text string) departed {
	if hasOwn && own > 0 {
		return departed{known: true, departure: 100 * (x/own - 1), sd: s.OwnSD, text: text}
	}
	return departed{known: true, departure: 100 * (x/assumed - 1), sd: assumedSD, text: text}
}

func plainGauge(s Sign, e Evidence) departed {
	x, ok := value(e.Readings, s.Reading)
	if !ok {
		return departed{}
	}
	return s.against(e, x, []string{s.Reading}, fmt.Sprintf("%s=%.4g", s.Reading, x))
}

// staticTiming prefers the figure against the setting, which needs no handbook.
func staticTiming(s Sign, e Evidence) departed {
	if x, ok := value(e.Readings, "ignition_deg"); ok {
		return departed{known: true, departure: x, sd: s.OwnSD, text: fmt.Sprintf("ignition_deg=%.4g", x)}
	}
	return plainGauge(s, e)
}

// difference is a sign that two readings of the same engine make.
func difference(upper, lower string) gauge {
	return func(s Sign, e Evidence) departed {
		x, ok := all(e.Readings, []string{upper, lower})
		if !ok {
			return departed{}
		}
		return s.against(e, x, []string{upper, lower}, fmt.Sprintf("%.4g degrees", x))
	}
}

func mixtureCruise(s Sign, e Evidence) departed {
	for _, name := range []string{"lambda_cruise", "lambda"} {
		if x, ok := value(e.Readings, name); ok {
			own, has := value(e.Baseline, name)
			return s.ratio(x, own, has, 1.0, s.SD, fmt.Sprintf("%s=%.3g", name, x))
		}
	}
	return departed{}
}

// mixtureIdle takes lambda, else carbon monoxide: about 1 % at lambda 0.98, 4.5 % at 0.88 (common practice).
func mixtureIdle(s Sign, e Evidence) departed {
	const assumed = 0.96
	own, has := value(e.Baseline, "lambda_idle")
	if x, ok := value(e.Readings, "lambda_idle"); ok {
		return s.ratio(x, own, has, assumed, s.SD, fmt.Sprintf("lambda_idle=%.3g", x))
	}
	co, ok := value(e.Readings, "co_pct")
	if !ok {
		return departed{}
	}
	lambda := func(co float64) float64 { return 1.0 - 0.028*(co-0.5) }
	ownCO, hasCO := value(e.Baseline, "co_pct")
	return s.ratio(lambda(co), lambda(ownCO), hasCO, assumed, s.SD, fmt.Sprintf("co_pct=%.3g", co))
}

// idleVacuum is held against the owner's own, else against what the card's overlap gives, less 1 inHg for each 300 m
// up: 17 to 21 with an ordinary cam, 10 to 15 with a long overlap (published workshop text).
func idleVacuum(s Sign, e Evidence) departed {
	x, ok := value(e.Readings, s.Reading)
	if !ok {
		return departed{}
	}
	text := fmt.Sprintf("%s=%.3g", s.Reading, x)
	if own, has := value(e.Baseline, s.Reading); has {
		return departed{known: true, departure: x - own, sd: s.OwnSD, text: text}
	}
	sound, sd := 19.0, s.SD
	if quantity.Known(e.CamOverlapDeg) {
		sound -= 6.5 * min(max((e.CamOverlapDeg-40)/45, 0), 1)
	} else {
		sd = math.Hypot(sd, 1.5)
	}
	sound -= max(quantity.Or(e.AltitudeM, 0), 0) / 300
	return departed{known: true, departure: x - sound, sd: sd, text: text}
}

func softestTyre(s Sign, e Evidence) departed {
	r, ok := list(e.Readings, s.Reading)
	if !ok {
		return departed{}
	}
	text := "tyre_bar=" + r.Text
	if own, has := list(e.Baseline, s.Reading); has {
		return departed{known: true, departure: lowest(r.Values) - lowest(own.Values), sd: s.OwnSD, text: text}
	}
	return s.against(e, lowest(r.Values), []string{s.Reading}, text)
}

// fuelPressure: a carburettor's pump gives about 0.25 bar, early injection 2.5 (common practice).
func fuelPressure(s Sign, e Evidence) departed {
	x, ok := value(e.Readings, s.Reading)
	if !ok {
		return departed{}
	}
	own, has := value(e.Baseline, s.Reading)
	assumed, sd := 0.25, s.SD*1.4
	if e.FuelSystem == injection || e.FuelSystem == "" && x > 1 {
		assumed, sd = 2.5, s.SD*0.5
	}
	return s.ratio(x, own, has, assumed, sd, fmt.Sprintf("%s=%.3g", s.Reading, x))
}

// slipped is how many deviations an earlier time may lie from what such a vehicle takes before it is held for a slip of the
// watch, and nothing is held against it.
const slipped = 4

// timed is a coast-down or pull against what this vehicle should take.
func timed(s Sign, e Evidence) departed {
	x, ok := value(e.Readings, s.Reading)
	if !ok {
		return departed{}
	}
	text := fmt.Sprintf("%s=%.4g", s.Reading, x)
	want, has := e.Expected[s.Reading]
	if own, before := value(e.Baseline, s.Reading); before && own > 0 && (!has || math.Abs(own-want.Value) < slipped*want.SD) {
		return s.ratio(x, own, true, 0, 0, text)
	}
	if has && want.Value > 0 {
		return s.ratio(x, 0, false, want.Value, math.Hypot(100*want.SD/want.Value, s.OwnSD), text)
	}
	return departed{note: fmt.Sprintf("%s: nothing to hold it against, give the vehicle's mass or an earlier figure of your own", s.Reading)}
}

func odometer(s Sign, e Evidence) departed {
	x, ok := value(e.Readings, s.Reading)
	if !ok {
		return departed{}
	}
	own, has := value(e.Baseline, s.Reading)
	return s.ratio(x, own, has, 1, s.SD, fmt.Sprintf("%s=%.4g", s.Reading, x))
}

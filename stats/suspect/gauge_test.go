package suspect

import (
	"math"
	"testing"
)

// departureOf is what the sign is found to depart from sound by.
func departureOf(t *testing.T, sign string, e Evidence) (float64, bool) {
	t.Helper()
	obs, _ := Standard().observe(e)
	for _, o := range obs {
		if Standard().Signs[o.sign].ID == sign {
			return o.x, true
		}
	}
	return 0, false
}

func TestReadingsAgainstSound(t *testing.T) {
	for _, c := range []struct {
		sign, readings, baseline string
		change                   func(*Evidence)
		want                     float64
	}{
		{sign: "static_timing", readings: "ignition_deg=-8; timing_idle_deg=12", want: -8},
		{sign: "static_timing", readings: "timing_idle_deg=4", want: -6},
		{sign: "static_timing", readings: "timing_idle_deg=4", baseline: "timing_idle_deg=8", want: -4},
		{sign: "centrifugal", readings: "timing_idle_deg=9; timing_2500_deg=11", want: -13},
		{sign: "vacuum_advance", readings: "timing_2500_deg=24; timing_2500_vac_deg=25", want: -14},
		{sign: "mixture_cruise", readings: "lambda=0.9", want: -10},
		{sign: "compression", readings: "compression_bar=9.0/9.1/9.0/9.1", baseline: "compression_bar=10.4/10.5/10.4/10.5", want: -13.3},
		{sign: "tyres", readings: "tyre_bar=2.0/1.5/2.0/2.0", want: -0.5},
		{sign: "idle_vacuum", readings: "idle_vacuum_inhg=16", baseline: "idle_vacuum_inhg=19", want: -3},
		{sign: "idle_vacuum", readings: "idle_vacuum_inhg=12.5", change: func(e *Evidence) { e.CamOverlapDeg = 85 }, want: 0},
		{sign: "idle_vacuum", readings: "idle_vacuum_inhg=16", change: func(e *Evidence) { e.CamOverlapDeg, e.AltitudeM = 40, 900 }, want: 0},
		{sign: "coast", readings: "coast_s=19.0@80-60", change: func(e *Evidence) { e.Expected["coast_s"] = Figure{21.6, 0.5} }, want: -12.04},
		{sign: "fuel_pressure", readings: "fuel_pressure_bar=0.125", want: -50},
		{sign: "fuel_pressure", readings: "fuel_pressure_bar=3", change: func(e *Evidence) { e.FuelSystem = injection }, want: 20},
		{sign: "odometer", readings: "odometer_correction=1.092", want: 9.2},
		{sign: "running_temperature", readings: "thermostat_c=65", want: -20},
	} {
		e := Nothing()
		e.Expected = map[string]Figure{}
		e.Readings, e.Baseline = readingsOf(t, c.readings), readingsOf(t, c.baseline)
		if c.change != nil {
			c.change(&e)
		}
		if got, ok := departureOf(t, c.sign, e); !ok || math.Abs(got-c.want) > 0.05 {
			t.Errorf("%s of %q against %q: %v (known %v), want %v", c.sign, c.readings, c.baseline, got, ok, c.want)
		}
	}
}

func TestCompressionBetweenCylinders(t *testing.T) {
	for readings, want := range map[string][2]string{
		"compression_bar=10.4/10.5/10.3/10.5":                                      {"even", ""},
		"compression_bar=10.4/8.5/10.3/10.5":                                       {"one_low", ""},
		"compression_bar=10.4/7.5/10.3/10.5":                                       {"one_weak", ""},
		"compression_bar=10.4/8.6/8.4/10.3":                                        {"pair_low", ""},
		"compression_bar=10.4/6.2/6.0/10.3":                                        {"pair_weak", ""},
		"compression_bar=6.2/10.4/10.3/6.0":                                        {"uneven", ""},
		"compression_bar=10.4/7.5/10.3/10.5; compression_wet_bar=10.9/9.2/10.8/11": {"one_weak", "rises"},
		"compression_bar=9.0/9.1/9.0/9.1; compression_wet_bar=9.1/9.2/9.2/9.2":     {"even", "same"},
		"compression_bar=10":                                                       {"", ""},
	} {
		e := Nothing()
		e.Readings = readingsOf(t, readings)
		if got := [2]string{compressionPattern(e), compressionWet(e)}; got != want {
			t.Errorf("%s: %v, want %v", readings, got, want)
		}
	}
}

// An earlier time of one's own that no such vehicle takes is nothing to hold a later one against.
func TestImpossibleEarlierRun(t *testing.T) {
	e := Nothing()
	e.Expected = map[string]Figure{"coast_s": {Value: 21.6, SD: 0.8}}
	e.Readings, e.Baseline = readingsOf(t, "coast_s=21.2@80-60"), readingsOf(t, "coast_s=500@80-60")
	if got, ok := departureOf(t, "coast", e); !ok || math.Abs(got) > 3 {
		t.Errorf("departs by %.1f %%, want near nothing", got)
	}
	e.Baseline = readingsOf(t, "coast_s=23.0@80-60")
	if got, _ := departureOf(t, "coast", e); got > -5 {
		t.Errorf("departs by %.1f %% from one's own time, want some 8 %% less", got)
	}
}

// A coast-down with nothing to hold it against is said to be of no use, not taken for good or bad.
func TestTimedWithoutExpectation(t *testing.T) {
	e := Nothing()
	e.Readings = readingsOf(t, "coast_s=19.0@80-60")
	if r := Rank(e); len(r.Notes) != 1 {
		t.Errorf("notes: %q, want one on coast_s", r.Notes)
	}
}

package book

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"brimlog/ingest/quantity"
)

// A gauge is what is known of a reading by its name: the words it may be, or the bounds of its numbers.
type gauge struct {
	low, high float64
	words     []string
	list      bool // one number per cylinder or wheel
	speeds    bool // between two speeds
}

var gauges = map[string]gauge{
	"cam_phase_deg":       {low: -180, high: 180},
	"ignition_deg":        {low: -180, high: 180},
	"timing_idle_deg":     {low: -180, high: 180},
	"timing_2500_deg":     {low: -180, high: 180},
	"timing_2500_vac_deg": {low: -180, high: 180},
	"lambda":              {low: 0.3, high: 5},
	"lambda_idle":         {low: 0.3, high: 5},
	"lambda_cruise":       {low: 0.3, high: 5},
	"co_pct":              {low: 0, high: 20},
	"idle_vacuum_inhg":    {low: 0, high: 31},
	"compression_bar":     {low: 0, high: 60, list: true},
	"compression_wet_bar": {low: 0, high: 60, list: true},
	"tyre_bar":            {low: 0, high: 15, list: true},
	"fuel_pressure_bar":   {low: 0, high: 300},
	"oil_pressure_bar":    {low: 0, high: 20},
	"thermostat_c":        {low: -50, high: 150},
	"odometer_correction": {low: 0.5, high: 2},
	"odometer_reset_to":   {low: 0, high: farthest},
	"coast_s":             {low: 0, high: 3600, speeds: true},
	"pull_s":              {low: 0, high: 3600, speeds: true},
	"vacuum_needle":       {words: needleWords},
	"smoke":               {words: smokeWords},
	"plug":                {words: plugWords},
	"ignition_since_cam":  {words: sparkWords}, // moved along with the camshaft since the timing was read, or reset
}

// KnownReadings lists the readings that something is made of, each with the words that it may be. Others are kept and shown.
func KnownReadings() []string {
	var all []string
	for _, name := range slices.Sorted(maps.Keys(gauges)) {
		switch g := gauges[name]; {
		case g.words != nil:
			name += " (" + strings.Join(g.words, ", ") + ")"
		case g.list:
			name += " (several with /)"
		case g.speeds:
			name += " (between two speeds: 21.6@80-60)"
		}
		all = append(all, name)
	}
	return all
}

// parseReadings reads name=value pairs split by semicolons. Numbers are in the unit that the name ends in, whatever unit
// they were written in; odometer_reset_to, which names none, is in km as shown, read in the odometer's unit.
func (c cell) parseReadings(odometer quantity.Unit) []Reading {
	var readings []Reading
	for pair := range strings.SplitSeq(c.text, ";") {
		pair = strings.TrimSpace(pair)
		if pair == "" {
			continue
		}
		name, text, ok := strings.Cut(pair, "=")
		name, text = strings.ToLower(strings.TrimSpace(name)), strings.TrimSpace(text)
		if !ok || name == "" || text == "" {
			c.fault(badValue, fmt.Sprintf("want readings as name=value split by semicolons, got %s", quote(pair)), "")
			continue
		}
		if _, twice := (Job{Readings: readings}).Reading(name); twice {
			c.fault(badValue, fmt.Sprintf("want each reading once, got %s again: the first one counts", quote(name)), "")
			continue
		}
		readings = append(readings, c.reading(strings.Clone(name), strings.Clone(text), odometer))
	}
	return readings
}

func (c cell) reading(name, text string, odometer quantity.Unit) Reading {
	r := Reading{Name: name, Text: text}
	g, known := gauges[name]
	if g.words != nil {
		if w, ok := oneOf(text, g.words); ok {
			r.Text = w
		} else {
			c.fault(unknownWord, fmt.Sprintf("want %s=%s, got %s", name, listed(g.words), quote(text)),
				c.swapped(text, nearest(text, g.words)))
		}
		return r
	}
	if known || digits(text, 0, 1) >= 0 || strings.HasPrefix(text, "-") {
		r.Values, r.Speeds = c.numbers(name, text, g, known, odometer)
	}
	return r
}

// numbers reads the numbers of a reading, and the speeds behind an at sign. A reading that nobody knows may be anything; one
// that is known and cannot be read has no values.
func (c cell) numbers(name, text string, g gauge, known bool, odometer quantity.Unit) (values, speeds []float64) {
	figures, between, timed := strings.Cut(text, "@")
	unit := readingUnit(name, odometer)
	for part := range strings.SplitSeq(figures, "/") {
		x, u, err := quantity.ParseIn(part, unit)
		if err == nil {
			x = unit.FromBase(u.ToBase(x))
		}
		switch {
		case err != nil && known:
			c.fault(badValue, fmt.Sprintf("reading %s: %s", name, err), "")
			return nil, nil
		case err != nil:
			return nil, nil
		case known && (x < g.low || x > g.high):
			c.fault(badValue, fmt.Sprintf("reading %s: want %s, got %s", name, bounds(g.low, g.high, quantity.Number), quote(part)), "")
			return nil, nil
		}
		values = append(values, x)
	}
	if name == "odometer_reset_to" {
		values[0] = unit.ToBase(values[0])
	}
	if known && !g.list && len(values) > 1 {
		c.fault(badValue, fmt.Sprintf("reading %s: want one number, got %d: give their mean", name, len(values)), "")
		return nil, nil
	}
	if timed || g.speeds {
		if speeds = twoSpeeds(between); speeds == nil && known {
			c.fault(badValue, fmt.Sprintf("reading %s: want the speeds it was timed between, as in %s=21.6@80-60, got %s",
				name, name, quote(text)), "")
		}
	}
	return values, speeds
}

func readingUnit(name string, odometer quantity.Unit) quantity.Unit {
	if name == "odometer_reset_to" {
		return odometer
	}
	_, u := quantity.SplitColumn(name)
	return u
}

// twoSpeeds reads 80-60, in km/h, or 50-37mph; nil where it is neither.
func twoSpeeds(s string) []float64 {
	from, to, ok := strings.Cut(s, "-")
	if !ok {
		return nil
	}
	b, unit, err := quantity.ParseIn(to, quantity.KmPerHour)
	if err != nil {
		return nil
	}
	a, err := quantity.Parse(from, unit)
	if err != nil || a < 0 || b < 0 || a == unit.ToBase(b) {
		return nil
	}
	return []float64{a, unit.ToBase(b)}
}

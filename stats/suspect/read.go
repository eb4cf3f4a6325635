package suspect

import (
	"slices"
)

// readOff lists the signs that are read off figures by other names than their own.
var readOff = map[string][]string{
	"ignition_deg":        {"static_timing"},
	"timing_idle_deg":     {"static_timing", "centrifugal"},
	"timing_2500_deg":     {"centrifugal", "vacuum_advance"},
	"timing_2500_vac_deg": {"vacuum_advance"},
	"lambda":              {"mixture_cruise"},
	"co_pct":              {"mixture_idle"},
	"compression_bar":     {"compression", "compression_pattern", "compression_wet"},
	"compression_wet_bar": {"compression_wet"},
	"oil_pressure_bar":    {}, // a stop, and no sign of any one cause
}

// Readings names the figures and words that are of use here, as work.csv has them, sorted.
func (t *Table) Readings() []string {
	var names []string
	for name := range readOff {
		names = append(names, name)
	}
	for _, s := range t.Signs {
		if _, is := readOff[s.Reading]; s.Kind != "grade" && s.ID != "fuel" && !is {
			names = append(names, s.readAs())
		}
	}
	slices.Sort(names)
	return slices.Compact(names)
}

// readAs is the name of the sign's reading in work.csv.
func (s Sign) readAs() string {
	if s.Reading != "" {
		return s.Reading
	}
	return s.ID
}

// Touches tells whether work on an area can change a reading: whether a fault in a part that such work is about shows in
// what is read off it. The reading must be taken anew then.
func (t *Table) Touches(area, reading string) bool {
	for _, c := range t.Causes {
		if !meet(t.Areas[area].WorksOn, c.Parts) {
			continue
		}
		for id := range c.Signs {
			if t.Signs[t.sign[id]].readAs() == reading || slices.Contains(readOff[reading], id) {
				return true
			}
		}
	}
	return reading == "oil_pressure_bar"
}

// WorksOn tells whether work on an area is work on any part whose faults the table knows.
func (t *Table) WorksOn(area string) bool { return len(t.Areas[area].WorksOn) > 0 }

// IsSign tells whether the table knows the sign, with the words that it may be; none where it is a figure.
func (t *Table) IsSign(id string) (words []string, known bool) {
	i, ok := t.sign[id]
	if !ok || id == "fuel" {
		return nil, false
	}
	return t.Signs[i].Words, true
}

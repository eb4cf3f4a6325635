package suspect

import (
	"fmt"
	"slices"
	"strings"
)

// movedBy lists the signs whose faults move figures by other names than the sign's own. The timings are read against each
// other, so what moves one of them puts all out of date.
var movedBy = map[string][]string{
	"ignition_deg":        {"static_timing"},
	"timing_idle_deg":     {"static_timing", "centrifugal"},
	"timing_2500_deg":     {"static_timing", "centrifugal", "vacuum_advance"},
	"timing_2500_vac_deg": {"static_timing", "centrifugal", "vacuum_advance"},
	"lambda":              {"mixture_cruise"},
	"co_pct":              {"mixture_idle"},
	"compression_bar":     {"compression", "compression_pattern", "compression_wet"},
	"compression_wet_bar": {"compression", "compression_wet"},
	"oil_pressure_bar":    {}, // a stop, and no sign of any one cause
}

// A fault that departs less than this from sound, in nats, moves no reading to speak of: nobody tests the compression again
// because the plugs were changed.
const leastMoved = 0.35

// Readings names the figures and words that are of use here, as work.csv has them, sorted.
func (t *Table) Readings() []string {
	var names []string
	for name := range movedBy {
		names = append(names, name)
	}
	for _, s := range t.Signs {
		if _, is := movedBy[s.Reading]; s.Kind != "grade" && s.ID != "fuel" && !is {
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
	for i, c := range t.Causes {
		if !meet(t.Areas[area].WorksOn, c.Parts) {
			continue
		}
		for id := range c.Signs {
			k := t.sign[id]
			if (t.Signs[k].readAs() == reading || slices.Contains(movedBy[reading], id)) && t.loud[i][k] >= leastMoved {
				return true
			}
		}
	}
	return reading == "oil_pressure_bar"
}

// WorksOn tells whether work on an area is work on any part whose faults the table knows.
func (t *Table) WorksOn(area string) bool { return len(t.Areas[area].WorksOn) > 0 }

// Understand reads an answer for a sign that is graded or told in words, and gives the table's own word for it. The error says
// which words would do, or that there is no such sign; figures are none.
func (t *Table) Understand(id, text string) (word string, err error) {
	if !t.IsWord(id) {
		return "", fmt.Errorf("no sign %q: want %s", id, strings.Join(t.askable(), ", "))
	}
	s := t.Signs[t.sign[id]]
	o, _, note := s.word(Evidence{Seen: map[string]string{id: text}})
	if note != "" || strings.TrimSpace(text) == "" {
		return "", fmt.Errorf("%s: want %s, got %q", id, strings.Join(s.Words, ", "), text)
	}
	return s.Words[o.word], nil
}

// IsWord tells whether a sign is graded or told in words.
func (t *Table) IsWord(id string) bool {
	i, ok := t.sign[id]
	return ok && t.Signs[i].Kind != "number"
}

// askable are the signs that an owner can tell.
func (t *Table) askable() (ids []string) {
	for _, s := range t.Signs {
		if s.Ask != "" {
			ids = append(ids, s.ID)
		}
	}
	return ids
}

// Tools names the tools that the checks ask for, sorted.
func (t *Table) Tools() (names []string) {
	for _, c := range t.Checks {
		names = append(names, c.Tools...)
	}
	slices.Sort(names)
	return slices.Compact(names)
}

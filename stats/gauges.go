package stats

import (
	"fmt"
	"slices"

	"brimlog/ingest/book"
	"brimlog/ingest/tank"
	"brimlog/stats/suspect"
)

// gauges are readings that say nothing of the tune and yet that it must not run: their names, the areas on which later work puts
// them out of date, and what to do. From where they warn is the causes' own limit.
var gauges = []struct {
	name      string
	outdated  []string
	what, how string
}{
	{"oil_pressure_bar", []string{"other", "compression", "camshaft", "valves"}, "an oil pressure of %s bar is too low to run on",
		"switch off, check the level, then the pressure with another gauge; do not run it until it is right, unless the maker's handbook allows as little at a hot idle"},
	{"thermostat_c", []string{"cooling", "compression"}, "at %s C it boils, which no thermostat explains",
		"switch off and let it cool right down, never open a hot cooling system; do not drive on before the cause is found"},
}

// gaugesSay is what the newest of them that still hold warn of.
func gaugesSay(l *tank.Log) (caution []string) {
	for _, g := range gauges {
		now := suspect.Nothing()
		for _, j := range l.Jobs {
			if !j.Measure() && slices.ContainsFunc(j.Areas, func(a string) bool { return slices.Contains(g.outdated, a) }) {
				now.Standing = nil
			}
			if r, ok := j.Reading(g.name); ok && len(r.Values) == 1 {
				r.Name = g.name // in that unit
				now.Standing = []book.Reading{r}
			}
		}
		if suspect.Standard().MustStop(now) {
			caution = append(caution, fmt.Sprintf(g.what+": "+g.how, fmt.Sprintf("%.2g", now.Standing[0].Values[0])))
		}
	}
	return caution
}

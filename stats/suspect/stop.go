package suspect

import (
	"fmt"
	"slices"
)

// A Stop is what comes before anything else: something that hurts people or ruins the engine.
type Stop struct {
	Sign string `json:"sign"`
	Why  string `json:"why"`
	Do   string `json:"do"`

	may []string // states in which checks are still safe, and turning
}

// lowOil is the pressure in bar below which no engine of this kind should be run; hot idle in a handbook may be near it.
const lowOil = 1.0

// turning is a check of the cold engine for which it is started or cranked.
const turning = "turning"

// What is left when nothing may turn, and when it may run but not be driven.
var (
	still  = []string{"cold"}
	parked = []string{"cold", turning, "warm", "running"}
)

// The signs that stop the engine, the grades or words from which they do, and what to do. Common practice.
var stopSigns = []struct {
	sign  string
	words []string
	Stop
}{
	{"fuel_leak", []string{"trace", "moderate", "heavy"}, Stop{"fuel_leak", "Stop: fuel is leaking, and its vapour burns or explodes.",
		"Switch off, do not start and do not drive. No flame, no sparks, battery lamp only; mend it, or have it mended, before anything else.", still}},
	{"leak", []string{"wet"}, Stop{"fuel_leak", "Stop: the card was wet, fuel is leaking.",
		"Do not start and do not drive until it is mended. No flame, no sparks.", still}},
	{"oil_dip", []string{"thin"}, Stop{"fuel_leak", "Stop: the oil is thin with petrol.",
		"Do not start it: the vapour in the crankcase can explode, and thin oil ruins bearings. Find where the petrol gets in, change the oil outdoors, away from flames.", still}},
	{"smell", []string{"petrol"}, Stop{"fuel_leak", "Stop: where petrol is smelt, fuel may be leaking.",
		"Do not start and do not drive until it has been looked for, cold, in daylight, without flame or sparks, and what leaks is mended.", still}},
	{"hubs", []string{"one_hot"}, Stop{"hubs", "Stop: one hub is hot, so its brake or its bearing drags.",
		"Do not drive on it: brakes fade, a wheel can seize or catch fire. Let it cool before touching it, then stand the car up as its handbook says and find why the wheel does not turn freely.", parked}},
	{"knock", []string{"moderate", "heavy"}, Stop{"knock", "Stop driving it hard: knock like this breaks pistons.",
		"No load and no full throttle until the cause is found; where it knocks badly, do not drive. Check timing and fuel standing.", parked}},
	{"overheating", []string{"moderate", "heavy"}, Stop{"overheating", "Stop: it overheats, which warps heads and blows gaskets.",
		"Switch off and let it cool right down. Never open a hot cooling system: it scalds. Find the cause cold before driving on.", []string{"cold", turning}}},
}

// stops lists them in the order of danger.
func (t *Table) stops(e Evidence) []Stop {
	stops := []Stop{}
	e.Readings, e.Standing = slices.Concat(e.Standing, e.Readings), nil
	for _, s := range stopSigns {
		i, ok := t.sign[s.sign]
		if !ok {
			continue
		}
		o, known, _ := t.Signs[i].word(e)
		if known && slices.Contains(s.words, t.Signs[i].Words[o.word]) || slices.Contains(s.words, lately(s.sign, e)) || s.sign == "overheating" && boiling(e) {
			stops = append(stops, s.Stop)
		}
	}
	if s, low := oilStop(e); low {
		stops = append(stops, s)
	}
	for _, w := range warnings(e) {
		if w.forbids() {
			stops = append(stops, w.stop())
		}
	}
	return stops
}

// MustStop tells whether anything known says stop.
func (t *Table) MustStop(e Evidence) bool { return len(t.stops(e)) > 0 }

// lately is how a symptom was graded at worst on the newest drives, unless the owner has just answered for it.
func lately(sign string, e Evidence) string {
	i := slices.Index(symptomIDs[:], sign)
	if i < 0 || e.Seen[sign] != "" {
		return ""
	}
	return e.Grades[i].Lately.String()
}

// safe tells whether the check may still be made.
func safe(stops []Stop, c Check) bool {
	return !slices.ContainsFunc(stops, func(s Stop) bool {
		return !slices.Contains(s.may, c.State) || c.Turns && !slices.Contains(s.may, turning)
	})
}

// boiling is a coolant figure that no thermostat explains.
func boiling(e Evidence) bool {
	c, ok := value(e.Readings, "thermostat_c")
	return ok && c >= 105
}

func oilStop(e Evidence) (Stop, bool) {
	bar, ok := value(e.Readings, "oil_pressure_bar")
	if !ok || bar >= lowOil {
		return Stop{}, false
	}
	return Stop{"oil_pressure_bar", fmt.Sprintf("Stop: oil pressure of %.2g bar is too low to run on.", bar),
		"Switch off. Check the level, then the pressure with another gauge; do not run it until it is right. Only the maker's handbook may allow as little at a hot idle.", still}, true
}

package heron

import "math/rand/v2"

const (
	none = iota
	trace
)

// grades in their order.
var grades = [4]string{"none", "trace", "moderate", "heavy"}

// A feel is how one symptom shows in one state of tune: the shares of trace, moderate and heavy, the rest none.
type feel [3]float64

// feels says how the car drives. A lively cam idles unevenly and is a little soft low down; late ignition takes the pull
// from low revs, starts with more churning and runs on when switched off; a milder cam gives up a little at the top;
// a dragging brake hardly shows from the seat.
var feels = map[tune]map[string]feel{
	lively: {"hard_start": {0.14}, "rough_idle": {0.5, 0.04}, "hesitation": {0.18}, "knock": {0.05}, "run_on": {0.08},
		"weak_low": {0.3, 0.02}, "weak_cruise": {0.08}, "weak_high": {0.05}},
	late: {"hard_start": {0.52, 0.14}, "rough_idle": {0.55, 0.12}, "hesitation": {0.5, 0.1}, "knock": {0}, "run_on": {0.42, 0.16},
		"weak_low": {0.27, 0.62, 0.06}, "weak_cruise": {0.5, 0.12}, "weak_high": {0.45, 0.08}, "overheating": {0.22}, "hard_start_hot": {0.2}},
	retimed: {"hard_start": {0.1}, "rough_idle": {0.46, 0.02}, "hesitation": {0.14}, "knock": {0.08}, "run_on": {0.06},
		"weak_low": {0.22}, "weak_cruise": {0.06}, "weak_high": {0.04}},
	mild: {"hard_start": {0.07}, "rough_idle": {0.1}, "hesitation": {0.1}, "knock": {0.05}, "run_on": {0.05},
		"weak_low": {0.06}, "weak_cruise": {0.04}, "weak_high": {0.32, 0.02}},
	binding: {"hard_start": {0.07}, "rough_idle": {0.1}, "hesitation": {0.1}, "knock": {0.06}, "run_on": {0.06},
		"weak_low": {0.2}, "weak_cruise": {0.24}, "weak_high": {0.36, 0.02}},
}

// judged is what the owner has an opinion on after any drive; fast is what only an open road tells.
var (
	judged = []string{"hard_start", "rough_idle", "hesitation", "knock", "run_on", "weak_low"}
	fast   = []string{"weak_cruise", "weak_high"}
	rare   = []string{"overheating", "hard_start_hot"} // written only when there
)

// judge gives the grades that the owner wrote for a leg: most drives, most symptoms.
func judge(l leg, rng *rand.Rand) map[string]string {
	given := map[string]string{}
	opinion := rng.Float64() < 0.76
	state := feels[tuneOn(l.day)]
	ask := func(names []string, lightest int) {
		for _, name := range names {
			g := state[name].draw(l, name, rng)
			skip := rng.Float64() < 0.05
			if opinion && !skip && g >= lightest {
				given[name] = grades[g]
			}
		}
	}
	ask(judged, none)
	ask(rare, trace)
	if l.road == "open" || l.road == "motorway" {
		ask(fast, none)
	}
	if l.starts == 0 {
		delete(given, "hard_start")
	}
	return given
}

// draw is one drive's grade. Below five degrees starting and picking up cold are now and then one grade worse.
func (f feel) draw(l leg, name string, rng *rand.Rand) int {
	x, grade := rng.Float64(), 0
	for i := 2; i >= 0; i-- {
		if x -= f[i]; x < 0 {
			grade = i + 1
			break
		}
	}
	chilled := rng.Float64() < 0.18
	if chilled && l.air < 5 && (name == "hard_start" || name == "hesitation") && grade < 2 {
		grade++
	}
	return grade
}

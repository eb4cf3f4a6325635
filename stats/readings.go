package stats

import (
	"maps"
	"slices"
	"strings"

	"brimlog/ingest/book"
	"brimlog/ingest/quantity"
	"brimlog/ingest/tank"
	"brimlog/stats/engine"
	"brimlog/stats/expect"
)

// A Held is a reading that still holds: no job since has touched what it was taken of.
type Held struct {
	Name string `json:"name"`
	Text string `json:"text"` // as written
	Job  string `json:"job"`
	Date string `json:"date"`
	Line int    `json:"line"` // in work.csv
}

// A figured is a reading with its numbers.
type figured struct {
	Held
	values []float64
	tank   int // index of the tank in which it was taken
}

// outdates lists, for each reading, the areas on which a later job takes it out of date. The distributor turns with the
// cam; another cam fills the cylinders otherwise; a run on the road feels everything that turns.
var outdates = map[string][]string{
	"cam_phase_deg":   {"camshaft"},
	"ignition_deg":    {"ignition", "camshaft"},
	"timing_idle_deg": {"ignition", "camshaft"},
	"timing_2500_deg": {"ignition", "camshaft"},
	"lambda":          {"fuel", "intake"},
	"lambda_cruise":   {"fuel", "intake"},
	"lambda_idle":     {"fuel", "intake"},
	"co_pct":          {"fuel", "intake"},
	"compression_bar": {"compression", "valves", "camshaft"},
	"coast_s":         {"brakes", "tyres", "driveline"},
	"pull_s": {"camshaft", "ignition", "fuel", "intake", "exhaust", "compression", "valves", "cooling",
		"brakes", "tyres", "driveline"},
}

// sameThing are readings that tell of one thing in two ways: the newer one puts the older out of date.
var sameThing = [][]string{{"lambda", "lambda_cruise"}, {"lambda_idle", "co_pct"}, {"ignition_deg", "timing_2500_deg", "timing_idle_deg"}}

// A state is how the vehicle stands by its readings.
type state struct {
	readings map[string]figured
	setting  map[string]float64 // what timing_idle_deg and timing_2500_deg show when the ignition is right
	sound    float64            // bar: the best mean compression since it last could change; Unknown = the newest is the best
	reset    bool               // the ignition was set again since the cam moved
}

// readTune reads the jobs in their order.
func readTune(l *tank.Log) state {
	s := state{readings: map[string]figured{}, setting: map[string]float64{}, sound: quantity.Unknown}
	camWork := false
	for _, j := range l.Jobs {
		if !j.Measure() {
			s.outdate(j.Areas)
			camWork = camWork || slices.Contains(j.Areas, "camshaft")
			switch {
			case slices.Contains(j.Areas, "ignition"):
				s.reset = camWork
			case slices.Contains(j.Areas, "camshaft"):
				s.reset = false
			}
		}
		for _, r := range j.Readings {
			if outdates[r.Name] != nil && len(r.Values) > 0 {
				s.take(j, r)
			}
		}
		s.learn(j)
	}
	return s
}

// outdate drops what a job on those areas puts out of date.
func (s *state) outdate(areas []string) {
	touched := func(name string) bool {
		return slices.ContainsFunc(areas, func(a string) bool { return slices.Contains(outdates[name], a) })
	}
	maps.DeleteFunc(s.readings, func(name string, _ figured) bool { return touched(name) })
	if touched("compression_bar") {
		s.sound = quantity.Unknown
	}
}

// take writes down a reading in the place of older ones of the same thing.
func (s *state) take(j tank.Job, r book.Reading) {
	for _, names := range sameThing {
		if slices.Contains(names, r.Name) {
			maps.DeleteFunc(s.readings, func(name string, h figured) bool { return slices.Contains(names, name) && h.Job != j.ID })
		}
	}
	if old, is := s.readings[r.Name]; is && r.Name == "compression_bar" {
		s.sound = max(quantity.Or(s.sound, 0), mean(old.values))
	}
	s.readings[r.Name] = figured{Held{Name: r.Name, Text: r.Text, Job: j.ID, Date: written(j.Date), Line: j.Line}, r.Values, j.Tank}
}

// learn finds what the timing marks show when the ignition is right, from a job that tells both.
func (s *state) learn(j tank.Job) {
	off, ok := j.Reading("ignition_deg")
	if !ok || len(off.Values) != 1 {
		return
	}
	for _, name := range []string{"timing_idle_deg", "timing_2500_deg"} {
		if r, ok := j.Reading(name); ok && len(r.Values) == 1 {
			s.setting[name] = r.Values[0] - off.Values[0]
		}
	}
}

// ignition is how far the spark stands off its setting: as read, else off what the marks once showed. Off the idle comes
// first: that is where the fuel goes.
func (s *state) ignition() (figured, bool) {
	if h, ok := s.readings["ignition_deg"]; ok {
		return h, true
	}
	for _, name := range []string{"timing_2500_deg", "timing_idle_deg"} {
		h, ok := s.readings[name]
		setting, known := s.setting[name]
		if ok && known {
			h.values = []float64{h.values[0] - setting}
			return h, true
		}
	}
	return figured{}, false
}

// tune is the state as the cycle model takes it. A reading that no engine of its kind gives is left out, and told.
func (s *state) tune(n *notes) engine.Tune {
	values := map[string][]float64{}
	for name, h := range s.readings {
		values[name] = h.values
	}
	if h, ok := s.ignition(); ok {
		values["ignition_deg"] = h.values
	}
	for _, name := range slices.Sorted(maps.Keys(values)) {
		alone := expect.TuneFrom(map[string][]float64{name: values[name]}, s.sound, false)
		if err := alone.Check(); err != nil {
			n.say("%s:%d: left out of the tune: %v", book.WorkFile, s.line(name), err)
			delete(values, name)
		}
	}
	sound := s.sound
	if h := s.readings["compression_bar"]; !(mean(h.values) < sound) {
		sound = quantity.Unknown
	}
	return expect.TuneFrom(values, sound, s.reset)
}

// line is where a reading stands; an ignition that was reckoned from the marks stands where they do.
func (s *state) line(name string) int {
	if h, ok := s.readings[name]; ok {
		return h.Line
	}
	h, _ := s.ignition()
	return h.Line
}

// olderThan tells whether there are readings, all from before a tank.
func (s *state) olderThan(tank int) bool {
	for _, h := range s.readings {
		if h.tank >= tank {
			return false
		}
	}
	return len(s.readings) > 0
}

// held lists what the tune was taken from, by name.
func (s *state) held() []Held {
	all := []Held{}
	for _, name := range slices.Sorted(maps.Keys(s.readings)) {
		if !strings.HasSuffix(name, "_s") { // runs on the road are told apart
			all = append(all, s.readings[name].Held)
		}
	}
	return all
}

func mean(xs []float64) float64 {
	sum := 0.0
	for _, x := range xs {
		sum += x
	}
	return sum / float64(len(xs))
}

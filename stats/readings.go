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
	job    tank.Job
	order  int     // of its job in the log
	phase  float64 // where the cam was known to stand then; Unknown = nobody had read it since it last could move
}

// outdates lists, for each reading, the areas on which a later job takes it out of date. The distributor turns with the
// cam; another cam fills the cylinders otherwise, and idles otherwise; a run on the road feels everything that turns.
var outdates = map[string][]string{
	"cam_phase_deg":   {"camshaft"},
	"ignition_deg":    {"ignition", "camshaft"},
	"timing_idle_deg": {"ignition", "camshaft"},
	"timing_2500_deg": {"ignition", "camshaft"},
	"lambda":          {"fuel", "intake"},
	"lambda_cruise":   {"fuel", "intake"},
	"lambda_idle":     {"fuel", "intake", "camshaft"},
	"co_pct":          {"fuel", "intake", "camshaft"},
	"compression_bar": {"compression", "valves", "camshaft"},

	engine.SparkReading: {"ignition", "camshaft"},
	"coast_s":           {"brakes", "tyres", "driveline"},
	"pull_s": {"camshaft", "ignition", "fuel", "intake", "exhaust", "compression", "valves", "cooling",
		"brakes", "tyres", "driveline"},
}

// sameThing are readings that tell of one thing in two ways: the newer one puts the older out of date.
var sameThing = [][]string{{"lambda", "lambda_cruise"}, {"lambda_idle", "co_pct"}, {"ignition_deg", "timing_2500_deg", "timing_idle_deg"}}

// A state is how the vehicle stands by its readings.
type state struct {
	readings map[string]figured
	setting  map[string]float64 // what timing_idle_deg and timing_2500_deg show when the ignition is right
	sound    figured            // the best mean compression since it last could change, bar; no values = the newest is the best
	set      *figured           // when the ignition was last set, if the cam was not taken out since; no reading
	lapsed   []string           // what was put out of date by a reading

	wentAlong bool // the distributor turned with the cam and was not set again, by the owner's word
}

// readTune reads the jobs in their order.
func readTune(l *tank.Log) state {
	s := state{readings: map[string]figured{}, setting: map[string]float64{}}
	for i, j := range l.Jobs {
		if !j.Measure() {
			s.outdate(j.Areas)
			switch {
			case slices.Contains(j.Areas, "ignition"):
				s.set = &figured{job: j, order: i}
			case slices.Contains(j.Areas, "camshaft"):
				s.set = nil
			}
		}
		for _, r := range j.Readings {
			if outdates[r.Name] != nil && len(r.Values) > 0 {
				s.take(j, i, r)
			}
		}
		s.learn(j)
		s.hear(j, i)
		s.stamp(i)
		s.camMoved(i)
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
		s.sound = figured{}
	}
}

// take writes down a reading in the place of older ones of the same thing.
func (s *state) take(j tank.Job, order int, r book.Reading) {
	for _, names := range sameThing {
		if slices.Contains(names, r.Name) {
			maps.DeleteFunc(s.readings, func(name string, h figured) bool { return slices.Contains(names, name) && h.Job != j.ID })
		}
	}
	if old, is := s.readings[r.Name]; is && r.Name == "compression_bar" && !(mean(old.values) <= mean(s.sound.values)) {
		s.sound = old
	}
	s.readings[r.Name] = figured{Held: Held{Name: r.Name, Text: r.Text, Job: j.ID, Date: written(j.Date), Line: j.Line}, values: r.Values, job: j, order: order}
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

// tune is the state as the cycle model takes it, and what to beware of. A reading that no engine of its kind gives is left
// out, and told; what it warns of is warned of all the same.
func (s *state) tune(e book.Engine, n *notes) (t engine.Tune, caution []string) {
	*n = append(*n, s.lapsed...)
	s.unsaid(n)
	values := map[string][]float64{}
	for name, h := range s.readings {
		values[name] = h.values
	}
	if degrees, ok := s.spark(); ok {
		values["ignition_deg"] = []float64{degrees}
	}
	caution = expect.TuneFrom(values, quantity.Unknown, s.reset()).Stop()
	stop, uneven := engine.Uneven(values["compression_bar"])
	caution = append(caution, stop...)
	*n = append(*n, uneven...)
	for _, name := range slices.Sorted(maps.Keys(values)) {
		alone := expect.TuneFrom(map[string][]float64{name: values[name]}, quantity.Unknown, false)
		if err := alone.Check(); err != nil {
			n.say("%s:%d: left out of the tune: %v", book.WorkFile, s.line(name), err)
			delete(values, name)
		}
	}
	if co := values["co_pct"]; len(co) > 0 && co[0] > engine.MostCO {
		n.say("%s:%d: co_pct %g is reckoned as %g, past which no exhaust tells the mixture", book.WorkFile, s.line("co_pct"), co[0], engine.MostCO)
	}
	t = expect.TuneFrom(values, s.soundNow(e, n), s.reset())
	t.Dead *= s.seen(len(values["compression_bar"]), e.Cylinders, n)
	return t, caution
}

// seen is the share of the cylinders that were read; those that were not are taken to fire.
func (s *state) seen(read int, cylinders float64, n *notes) float64 {
	if read == 0 || !quantity.Known(cylinders) || float64(read) == cylinders {
		return 1
	}
	n.say("%s:%d: compression_bar has %s for %g cylinders: want one for each, in their order", book.WorkFile, s.line("compression_bar"), plural(read, "figure", "figures"), cylinders)
	return min(1, float64(read)/cylinders)
}

// line is where a reading stands; an ignition that was reckoned from the marks, or from the cam, stands where they do.
func (s *state) line(name string) int {
	if h, ok := s.readings[name]; ok {
		return h.Line
	}
	if h, lit := s.ignition(); lit {
		return h.Line
	}
	return s.readings["cam_phase_deg"].Line
}

// olderThan tells whether there are readings, all from before a tank.
func (s *state) olderThan(tank int) bool {
	for _, h := range s.readings {
		if h.job.Tank >= tank {
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

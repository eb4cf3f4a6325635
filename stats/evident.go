package stats

import (
	"fmt"
	"math"
	"slices"
	"time"

	"brimlog/ingest/book"
	"brimlog/ingest/quantity"
	"brimlog/stats/expect"
	"brimlog/stats/suspect"
)

// A stretch is the part of the log that tells how the vehicle stands now: since it began or, where no beginning is seen, since
// the last work on a part that matters. Work after the beginning opens it anew: it may have cured what was felt before.
type stretch struct {
	turn
	began  bool
	work   int         // index of the last such job in log.Jobs; -1 = none
	first  int         // index of the first tank
	after  book.Moment // the day before which no drive counts
	anew   bool
	inTank float64 // where it began, or now, in tanks along the log
}

// stretch finds it.
func (r *Review) stretch(g ground) stretch {
	s := stretch{work: -1, inTank: float64(len(g.log.Tanks))}
	for i, j := range g.log.Jobs {
		if worksOn(j) {
			s.work = i
		}
	}
	s.turn, s.began = onset(r.turns(g))
	if s.began {
		s.inTank = s.place
		if s.job >= 0 {
			s.first, s.after = g.firstAfter(s.job), s.from
		} else {
			s.first = int(s.place)
			s.after = g.log.Tanks[s.first].Opens.Date
		}
	}
	if w := s.work; w >= 0 && (!s.began || g.later(w, s.turn)) {
		s.first, s.after, s.anew = max(s.first, g.firstAfter(w)), g.log.Jobs[w].Date, s.began
	}
	return s
}

// later tells whether a job was done after what began was over.
func (g ground) later(job int, t turn) bool {
	j := g.log.Jobs[job]
	if t.job >= 0 {
		return job > t.job && j.Tank > g.log.Jobs[t.job].Tank
	}
	return j.Date.After(t.to.Time)
}

// evidence gathers what the log knows, and notes down where it comes from.
func (r *Review) evidence(g ground, told *Suspected) suspect.Evidence {
	s := r.stretch(g)
	expected := r.expectedSince(g, s.first)
	e := suspect.Nothing()
	told.Began = g.beganOf(s)
	r.excess(&e, s, expected, told)
	e.Onset.Tanks = max(len(g.log.Tanks)-s.first, 0) // that the excess was taken from
	if s.began {
		e.Onset = suspect.Onset{Form: s.form, Doubt: s.doubt, Tanks: max(len(g.log.Tanks)-int(math.Ceil(s.place)), 0)}
	}
	e.Jobs = g.jobsBefore(s)
	g.weather(&e, s, expected)
	told.Drives = g.grade(&e, s, &told.notes)
	g.asFitted(&e, &told.notes)
	told.Readings = g.read(&e, s, expected)
	setAside(&e, told, expected.Timed)
	g.describe(&e, expected)
	g.danger(&e, &told.notes)
	return e
}

// setAside takes out the timed runs that can't be right: they speak for no cause.
func setAside(e *suspect.Evidence, told *Suspected, x *expect.TimedAnswer) {
	if x == nil {
		return
	}
	for _, name := range []string{"coast_s", "pull_s"} {
		run := map[string]*expect.TimedRun{"coast_s": x.Coast, "pull_s": x.Pull}[name]
		if run == nil || run.Doubt == "" {
			continue
		}
		doubted := func(r book.Reading) bool {
			return r.Name == name && len(r.Values) > 0 && r.Values[0] == float64(run.Taken)
		}
		e.Readings, e.Baseline = slices.DeleteFunc(e.Readings, doubted), slices.DeleteFunc(e.Baseline, doubted)
		told.Readings = slices.DeleteFunc(told.Readings, func(h Held) bool {
			return h.Name == name && !slices.ContainsFunc(e.Readings, func(r book.Reading) bool { return r.Name == name })
		})
		told.notes.say("%s is not counted: %s", name, run.Doubt)
	}
}

// danger hands over all readings that still hold, however old, and says what a cam that was read alone may mean.
func (g ground) danger(e *suspect.Evidence, n *notes) {
	hold := map[string]finding{}
	all := g.findings()
	for _, f := range all {
		if f.holds {
			hold[f.Name] = f
		}
	}
	onlyNewest(hold)
	for _, f := range all {
		if now, ok := hold[f.Name]; ok && now.job == f.job {
			e.Standing = append(e.Standing, f.Reading)
		}
	}
	tune := readTune(g.log)
	spark, known := tune.spark()
	if _, read := hold["ignition_deg"]; known && !read {
		e.Standing = append(e.Standing, book.Reading{Name: "ignition_deg", Text: fmt.Sprintf("%.3g", spark), Values: []float64{spark}})
	}
	cam, camRead := hold["cam_phase_deg"]
	unheard := e.Grades[book.Knock].Counts() == book.NotJudged
	if camRead && !known && unheard && !tune.reset() && cam.Values[0] >= earlyCam {
		n.say("the cam was read %.0f degrees early: where the distributor turned with it and was not set again, the spark is early too; read it with a timing light before pulling hard, and listen for knock", cam.Values[0])
	}
}

// earlyCam is from how many crank degrees a spark that went with the cam would be heard (common practice: as many of spark).
const earlyCam = 8

// expectedSince is what it should have used since a tank; what was reckoned already where that is the same.
func (r *Review) expectedSince(g ground, first int) Expected {
	if len(g.log.Tanks)-first == r.Expect.Since.Tanks {
		return *r.Expect
	}
	return r.expected(g, first)
}

// evenly is the doubt from which on it may as well have come the other way.
const evenly = 0.4

// beganOf writes down the beginning.
func (g ground) beganOf(s stretch) Began {
	u := Figure(quantity.Unknown)
	b := Began{RisePct: u, ExcessPct: u, ExcessLowPct: u, ExcessHighPct: u}
	if !s.began {
		if s.work >= 0 {
			b.Job = g.log.Jobs[s.work].ID
		}
		return b
	}
	b.With, b.Unsure, b.FromDate, b.ToDate, b.Worse = "shift", s.unsure, written(s.from), written(s.to), s.felt > 0
	if s.job >= 0 {
		b.With, b.Job = "job", g.log.Jobs[s.job].ID
	}
	if s.doubt < evenly {
		b.Form = map[suspect.Form]string{suspect.Sudden: "at_once", suspect.Gradual: "slowly"}[s.form]
	}
	if s.anew {
		b.Anew = g.log.Jobs[s.work].ID
	}
	if s.rise > 0 {
		b.RisePct = Figure(100 * math.Expm1(s.rise))
	}
	return b
}

// excess takes the rise or the distance from healthy, whichever is known better: the vehicle's own past is often surer than
// what its kind should need. After new work only the latter tells how it stands.
func (r *Review) excess(e *suspect.Evidence, s stretch, x Expected, told *Suspected) {
	if x.Refused == nil && quantity.Known(float64(x.ExcessPct)) {
		e.Excess = math.Log(float64(x.Measured.Mid / x.Healthy.Mid))
		e.ExcessSD = math.Hypot(width80(x.Healthy.Low, x.Healthy.High), width80(x.Measured.Low, x.Measured.High))
	}
	over := quantity.Known(e.Excess)
	if s.rise > 0 && !s.anew && !(e.ExcessSD < s.sd) {
		e.Excess, e.ExcessSD, over = s.left, s.sd, false
	}
	if quantity.Known(e.Excess) {
		told.Began.weighed(e.Excess, e.ExcessSD, over)
	}
}

// width80 is the standard deviation of a logarithm whose central 80 % a range holds.
func width80(low, high Figure) float64 { return math.Log(float64(high/low)) / (2 * z80) }

// jobsBefore lists the jobs done within two tanks before it began, or before now; nil where the log notes no job at all.
func (g ground) jobsBefore(s stretch) []suspect.Job {
	var all []suspect.Job
	for i, j := range g.log.Jobs {
		if j.Measure() {
			continue
		}
		if all == nil {
			all = []suspect.Job{}
		}
		before := s.inTank - g.placeOf(i)
		if s.began && !g.later(i, s.turn) && !j.Date.Before(s.from.AddDate(0, 0, -1)) {
			before = 0 // within its window, or its tank
		}
		if before >= 0 && before <= 2 {
			all = append(all, suspect.Job{Areas: j.Areas, TanksBefore: before, What: named(j.What, j.ID)})
		}
	}
	return all
}

func named(what, id string) string {
	if what == "" {
		return id
	}
	return what
}

// weather is that of the stretch: as noted or as the place has it, else by the calendar of the northern half of the world.
func (g ground) weather(e *suspect.Evidence, s stretch, x Expected) {
	e.AirC, e.NotedShare = float64(x.Roads.AirC), float64(x.Roads.NotedShare)
	if s.first >= len(g.log.Tanks) {
		e.AirC, e.NotedShare = quantity.Unknown, quantity.Unknown // no tank is driven in it yet
	}
	if quantity.Known(e.AirC) {
		return
	}
	for _, t := range g.log.Tanks[min(s.first, len(g.log.Tanks)):] {
		for day := t.Opens.Date.Time; !day.After(t.Closes.Date.Time); day = day.AddDate(0, 0, 7) {
			if m := day.Month(); !slices.Contains(e.Months, m) {
				e.Months = append(e.Months, m)
			}
		}
	}
	slices.SortFunc(e.Months, func(a, b time.Month) int { return int(a - b) })
}

// describe is the vehicle as its last job left it, and what a cause costs on it where the cycle model has reckoned that.
func (g ground) describe(e *suspect.Evidence, x Expected) {
	v := g.log.Vehicle.After(done(g.log))
	e.FuelSystem, e.CompressionRatio, e.AltitudeM = v.Engine.FuelSystem, v.Engine.CompressionRatio, v.Place.AltitudeM
	e.CamOverlapDeg = v.Engine.Cam.IntakeOpensBTDC + v.Engine.Cam.ExhaustClosesATDC
	e.ExtraFuelPct = costsByModel(g.log, v, x.Parts)
}

package stats

import (
	"math"
	"slices"

	"brimlog/ingest/book"
	"brimlog/ingest/quantity"
	"brimlog/stats/expect"
	"brimlog/stats/suspect"
)

// A finding is a workshop reading with the job that it was taken at.
type finding struct {
	book.Reading
	job   int
	holds bool // no work since has touched it
	same  bool // nothing was fitted since that changes what is healthy there
}

// findings lists the readings of all jobs that the causes can use, in their order.
func (g ground) findings() []finding {
	var all []finding
	for i, j := range g.log.Jobs {
		for k := range all {
			if f := &all[k]; !j.Measure() && slices.ContainsFunc(j.Areas, func(a string) bool { return touches(a, f.Name) }) {
				f.holds, f.same = false, f.same && j.Kind != "fit"
			}
		}
		for _, name := range suspect.Standard().Readings() {
			if r, ok := j.Reading(name); ok {
				r.Name = name // in that unit
				all = append(all, finding{r, i, true, true})
			}
		}
	}
	return all
}

// touches tells whether work on an area takes a reading out of date: as it does for the tune, else as the causes have it.
func touches(area, reading string) bool {
	if areas, told := outdates[reading]; told {
		return slices.Contains(areas, area)
	}
	return suspect.Standard().Touches(area, reading)
}

// read sorts the findings into what was read since it began and what the vehicle read while it was healthy.
func (g ground) read(e *suspect.Evidence, s stretch, x Expected) (held []Held) {
	held = []Held{}
	latest := map[string]finding{}
	all := g.findings()
	for _, f := range all {
		if f.holds && g.since(f.job, s) {
			latest[f.Name] = f
		}
	}
	onlyNewest(latest)
	for _, f := range all {
		if now, ok := latest[f.Name]; ok && now.job == f.job {
			j := g.log.Jobs[f.job]
			e.Readings = append(e.Readings, f.Reading)
			held = append(held, Held{Name: f.Name, Text: f.Text, Job: j.ID, Date: written(j.Date), Line: j.Line})
		}
	}
	for _, f := range all {
		if g.healthyThen(f, s, x, latest) {
			e.Baseline = append(e.Baseline, f.Reading)
		}
	}
	e.Expected = g.shouldRead(x)
	return held
}

// since tells whether a job's readings were taken since it began; all were where no beginning is seen.
func (g ground) since(job int, s stretch) bool {
	switch {
	case !s.began:
		return true
	case s.job >= 0:
		return job >= s.job
	}
	return g.log.Jobs[job].Tank >= int(s.place)
}

// onlyNewest drops older readings of what a newer one tells in another way.
func onlyNewest(latest map[string]finding) {
	for _, names := range sameThing {
		newest := -1
		for _, name := range names {
			if f, ok := latest[name]; ok {
				newest = max(newest, f.job)
			}
		}
		for _, name := range names {
			if latest[name].job < newest {
				delete(latest, name)
			}
		}
	}
}

// healthyThen tells whether a finding shows what this vehicle reads while healthy: one that still holds and is older than what
// began, or than the newest of its name; or one taken while the vehicle stood for a healthy one, and nothing fitted since. A
// corrected distance is allowed for in every figure, so it stands for itself.
func (g ground) healthyThen(f finding, s stretch, x Expected, latest map[string]finding) bool {
	now, read := latest[f.Name]
	if f.Name == "odometer_correction" {
		return read && now.job == f.job
	}
	if read && (now.job == f.job || len(f.Speeds) != len(now.Speeds) || len(f.Speeds) == 2 && !sameSpeeds(f.Speeds, now.Speeds)) {
		return false
	}
	if f.holds && (!s.began || !g.since(f.job, s)) {
		return true
	}
	return f.same && (g.vouched(g.log.Jobs[f.job].Tank, x) || g.vouched(g.firstAfter(f.job), x))
}

// vouched tells whether the tank of that index stands for the healthy vehicle.
func (g ground) vouched(i int, x Expected) bool {
	return i < len(g.log.Tanks) && slices.Contains(x.Vouched, g.log.Tanks[i].Number)
}

func sameSpeeds(a, b []float64) bool { return math.Abs(a[0]-b[0]) < 1 && math.Abs(a[1]-b[1]) < 1 }

// shouldRead is what the vehicle should read by reckoning: its timed runs, and the marks when the ignition is right.
func (g ground) shouldRead(x Expected) map[string]suspect.Figure {
	should := map[string]suspect.Figure{}
	for name, degrees := range readTune(g.log).setting {
		should[name] = suspect.Figure{Value: degrees, SD: 1}
	}
	add := func(name string, r *expect.TimedRun) {
		if r != nil && quantity.Known(float64(r.Healthy.Mid)) {
			should[name] = suspect.Figure{Value: float64(r.Healthy.Mid), SD: width80(r.Healthy.Low, r.Healthy.High) * float64(r.Healthy.Mid)}
		}
	}
	if x.Timed != nil {
		add("coast_s", x.Timed.Coast)
		add("pull_s", x.Timed.Pull)
	}
	return should
}

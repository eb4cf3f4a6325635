package stats

import (
	"fmt"

	"brimlog/ingest/tank"
	"brimlog/stats/expect"
	"brimlog/stats/model"
)

// An Expected is what the vehicle should need, healthy and as it is tuned, beside what it was measured to use: all three
// on the roads and in the weather of the measured tanks.
type Expected struct {
	expect.Answer
	Since    Since  `json:"since"`    // which tanks were measured
	Roads    Roads  `json:"roads"`    // theirs
	Readings []Held `json:"readings"` // that the tune was taken from
	Vouched  []int  `json:"vouched"`  // numbers of the tanks that stand for the healthy vehicle

	// Refused says that the vehicle lies outside what can be reckoned, an *engine.BoundError; all else is empty then.
	Refused error `json:"-"`
}

// ExpectDocument is the answer of expect.
type ExpectDocument struct {
	Head
	Expected
}

// ExpectDocument is the answer of expect. The error is an *engine.BoundError: no such vehicle can be reckoned.
func (r *Review) ExpectDocument() (ExpectDocument, error) {
	doc := ExpectDocument{Head: r.Head, Expected: *r.Expect}
	doc.Notes = append(append([]string{}, r.Notes...), r.Expect.Notes...)
	return doc, r.Expect.Refused
}

// A ground is what the answer stands on: the tanks, and what the model of consumption has learnt from them.
type ground struct {
	log    *tank.Log
	design *model.Design
	course model.Course
}

// expect fills in Expect for the tanks since the last job or shift.
func (r *Review) expect(g ground) {
	e := r.expected(g, max(g.sinceLastJob(), r.lastShift()))
	if r.Expect = &e; e.Refused != nil {
		r.Notes = append(r.Notes, fmt.Sprintf("vehicle.toml: %v; until then there is no expected range", e.Refused))
	}
}

// expected answers for the tanks from the index since on: those that no job, and no shift, has come between.
func (r *Review) expected(g ground, since int) Expected {
	l := g.log
	measured := from(since, len(l.Tanks))
	on := measured // whose roads these are
	if len(on) == 0 {
		on = from(0, len(l.Tanks))
	}
	notes := &notes{}
	vouched, doubt := r.healthyTanks(g, since, notes)
	roads := g.roads(on, notes)
	state := readTune(l)
	vehicle := l.Vehicle.After(done(l))
	tune, caution := state.tune(vehicle.Engine, notes)
	caution = append(gaugesSay(l), caution...)
	state.headOff(l, notes)
	q := expect.Question{
		Vehicle: vehicle, Roads: roads, HealthyRoads: roads, Tune: tune, Caution: caution,
		Measured: g.level(measured, on), Healthy: g.vouchedLevel(vouched, on, doubt),
		Coast: g.run("coast_s", vouched, r.lastShift(), notes), Pull: g.run("pull_s", vouched, r.lastShift(), notes),
	}
	e := Expected{Since: r.sinceOf(l, since), Roads: shownRoads(roads), Readings: state.held(), Vouched: []int{}}
	if job := e.Since.Job; len(measured) == 0 && job != "" && len(l.Tanks) > 0 {
		notes.say("no tank since %s yet, so nothing is measured: the next brim fill will tell", job)
	}
	if e.Since.Shift && state.olderThan(since) {
		notes.say("the readings are older than the shift: what has shifted may be one of them")
	}
	for _, i := range vouched {
		e.Vouched = append(e.Vouched, l.Tanks[i].Number)
	}
	e.Answer, e.Refused = q.Answer()
	if e.Refused != nil {
		e.Caution = caution // whatever the model can do
	}
	e.Notes = append(*notes, e.Notes...)
	return e
}

// done tells which jobs the log has seen.
func done(l *tank.Log) func(id string) bool {
	seen := map[string]bool{}
	for _, j := range l.Jobs {
		seen[j.ID] = true
	}
	return func(id string) bool { return seen[id] }
}

// notes are remarks on what limits an answer.
type notes []string

func (n *notes) say(format string, a ...any) { *n = append(*n, fmt.Sprintf(format, a...)) }

// from lists the indexes from one up to another, that one left out.
func from(first, end int) []int {
	var all []int
	for i := first; i < end; i++ {
		all = append(all, i)
	}
	return all
}

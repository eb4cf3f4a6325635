// Package expect reckons what a vehicle should return: the work that its roads ask for, the fuel that its engine needs
// to do that work and to turn itself over, cold starts, load, trailer and height, each with the width of what is not
// known of it. The same again in the measured state of tune, through stats/engine, and beside it what the log says.
//
// It assumes a petrol engine in a road vehicle of 1960 to 2000 or so on wheels that are pumped up. It refuses figures
// that no such vehicle has (engine.BoundError), and asks for nothing: what is not told takes the usual value and widens
// the range, and the answer names it. Every draw is the same in every run, so a vehicle that is a little heavier never
// needs less, and a key that appears moves the range no further than what it tells.
//
// Figures are L/100 km; low and high hold 80 %. Its neighbours: stats/engine below, the review of stats above.
package expect

import (
	"slices"

	"brimlog/ingest/book"
	"brimlog/ingest/quantity"
	"brimlog/stats/engine"
)

// A Range is a figure with its low and high end: 80 %.
type Range struct {
	Low  quantity.Figure `json:"low"`
	Mid  quantity.Figure `json:"mid"`
	High quantity.Figure `json:"high"`
}

// unknownRange is a range of which nothing is known.
var unknownRange = Range{quantity.Figure(quantity.Unknown), quantity.Figure(quantity.Unknown), quantity.Figure(quantity.Unknown)}

// A Level is a consumption that the log has found, with the standard deviation of its logarithm.
type Level struct {
	LPer100Km, Sd float64
}

// Known tells whether there is a level.
func (l Level) Known() bool { return l.LPer100Km > 0 && quantity.Known(l.LPer100Km) }

// A Question is all that bears on the answer.
type Question struct {
	Vehicle  book.Vehicle
	Roads    Roads // on which all three figures stand
	Tune     engine.Tune
	Measured Level // on those roads

	// Healthy is what this vehicle did while it was healthy, by the owner's word or a proved job, on HealthyRoads.
	// It sharpens the range.
	Healthy      Level
	HealthyRoads Roads

	Coast, Pull *Timing // timed on the road, or nil

	Caution []string // of readings, also of those that the tune leaves out because no model can take them
}

// An Answer is the document of expect, but for its head.
type Answer struct {
	Healthy            Range           `json:"healthy"`
	AsTuned            Range           `json:"as_tuned"`
	Measured           Range           `json:"measured"`
	ExcessPct          quantity.Figure `json:"excess_pct"`
	ChanceAboveHealthy quantity.Figure `json:"chance_above_healthy"`
	WiderBecause       []string        `json:"wider_because"`

	TunePct          quantity.Figure `json:"tune_pct"`           // what the readings explain of the excess
	ChanceAboveTuned quantity.Figure `json:"chance_above_tuned"` // that it takes more than they explain
	Parts            []Part          `json:"parts"`              // of the tune, the costliest first
	ByRoad           []RoadAnswer    `json:"by_road"`
	Timed            *TimedAnswer    `json:"timed"`   // null where no run was asked about
	Balance          *engine.Balance `json:"balance"` // the worst that the cycle model's accounts fail by; null where it did not run
	Caution          []string        `json:"caution"` // where a reading suggests stopping the engine
	Notes            []string        `json:"-"`       // for the document's head

	Missing []Missing           `json:"-"` // WiderBecause as figures
	Noted   bool                `json:"-"` // the owner's roads are known, else they are the usual ones
	Engine  []engine.Comparison `json:"-"` // the cycle model's own answers, each as likely; none without a reading
}

// A RoadAnswer is the answer on one kind of road.
type RoadAnswer struct {
	Road    string          `json:"road"`
	Share   quantity.Figure `json:"share"` // of the distance, 0 to 1
	Healthy Range           `json:"healthy"`
	AsTuned Range           `json:"as_tuned"`
}

// Answer reckons the ranges. The error is an *engine.BoundError.
func (q Question) Answer() (Answer, error) {
	car, err := q.check()
	if err != nil {
		return Answer{}, err
	}
	s, err := q.study()
	if err != nil {
		return Answer{}, err
	}
	d, then := q.drawn(car, asTold)
	a := Answer{Measured: q.Measured.rangeOf(), WiderBecause: []string{}, Caution: q.caution(), Notes: s.notes(), Noted: q.Roads.noted() > 0}
	if then != nil {
		a.Notes = append(a.Notes, then.doubts(q.Healthy)...)
	}
	tuned := d.tunedAll(s.tunes)
	a.Healthy, a.AsTuned, a.ByRoad, a.Parts = rangeOf(d.all), rangeOf(tuned), d.byRoad(s.tunes), d.parts(s)
	a.TunePct = pctOver(a.AsTuned.Mid, a.Healthy.Mid)
	a.ExcessPct = pctOver(a.Measured.Mid, a.Healthy.Mid)
	a.ChanceAboveHealthy, a.ChanceAboveTuned = chanceAbove(q.Measured, d.all), chanceAbove(q.Measured, tuned)
	a.Missing = q.missing(car, a.Healthy)
	for _, m := range a.Missing {
		a.WiderBecause = append(a.WiderBecause, m.String())
	}
	if q.Tune.Measured() {
		a.Engine = s.tunes
	}
	if q.runsModel() {
		worst := s.balance()
		a.Balance = &worst
	}
	if q.Coast != nil || q.Pull != nil {
		timed := car.timed(q.Roads, s.tunes, q.Coast, q.Pull)
		a.Timed = &timed
	}
	return a, nil
}

// caution is all that suggests stopping the engine, each once.
func (q Question) caution() []string {
	all := append([]string{}, q.Caution...)
	for _, why := range q.Tune.Stop() {
		if !slices.Contains(all, why) {
			all = append(all, why)
		}
	}
	return all
}

// check refuses what the package can't speak of.
func (q Question) check() (car, error) {
	c, err := newCar(q.Vehicle)
	if err != nil {
		return c, err
	}
	roads := []Roads{q.Roads}
	if q.Healthy.Known() {
		roads = append(roads, q.HealthyRoads)
	}
	if err := checkRoads(roads...); err != nil {
		return c, err
	}
	return c, checkTimings(q.Coast, q.Pull)
}

func pctOver(x, y quantity.Figure) quantity.Figure { return 100 * (x/y - 1) }

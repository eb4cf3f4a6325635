package heron

import (
	"math"
	"time"
)

// The log's first and last day.
var (
	first = date("2024-07-06")
	last  = date("2026-08-30")
)

// A Change is something that truly moved consumption, or a job that did not.
type Change struct {
	Job     string // its id in work.csv; empty = no job is named for it
	At      time.Time
	Pct     float64 // lasting change of fuel per distance, from just before, percent
	Passing float64 // what comes on top at first and fades, percent
	FadeMi  float64 // distance over which that falls to a third
}

// dragging is the brake that begins to bind and that nobody has noticed.
var dragging = Change{At: date("2026-07-14"), Pct: 11}

// changes lists all of them: the jobs that are no mere measurements, and the brake.
func changes() []Change {
	var all []Change
	for _, j := range jobs {
		if j.kind != "measure" {
			all = append(all, Change{j.id, date(j.date), j.pct, j.passing, j.fadeMi})
		}
	}
	return append(all, dragging)
}

// effect is the sum of ln(consumption) that the changes up to that day add; since gives the miles driven from a
// change's day on.
func effect(day time.Time, since func(time.Time) float64) float64 {
	sum := 0.0
	for _, c := range changes() {
		if day.Before(c.At) {
			continue
		}
		sum += math.Log1p(c.Pct / 100)
		if c.Passing != 0 {
			sum += c.Passing / 100 * math.Exp(-since(c.At)/c.FadeMi)
		}
	}
	return sum
}

// A tune is how the car stands, as far as the driver's seat can tell.
type tune int

const (
	lively  tune = iota // healthy, with the lively cam
	late                // ignition thirteen crank degrees late
	retimed             // healthy again, same cam
	mild                // the milder cam
	binding             // the same, and a brake that drags
)

// tuneOn is the car's state on that day.
func tuneOn(day time.Time) tune {
	state := lively
	for _, j := range jobs {
		if j.leaves != lively && !day.Before(date(j.date)) {
			state = j.leaves
		}
	}
	if !day.Before(dragging.At) {
		state = binding
	}
	return state
}

package heron

import (
	"math"
	"math/rand/v2"
	"time"
)

// A use is what a drive was for.
type use int

const (
	commute use = iota
	errand
	choir
	outing
	pass
	trailer
	away
	test
)

// A leg is a drive that the owner would put into one row: a day's commuting there and back, an errand, half of a
// long day on the motorway.
type leg struct {
	day        time.Time
	use        use
	road, pace string
	miles      float64
	starts     int
	cruise     float64 // km/h, motorway only
	load, tow  float64 // kg
	idle       float64 // minutes
	air        float64 // C
	wet        bool
	trip       *holiday
	from, to   float64 // odometer
}

// A life is the family's calendar.
type life struct {
	rng     *rand.Rand
	weather *weather
}

// day gives the legs of one day, in order.
func (l *life) day(d time.Time) []leg {
	mean := l.weather.next(d)
	var legs []leg
	switch h := holidayOn(d); {
	case offRoad(d):
	case testDrive(d):
		legs = []leg{{use: test, road: "open", miles: l.between(11, 16), starts: 1}}
	case h != nil:
		legs = l.holiday(h, d)
	case d.Weekday() == time.Saturday:
		legs = l.saturday(d)
	case d.Weekday() == time.Sunday:
		legs = l.sunday(d)
	default:
		legs = l.weekday(d)
	}
	for i := range legs {
		legs[i].day, legs[i].wet = d, l.weather.wet
		legs[i].air = mean + warmth[legs[i].use] + 0.8*l.rng.NormFloat64()
		legs[i].pace = l.pace(legs[i].use)
	}
	return legs
}

// warmth is how far the hour of the day lies above the day's mean.
var warmth = map[use]float64{commute: -0.5, errand: 1, choir: -0.5, outing: 2, pass: 1, trailer: 1, away: 1.5, test: 1}

func (l *life) weekday(d time.Time) []leg {
	var legs []leg
	toWork := 0.92
	if d.Weekday() == time.Wednesday {
		toWork = 0.15 // works at home
	}
	if l.chance(toWork) && !closed(d) {
		legs = append(legs, l.commute())
	}
	switch d.Weekday() {
	case time.Wednesday:
		if l.chance(0.35) {
			legs = append(legs, l.errand())
		}
	case time.Thursday:
		if l.chance(0.75) && (d.Month() >= time.September || d.Month() <= time.June) && !closed(d) {
			legs = append(legs, leg{use: choir, road: "town", miles: l.between(5.2, 6), starts: 2})
		}
	}
	return legs
}

// commute is 14.2 miles each way, by the bypass or round it, now and then by way of a shop, sometimes with a queue.
func (l *life) commute() leg {
	c := leg{use: commute, road: "mixed", miles: 28.4 + l.between(-0.3, 0.5), starts: 2}
	if l.chance(0.25) {
		c.miles += l.between(0.5, 5)
	}
	if l.chance(0.07) {
		c.idle = math.Round(l.between(8, 26))
	}
	return c
}

func (l *life) errand() leg {
	e := leg{use: errand, road: "town", miles: l.between(3.2, 9), starts: 1}
	if l.chance(0.4) {
		e.starts = 2
	}
	return e
}

func (l *life) saturday(d time.Time) []leg {
	var legs []leg
	for _, day := range trailerDays {
		if d.Equal(day) {
			legs = append(legs, leg{use: trailer, road: "mixed", miles: l.between(14, 18), starts: 1, tow: 320})
		}
	}
	if l.chance(0.8) {
		legs = append(legs, l.errand())
	}
	if l.chance(0.15) {
		legs = append(legs, l.outing())
	}
	return legs
}

func (l *life) sunday(d time.Time) []leg {
	out := 0.72
	if d.Month() <= time.February || d.Month() >= time.November {
		out = 0.5
	}
	if d.Equal(hotSmell) {
		return []leg{{use: pass, road: "open", miles: l.between(54, 58), starts: 1}}
	}
	if l.chance(out) {
		return []leg{l.outing()}
	}
	return nil
}

func (l *life) outing() leg {
	o := leg{use: outing, road: "open", miles: math.Min(18+22*l.rng.ExpFloat64(), 84), starts: 2}
	if o.miles > 38 && l.chance(0.35) {
		o.use = pass
	}
	return o
}

// pace is how the leg was driven; 'usual' is most of life.
func (l *life) pace(u use) string {
	brisk, easy := 0.07, 0.08
	switch u {
	case away:
		brisk, easy = 0.05, 0.2
	case outing, pass:
		brisk, easy = 0.12, 0.16
	case test:
		return "usual"
	}
	switch x := l.rng.Float64(); {
	case x < brisk:
		return "brisk"
	case x < brisk+easy:
		return "easy"
	}
	return "usual"
}

func (l *life) chance(p float64) bool { return l.rng.Float64() < p }

func (l *life) between(low, high float64) float64 { return low + (high-low)*l.rng.Float64() }

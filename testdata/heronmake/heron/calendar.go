package heron

import (
	"math"
	"time"
)

// A holiday is some days away: a long drive out, driving about, the long drive home.
type holiday struct {
	name     string // the key of its notes
	from, to time.Time
	miles    float64 // one way
	load     float64 // kg above the usual
	pump     string  // the station there
}

var holidays = []holiday{
	{"coast-24", date("2024-08-10"), date("2024-08-20"), 168, 170, "harbour road"},
	{"aunt-24", date("2024-12-27"), date("2024-12-30"), 118, 80, "church corner"},
	{"easter-25", date("2025-04-18"), date("2025-04-21"), 104, 110, "the green"},
	{"coast-25", date("2025-07-26"), date("2025-08-05"), 168, 170, "harbour road"},
	{"aunt-25", date("2025-12-27"), date("2025-12-30"), 118, 80, "church corner"},
	{"easter-26", date("2026-04-03"), date("2026-04-06"), 104, 110, "the green"},
	{"coast-26", date("2026-08-01"), date("2026-08-11"), 168, 170, "harbour road"},
}

// hotSmell is the Sunday on which the owner smelt the brake and thought no more of it.
var hotSmell = date("2026-07-19")

// trailerDays are the Saturdays of the borrowed trailer.
var trailerDays = []time.Time{date("2024-11-09"), date("2025-04-05"), date("2026-03-21")}

// part tells which end of the holiday a day is.
func (h *holiday) part(d time.Time) string {
	switch {
	case d.Equal(h.from):
		return " out"
	case d.Equal(h.to):
		return " home"
	}
	return " there"
}

func holidayOn(d time.Time) *holiday {
	for i, h := range holidays {
		if !d.Before(h.from) && !d.After(h.to) {
			return &holidays[i]
		}
	}
	return nil
}

// closed tells whether the office is: the days about the new year, and the public holidays of spring and summer.
func closed(d time.Time) bool {
	day, monday := d.Day(), d.Weekday() == time.Monday
	switch d.Month() {
	case time.December:
		return day >= 24
	case time.January:
		return day == 1
	case time.May:
		return monday && (day <= 7 || day >= 25)
	case time.August:
		return monday && day >= 25
	}
	return false
}

// offRoad tells whether the car stands in pieces that day.
func offRoad(d time.Time) bool {
	for _, j := range jobs {
		on := date(j.date)
		if d.Before(on) && on.Sub(d).Hours() <= 24*j.daysDown {
			return true
		}
	}
	return false
}

// testDrive tells whether the day's only drive is to try what was done.
func testDrive(d time.Time) bool {
	for _, j := range jobsOn(d) {
		if j.tried {
			return true
		}
	}
	return false
}

// holiday gives the legs of a day away.
func (l *life) holiday(h *holiday, d time.Time) []leg {
	if d.Equal(h.from) || d.Equal(h.to) {
		return l.longDrive(h, d.Equal(h.to))
	}
	if !l.chance(0.6) {
		return nil
	}
	about := leg{use: away, trip: h, road: "open", miles: l.between(9, 40), starts: 2}
	if l.chance(0.3) {
		about.road, about.miles = "town", l.between(3.5, 9)
	}
	return []leg{about}
}

// longDrive is half of the way, a stop, the other half, and the lanes at the seaward end.
func (l *life) longDrive(h *holiday, home bool) []leg {
	cruise := 5 * math.Round(l.between(98, 111)/5)
	motorway := func() leg {
		return leg{use: away, trip: h, road: "motorway", miles: (h.miles-16)/2 + l.between(-1, 1), cruise: cruise, load: h.load}
	}
	lanes := leg{use: away, trip: h, road: "open", miles: l.between(14, 18), load: h.load}
	legs := []leg{motorway(), motorway(), lanes}
	if home {
		legs = []leg{lanes, motorway(), motorway()}
	}
	legs[0].starts = 1
	return legs
}

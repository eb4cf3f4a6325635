package heron

import (
	"math"
	"math/rand/v2"
	"slices"
	"time"
)

// meterDev is how far the meters of two pumps differ, as a deviation of ln(litres).
const meterDev = 0.004

// A station is a pump, its meter and its prices.
type station struct {
	name   string
	dearer float64 // pence a litre over the cheapest
	e10    float64 // share of visits
	chance float64
	meter  float64 // ln, drawn once
}

// newStations are three pumps at home, by the share of visits, and four on journeys.
func newStations(rng *rand.Rand) []station {
	all := []station{
		{name: "the bypass", e10: 0.06, chance: 0.52},
		{name: "mill corner", dearer: 2, e10: 0.14, chance: 0.3},
		{name: "viaduct", dearer: 1, e10: 0.1, chance: 0.18},
		{name: "services", dearer: 17, e10: 0.4},
		{name: "harbour road", dearer: 4, e10: 0.3},
		{name: "church corner", dearer: 3, e10: 0.2},
		{name: "the green", dearer: 3, e10: 0.2},
	}
	for i := range all {
		all[i].meter = meterDev * rng.NormFloat64()
	}
	return all
}

// choose is the pump at hand: on a journey that of the motorway or of the place, else one of three at home.
func (c *car) choose(next leg) station {
	x := c.pumpRng.Float64()
	if next.trip != nil && c.away {
		name := next.trip.pump
		if next.road == "motorway" {
			name = "services"
		}
		return c.station(name)
	}
	for _, s := range c.stations {
		if x -= s.chance; x < 0 {
			return s
		}
	}
	return c.stations[0]
}

func (c *car) station(name string) station {
	i := slices.IndexFunc(c.stations, func(s station) bool { return s.name == name })
	return c.stations[i]
}

// pence is the price of the day: slow, with a wobble.
func (c *car) pence(day time.Time) float64 {
	years := day.Sub(first).Hours() / 24 / 365.25
	return 145 - 6*math.Sin(2*math.Pi*(years-0.1)/1.7) + 1.2*c.pumpRng.NormFloat64()
}

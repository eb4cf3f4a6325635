package heron

import (
	"math"
	"math/rand/v2"
	"time"
)

// What the car and its tank are like.
const (
	startMi = 48213.0
	clickL  = 61.0 // in the tank at the first click; the capacity is 64
	brimL   = 0.6  // deviation of that
)

// mjPerL is the energy of what is sold, as 5 and 10 % ethanol by linear blending.
var mjPerL = map[string]float64{"E5": 31.555, "E10": 31.010}

// A car is the Heron on the road.
type car struct {
	rng, pumpRng *rand.Rand
	odometer     float64
	fuel, mj     float64 // litres in the tank, and what one of them holds
	reserve      float64 // litres left at which the owner looks for a pump
	scatter      float64 // of this tank
	away         bool    // the last drive was one of a journey
	tank         Tank
	tanks        []Tank
	visits       int
	milesAt      map[time.Time]float64
	stations     []station
}

func newCar(rng, pumpRng *rand.Rand) *car {
	return &car{rng: rng, pumpRng: pumpRng, odometer: startMi, fuel: 15.6, mj: mjPerL["E5"],
		milesAt: map[time.Time]float64{}, stations: newStations(pumpRng)}
}

// drive burns a leg and writes into it where it began and ended.
func (c *car) drive(l *leg) {
	l.from = c.odometer
	e := c.effect(l.day)
	ordinary := l.ordinary() * mjPerL["E5"] / c.mj
	c.fuel -= ordinary * math.Exp(e+c.scatter+legScatter*c.rng.NormFloat64())
	c.odometer += l.miles
	c.tank.Miles += l.miles
	c.tank.Ordinary += ordinary
	c.tank.Effect += e * l.miles
	l.to = c.odometer
	c.away = l.trip != nil
}

func (c *car) effect(day time.Time) float64 {
	return effect(day, func(at time.Time) float64 {
		if _, seen := c.milesAt[at]; !seen {
			c.milesAt[at] = c.odometer
		}
		return c.odometer - c.milesAt[at]
	})
}

// workshop burns and spills what the job cost in fuel.
func (c *car) workshop(j job) {
	litres := j.idleMin/60*idleLPerH + j.lostL
	c.fuel -= litres
	c.tank.Ordinary += litres
}

package heron

import "math"

// Visits that were not like the others, counted from the first.
var (
	partialFor = map[int]float64{9: 20, 33: 25, 47: 20, 70: 25} // GBP put in, and no more
	unwritten  = 57
)

// stopForFuel fills up before a leg that would use the reserve.
func (c *car) stopForFuel(next leg, p *pen) {
	for c.fuel-next.ordinary() < c.reserve {
		round := leg{day: next.day, road: "mixed", pace: "usual", air: next.air, miles: 0.2 + 0.9*c.pumpRng.Float64()}
		if c.away {
			round.trip = next.trip
		}
		c.drive(&round)
		c.pump(next, p)
	}
}

// pump is a visit: which station, what is sold there, and how much goes in.
func (c *car) pump(next leg, p *pen) {
	s := c.choose(next)
	v := visit{day: next.day, odometer: c.odometer, fuel: "E5", station: s.name, gauge: c.fuel / clickL, full: true, next: next}
	pence := c.pence(next.day) + s.dearer
	if c.pumpRng.Float64() < s.e10 {
		v.fuel, pence = "E10", pence-11
	}
	v.price = (math.Floor(pence) + 0.9) / 100
	v.litres = (clickL + brimL*c.pumpRng.NormFloat64() - c.fuel) * math.Exp(s.meter)
	if gbp, some := partialFor[c.visits]; some {
		v.full, v.litres = false, gbp/v.price
	}
	v.litres = math.Round(v.litres*100) / 100
	c.take(v, math.Exp(s.meter))
	if c.visits != unwritten {
		p.fill(v)
	} else {
		p.forget()
	}
	c.visits++
}

// take puts the fuel in and, at a brim fill, closes the tank.
func (c *car) take(v visit, meter float64) {
	in := v.litres / meter
	c.mj = (c.fuel*c.mj + in*mjPerL[v.fuel]) / (c.fuel + in)
	c.fuel += in
	c.tank.Bought += v.litres
	c.reserve = 9 + 9*c.pumpRng.Float64()
	if c.visits == unwritten {
		c.tank.Missed = true
		return
	}
	if !v.full {
		return
	}
	if c.visits > 0 {
		c.tank.To = v.day
		c.tank.Effect /= c.tank.Miles
		c.tanks = append(c.tanks, c.tank)
	}
	c.tank = Tank{}
	c.scatter = tankScatter * c.rng.NormFloat64()
}

package engine

import "math"

// A point is a speed and a load at which the engine is run.
type point struct {
	rpm, bmep float64
	idle      bool
	open      bool // full throttle: bmep is what it gives
}

// A feed is what an engine gets from carburettor and distributor at a manifold pressure (Pa).
type feed func(manifold float64) (lambda, spark, centre float64)

// openThrottle is the manifold pressure at full throttle: filter and carburettor take a little, more with speed.
func openThrottle(rpm float64) float64 { return outside - 1500 - 3500*sq(rpm/4000) }

// pipePressure is the pressure behind the exhaust valve: a sound exhaust, 12 kPa at 4000 rev/min and full load.
func pipePressure(rpm, manifold float64) float64 {
	return outside + 12e3*sq(manifold/100e3*rpm/4000)
}

func sq(x float64) float64 { return x * x }

// An Outcome is what the engine did at a point.
type Outcome struct {
	Cycle
	Reached bool // false where even full throttle would not carry the load: then the cycle is that of full throttle
}

// carry finds the manifold pressure that carries a point's load, from the usual one.
func (c *cylinder) carry(p point, f feed) Outcome {
	return c.carryFrom(24e3+11e3*(p.bmep+friction(p.rpm)), p, f)
}

// carryFrom is the same from a guess of that pressure; a secant makes it right.
func (c *cylinder) carryFrom(guess float64, p point, f feed) Outcome {
	var fires, idles *run
	at := func(manifold float64) Cycle {
		op := operating{rpm: p.rpm, manifold: manifold, pipe: pipePressure(p.rpm, manifold)}
		op.lambda, op.spark, op.centre = f(manifold)
		if fires == nil {
			fires, idles = c.begin(op), c.begin(op)
		}
		y := fires.settle(op)
		if c.dead > 0 {
			op.motored = true
			y = y.dragging(c.dead, idles.settle(op))
		}
		return y
	}
	full := openThrottle(p.rpm)
	if p.open {
		return Outcome{at(full), true}
	}
	return solve(at, p.bmep, min(guess, full), full)
}

const (
	closedThrottle = 12e3  // Pa
	near           = 0.001 // bar to which the load is met
	usualSlope     = 12e3  // Pa a bar
)

// solve is the secant rule, kept within what is known to be too little and too much.
func solve(at func(float64) Cycle, bmep, x, full float64) Outcome {
	low, high := closedThrottle, full
	slope := usualSlope
	var y Cycle
	var lastX, lastMiss float64
	for i := range 40 {
		y = at(x)
		miss := y.BMEP - bmep
		switch {
		case math.Abs(miss) < near, miss > 0 && x <= closedThrottle:
			return Outcome{y, true}
		case miss < 0 && x >= full:
			return Outcome{y, false}
		case miss < 0:
			low = x
		default:
			high = x
		}
		if i > 0 && miss != lastMiss {
			slope = (x - lastX) / (miss - lastMiss)
		}
		lastX, lastMiss = x, miss
		x -= miss * slope
		switch { // an end that was never tried may be; past one that was, halve
		case x >= high && high == full:
			x = full
		case x <= low && low == closedThrottle:
			x = closedThrottle
		case !(x > low && x < high):
			x = (low + high) / 2
		}
	}
	return Outcome{y, true}
}

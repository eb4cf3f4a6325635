package engine

import "math"

// A cylinder is one cylinder laid out over the crank, at half-steps so that the integrator finds its midpoints. It
// starts at the bottom before firing, -180 degrees, and ends two turns later. Steps are two degrees with the valves shut, one with a
// valve open, and finer where that would level the pressures faster.
type cylinder struct {
	geometry
	gas             gas
	heatless        bool    // the walls take nothing: for checks against the ideal cycle
	leak            float64 // m2 past rings and valves
	dead            float64 // share of the engine's cylinders, else as this one, in which nothing burns
	intakeCloses    float64 // degrees, within the cycle
	deg             []float64
	vol, dvol       []float64
	intake, exhaust []float64 // openings, m2
}

func newCylinder(e Engine, phase, leak, rpm float64) *cylinder {
	c := &cylinder{geometry: newGeometry(e.DisplacementCC*1e-6/e.Cylinders, e.CompressionRatio), gas: charge, leak: leak}
	in, ex := e.Card.valves(c.geometry, phase)
	c.intakeCloses = in.closes - 720
	c.lay(in, ex, rpm)
	return c
}

// lay fills the tables.
func (c *cylinder) lay(in, ex valve, rpm float64) {
	const many = 1024 // half-steps of a usual layout
	c.deg, c.vol, c.dvol = make([]float64, 0, many), make([]float64, 0, many), make([]float64, 0, many)
	c.intake, c.exhaust = make([]float64, 0, many), make([]float64, 0, many)
	add := func(deg float64) {
		v, dv := c.volume(deg)
		c.deg = append(c.deg, deg)
		c.vol, c.dvol = append(c.vol, v), append(c.dvol, dv)
		c.intake, c.exhaust = append(c.intake, in.area(deg)), append(c.exhaust, ex.area(deg))
	}
	levelling := func(deg float64) float64 { // degrees in which an open valve levels a small difference of pressure
		v, _ := c.volume(deg)
		return 6 * rpm * levelTime * v / (in.area(deg) + ex.area(deg))
	}
	add(-180)
	for deg := -180.0; deg < 540; {
		step := min(2, 540-deg, max(1./256, 1.5*min(levelling(deg), levelling(deg+1))))
		if in.area(deg)+ex.area(deg)+in.area(deg+2)+ex.area(deg+2) > 0 {
			step = min(step, 1)
		}
		add(deg + step/2)
		deg += step
		add(deg)
	}
}

// levelTime is the slope of the flow function in its last step turned into a time: seconds per metre of volume over
// opening, for gas at 1000 K.
var levelTime = math.Sqrt(1.0/flowSteps) / (portGamma * math.Sqrt2 * math.Sqrt(rGas*1000))

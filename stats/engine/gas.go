package engine

// rGas is the gas constant of the charge, J/(kg K); air's, which mixture and exhaust are within 3 % of.
const rGas = 287.0

// A gas has a specific heat that rises in a straight line with temperature.
type gas struct{ a, b float64 } // cv = a + b T, J/(kg K)

// charge is what is in the cylinder: gamma 1.39 at 300 K, 1.33 at 1000 K, 1.25 at 2500 K, between the curves that
// Heywood (Internal Combustion Engine Fundamentals, figures 4-13 and 4-15, from memory) gives for fresh mixture and
// burnt gas.
var charge = gas{685, 0.180}

func (g gas) cv(t float64) float64       { return g.a + g.b*t }
func (g gas) energy(t float64) float64   { return g.a*t + g.b*t*t/2 }
func (g gas) enthalpy(t float64) float64 { return g.energy(t) + rGas*t }

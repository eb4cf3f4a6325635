package engine

import "math"

// A valve's proportions and discharge (common practice; Heywood, section 6.3, from memory).
const (
	intakeHead  = 0.44 // valve head against bore
	exhaustHead = 0.37
	liftToHead  = 0.25
	discharge   = 0.68
)

// A valve opens and closes at crank degrees after firing top centre, within -180 to 540.
type valve struct {
	opens, closes float64
	full          float64 // m2 at full lift, discharge included
}

// valves lays the card out on the crank; an advanced cam does everything earlier.
func (c Card) valves(g geometry, phase float64) (intake, exhaust valve) {
	area := func(head float64) float64 {
		d := head * g.bore
		return discharge * math.Pi * d * d * liftToHead
	}
	intake = valve{360 - c.IntakeOpensBTDC - phase, 540 + c.IntakeClosesABDC - phase, area(intakeHead)}
	exhaust = valve{180 - c.ExhaustOpensBBDC - phase, 360 + c.ExhaustClosesATDC - phase, area(exhaustHead)}
	return intake, exhaust
}

// area is the valve's effective opening in m2; the lift is a squared sine between the events.
func (v valve) area(deg float64) float64 {
	along := math.Mod(deg-v.opens+1440, 720) / (v.closes - v.opens)
	if along >= 1 {
		return 0
	}
	s := math.Sin(math.Pi * along)
	return v.full * s * s
}

// portGamma is gas's ratio of specific heats in the ports.
const portGamma = 1.35

// flowSteps divides the flow function. Within the last step, where the pressures are all but equal, the straight
// line between its ends takes the place of a root of infinite slope that no solver could follow.
const flowSteps = 64

// flowTable is the one-dimensional compressible flow function over the pressure ratio, choked below the critical.
var flowTable = func() (t [flowSteps + 1]float64) {
	k := portGamma
	critical := math.Pow(2/(k+1), k/(k-1))
	for i := range t {
		r := max(float64(i)/flowSteps, critical)
		t[i] = math.Sqrt(2 * k / (k - 1) * (math.Pow(r, 2/k) - math.Pow(r, (k+1)/k)))
	}
	return t
}()

// flow is the mass flow through an opening, kg/s, from an upstream pressure (Pa) and temperature (K) to a lower
// pressure downstream.
func flow(area, p, t, down float64) float64 {
	x := down / p * flowSteps
	i := min(int(x), flowSteps-1)
	psi := flowTable[i] + (x-float64(i))*(flowTable[i+1]-flowTable[i])
	return area * p / math.Sqrt(rGas*t) * psi
}

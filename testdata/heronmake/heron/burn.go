package heron

import "math"

// What the Heron burns. The car is ours, so are its figures: road kinds, starts and scatter are chosen to give some 20 to
// 25 miles to the gallon. Their size is held to published ones: cold with starts, some 0.45 % a degree on the commute
// (US DOE fact 818: city trips +14 % at -7 C against 25 C, short ones +28 %); load 1 % for 45 kg (fueleconomy.gov); steady
// motorway speed 0.8 % for each km/h (ORNL, 74 vehicles: +14 % at 96 km/h, +33 % at 113, against 80).
const (
	mileKm      = 1.609344
	warmMixed   = 0.1175 // litres per km
	perDegree   = 0.003  // ln per degree C below 20
	startL      = 0.09   // litres a cold start at 20 C
	startPerC   = 0.004  // more for each degree below
	idleLPerH   = 0.90
	legScatter  = 0.05 // deviation of ln(litres) of one leg
	tankScatter = 0.02 // the same, shared by all of a tank
)

var roads = map[string]float64{"town": 1.24, "mixed": 1, "open": 0.91, "motorway": 0.98}
var paces = map[string]float64{"easy": 0.965, "usual": 1, "brisk": 1.07}

// ordinary is what the leg burns in the car as it stood on the first day, without scatter, in litres.
func (l leg) ordinary() float64 {
	below := math.Max(0, 20-l.air)
	ln := perDegree*below + l.load/45*0.01 + l.tow/45*0.012
	if l.cruise > 0 {
		ln += 0.008 * (l.cruise - 104)
	}
	driving := l.miles * mileKm * warmMixed * roads[l.road] * paces[l.pace] * math.Exp(ln)
	return driving + float64(l.starts)*(startL+startPerC*below) + l.idle/60*idleLPerH
}

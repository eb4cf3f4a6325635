package expect

import "math"

// airDensity is dry air's in kg/m3: 1.204 at 20 C and sea level, 9.3 % less a km up.
func airDensity(c, altitudeM float64) float64 {
	return 1.204 * 293.15 / (273.15 + c) * math.Exp(-0.0976*altitudeM/1000)
}

// coldDrag is what thick oil, stiff tyres and a cool intake cost a warm engine per degree below 20 C; with the cold
// starts below it gives the 14 % that US DOE fact 818 has between -7 and 25 C in town.
const coldDrag = 0.0013

func coldFactor(c float64) float64 { return math.Exp(coldDrag * math.Max(0, referenceC-c)) }

// coldStartKm is one cold start in km of warm driving, the engine driven until it is warm: 4 km at a tenth more, and a
// hundredth more a degree below 20 C (set so that trips of 12 and of 5.5 km cost the 14 and 28 % more of fact 818 between 25
// and -7 C). It never turns negative, and a start in great heat still costs a little.
func coldStartKm(c float64) float64 { return 4 * (0.10 + 0.010*math.Max(-8, referenceC-c)) }

// warmingKm is the distance over which an engine takes most of that. Warming it up takes so much fuel and no more, and a trip
// that ends before it is warm has taken only a part: cold throughout, an engine with a choke takes 18, 54 and 90 % more at 20,
// 0 and -20 C (a manufacturer's handbook has 20, 60 and 100 % over the first 5 km).
const warmingKm = 3.0

// coldShare is what so many cold starts a km, evenly spread, add to the fuel of warm driving, as a share of it.
func coldShare(startsPerKm, c, choke float64) float64 {
	if startsPerKm <= 0 {
		return 0
	}
	return startsPerKm * math.Tanh(1/(startsPerKm*warmingKm)) * coldStartKm(c) * choke
}

// chokeFactor is how much more an engine with a choke takes than that (a manufacturer's handbook has about twice as
// much: 20, 60 and 100 % over the first 5 km at 20, 0 and -20 C).
const (
	carburettorChoke = 1.35
	injectionChoke   = 1.0
	unknownChoke     = 1.2
)

// richPerKm is what a fixed jet, 4.8 % richer a km up, costs (the cycle model's fuel against lambda).
const richPerKm = 0.03

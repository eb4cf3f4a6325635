package suspect

import "math"

// An effect is a cause's extra fuel as ln ratio: middle and scatter over the vehicles that have it.
type effect struct{ mean, sd float64 }

// fuelEffect turns a range that holds eight of ten vehicles into middle and scatter.
func fuelEffect(lowPct, highPct float64) effect {
	low, high := math.Log1p(lowPct/100), math.Log1p(highPct/100)
	return effect{mean: (low + high) / 2, sd: max((high-low)/2.563, 0.005)}
}

// Slight, usual and strong faults within a cause's range, in its scatters from the middle: with the scatter left
// within each they make up the range again. One that nobody feels drinks as usual.
var severityPlace = [severities]float64{slight: -1, usual: 0, strong: 1.15, unfelt: 0}

// fuelLaw spreads the effect over slight, usual and strong, with a wider tenth, since ranges of the trade are rough.
func fuelLaw(e effect) law {
	var l law
	for s, place := range severityPlace {
		mean, sd := e.mean+place*e.sd, 0.6*e.sd
		l.peaks[s] = []peak{{0.9, mean, sd}, {0.1, mean, sd + 0.06}}
	}
	return l
}

// bothFuel is the likelihood of the excess when two faults burn fuel at once; their rough tenths are taken together.
func bothFuel(a, b []peak, o observation, telling float64) float64 {
	var sum [2]peak
	for i := range sum {
		sum[i] = peak{a[i].share, a[i].mean + b[i].mean, math.Hypot(a[i].sd, b[i].sd)}
	}
	return figureLike(sum[:], o, telling)
}

// percent is the effect's middle as extra fuel.
func (e effect) percent() float64 { return 100 * math.Expm1(e.mean) }

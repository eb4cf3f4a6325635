package charts

import (
	"math"
	"sort"

	"brimlog/ingest/quantity"
)

// span is the range that a scale has to show: all that is ordinary in xs, whatever one slip of the pen says. What lies beyond
// two fifths off the middle is left to be drawn at the edge. Unknown when nothing is known.
func span(xs []float64) (low, high float64) {
	m := median(xs)
	low, high = quantity.Unknown, quantity.Unknown
	for _, x := range xs {
		if !quantity.Known(x) || x < m*0.6 || x > m*1.4 {
			continue
		}
		low, high = math.Min(quantity.Or(low, x), x), math.Max(quantity.Or(high, x), x)
	}
	pad := (high - low) * 0.04
	return low - pad, high + pad
}

func median(xs []float64) float64 {
	var known []float64
	for _, x := range xs {
		if quantity.Known(x) {
			known = append(known, x)
		}
	}
	if len(known) == 0 {
		return quantity.Unknown
	}
	sort.Float64s(known)
	n := len(known)
	return (known[(n-1)/2] + known[n/2]) / 2
}

// decades are the powers of ten that enclose the odds xs, at least 0.1 to 100 and at most a millionth to a million.
func decades(xs []float64) (low, high float64) {
	low, high = 0.1, 100
	for _, x := range xs {
		if !quantity.Known(x) || x <= 0 {
			continue
		}
		low, high = math.Min(low, x), math.Max(high, x)
	}
	low = math.Pow(10, math.Floor(math.Log10(low)+1e-9))
	high = math.Pow(10, math.Ceil(math.Log10(high)-1e-9))
	return math.Max(low, 1e-6), math.Min(high, 1e6)
}

// round keeps so many decimals: what no eye can see need not travel.
func round(x float64, decimals int) float64 {
	if !quantity.Known(x) {
		return x
	}
	p := math.Pow10(decimals)
	return math.Round(x*p) / p
}

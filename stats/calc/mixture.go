package calc

import (
	"cmp"
	"math"
	"slices"
)

// A Normal is one part of a mixture.
type Normal struct{ Weight, Mean, Sd float64 }

// A Mixture is a weighted sum of normals. Weights need not add up to 1.
type Mixture []Normal

// Total is the sum of the weights.
func (m Mixture) Total() float64 {
	sum := 0.0
	for _, n := range m {
		sum += n.Weight
	}
	return sum
}

// Below is the probability of lying below x.
func (m Mixture) Below(x float64) float64 {
	sum := 0.0
	for _, n := range m {
		sum += n.Weight * below(x, n)
	}
	return sum / m.Total()
}

func below(x float64, n Normal) float64 {
	if n.Sd <= 0 {
		if x < n.Mean {
			return 0
		}
		return 1
	}
	return 0.5 * math.Erfc((n.Mean-x)/(n.Sd*math.Sqrt2))
}

// Within is the probability of lying between a and b.
func (m Mixture) Within(a, b float64) float64 { return m.Below(b) - m.Below(a) }

// Quantile is the x below which the probability p lies, to 1e-12 of the mixture's width.
func (m Mixture) Quantile(p float64) float64 {
	if len(m) == 0 || p <= 0 || p >= 1 {
		return math.NaN()
	}
	low, high := math.Inf(1), math.Inf(-1)
	for _, n := range m {
		low, high = min(low, n.Mean-9*n.Sd), max(high, n.Mean+9*n.Sd)
	}
	// A step of Newton's from the mean, halving where that leaves the bracket.
	x, close := m.Mean(), 1e-12*(high-low)
	for range 64 {
		off, slope := m.Below(x)-p, m.density(x)
		if off < 0 {
			low = x
		} else {
			high = x
		}
		next := x - off/slope
		if !(next > low && next < high) {
			next = (low + high) / 2
		}
		if math.Abs(next-x) <= close {
			return next
		}
		x = next
	}
	return x
}

func (m Mixture) density(x float64) float64 {
	sum := 0.0
	for _, n := range m {
		if n.Sd > 0 {
			z := (x - n.Mean) / n.Sd
			sum += n.Weight / n.Sd * math.Exp(-z*z/2)
		}
	}
	return sum / m.Total() / math.Sqrt(2*math.Pi)
}

// Mean is the mean of the mixture.
func (m Mixture) Mean() float64 {
	sum := 0.0
	for _, n := range m {
		sum += n.Weight * n.Mean
	}
	return sum / m.Total()
}

// Sd is the standard deviation of the mixture.
func (m Mixture) Sd() float64 {
	mean, sum := m.Mean(), 0.0
	for _, n := range m {
		sum += n.Weight * (n.Sd*n.Sd + (n.Mean-mean)*(n.Mean-mean))
	}
	return math.Sqrt(sum / m.Total())
}

// Thinned drops the lightest parts, together at most the share given, and says the rest in their stead.
func (m Mixture) Thinned(share float64) Mixture {
	m = append(Mixture(nil), m...)
	slices.SortStableFunc(m, func(a, b Normal) int { return cmp.Compare(b.Weight, a.Weight) })
	total, kept := m.Total(), 0.0
	for i, n := range m {
		if kept += n.Weight; kept >= (1-share)*total {
			return m[:i+1]
		}
	}
	return m
}

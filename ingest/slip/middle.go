package slip

import (
	"math"
	"slices"
)

// middle is the median of x, which it sorts, and the deviation that the median of the distances from it stands for were x normal.
// Both are NaN for none.
func middle(x []float64) (median, deviation float64) {
	median = medianOf(x)
	away := make([]float64, len(x))
	for i, v := range x {
		away[i] = math.Abs(v - median)
	}
	return median, medianOf(away) / 0.6745 // of the normal distribution's quartile
}

// medianOf sorts x.
func medianOf(x []float64) float64 {
	n := len(x)
	if n == 0 {
		return math.NaN()
	}
	slices.Sort(x)
	return (x[(n-1)/2] + x[n/2]) / 2
}

// lnNormal is the log density of the normal distribution at e from its mean.
func lnNormal(e, sd float64) float64 {
	z := e / sd
	return -0.5*z*z - math.Log(sd) - 0.9189385332046727 // half the log of 2 pi
}

// lnSum is the log of a sum of terms given by their logs.
func lnSum(x ...float64) float64 {
	top := slices.Max(x)
	if math.IsInf(top, -1) {
		return top
	}
	sum := 0.0
	for _, v := range x {
		sum += math.Exp(v - top)
	}
	return top + math.Log(sum)
}

// lnAdd is the log of the sum of two terms given by their logs.
func lnAdd(a, b float64) float64 {
	if b > a {
		a, b = b, a
	}
	if b < a-10 {
		return a
	}
	return a + math.Log1p(math.Exp(b-a))
}

// A tail is a normal distribution of which a rare share is wider.
type tail struct{ sd, rare, wide, top, side float64 }

func newTail(sd, rare, wide float64) tail {
	return tail{sd, rare, wide, math.Log(1-rare) + lnNormal(0, sd), math.Log(rare) + lnNormal(0, wide)}
}

// ln is the log density at e from the middle. It ends in a floor: nothing is quite impossible.
func (t *tail) ln(e float64) float64 {
	za, zb := e/t.sd, e/t.wide
	a, b := t.top-0.5*za*za, t.side-0.5*zb*zb
	if b > a {
		a, b = b, a
	}
	if b > a-8 {
		a += math.Log1p(math.Exp(b - a))
	}
	return max(a, lowest)
}

const lowest = -25

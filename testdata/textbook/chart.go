package textbook

import "math"

// Limits are those of a control chart.
type Limits struct{ Centre, Low, High float64 }

// Outside tells whether a point lies beyond the limits.
func (l Limits) Outside(x float64) bool { return x < l.Low || x > l.High }

// Individuals gives the limits of a chart of single values from their mean moving range, three deviations to either side:
// NIST/SEMATECH e-Handbook 6.3.2.2. 1.128 is the expected range of two values.
func Individuals(x []float64) (l Limits, range_ float64) {
	sum := 0.0
	for i := 1; i < len(x); i++ {
		sum += math.Abs(x[i] - x[i-1])
	}
	range_ = sum / float64(len(x)-1)
	mean := Mean(x)
	return Limits{mean, mean - 3*range_/1.128, mean + 3*range_/1.128}, range_
}

// EWMA gives the exponentially weighted moving average after each value, and its limits in the long run and
// at each point, k deviations to either side: NIST/SEMATECH e-Handbook 6.3.2.4.
func EWMA(x []float64, lambda, target, sd, k float64) (average []float64, always Limits, at []Limits) {
	width := func(share float64) Limits {
		w := k * sd * math.Sqrt(lambda/(2-lambda)*share)
		return Limits{target, target - w, target + w}
	}
	z := target
	for i, v := range x {
		z = lambda*v + (1-lambda)*z
		average = append(average, z)
		at = append(at, width(1-math.Pow(1-lambda, 2*float64(i+1))))
	}
	return average, width(1), at
}

// CUSUM gives the two one-sided sums after each value, and the index of the first beyond h, -1 for none:
// NIST/SEMATECH e-Handbook 6.3.2.3.
func CUSUM(x []float64, target, k, h float64) (high, low []float64, signal int) {
	signal = -1
	hi, lo := 0.0, 0.0
	for i, v := range x {
		hi = max(0, hi+v-target-k)
		lo = max(0, lo+target-k-v)
		high, low = append(high, hi), append(low, lo)
		if signal < 0 && max(hi, lo) > h {
			signal = i
		}
	}
	return high, low, signal
}

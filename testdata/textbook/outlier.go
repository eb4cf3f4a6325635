package textbook

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/stat/distuv"
)

// Grubbs gives the statistic of the value farthest from the mean, in deviations, and its critical value at alpha for both
// sides: NIST/SEMATECH e-Handbook 1.3.5.17.1.
func Grubbs(x []float64, alpha float64) (g, critical float64, index int) {
	g, index = farthest(x)
	return g, grubbsCritical(len(x), alpha/float64(2*len(x))), index
}

// GrubbsAbove is Grubbs where only a value too great is looked for.
func GrubbsAbove(x []float64, alpha float64) (g, critical float64) {
	g = (slices.Max(x) - Mean(x)) / Sd(x)
	return g, grubbsCritical(len(x), alpha/float64(len(x)))
}

// Extreme lists the indexes of the outliers among x by the generalised extreme Studentised deviate test, at most so many:
// Rosner, Technometrics 1983; NIST/SEMATECH e-Handbook 1.3.5.17.3. Their number is the last step that is
// significant, not the one before the first that isn't.
func Extreme(x []float64, most int, alpha float64) (outliers []int, r, critical []float64) {
	left, at := slices.Clone(x), make([]int, len(x))
	for i := range at {
		at[i] = i
	}
	var order []int
	count := 0
	for i := range most {
		g, k := farthest(left)
		c := grubbsCritical(len(left), alpha/float64(2*len(left)))
		r, critical, order = append(r, g), append(critical, c), append(order, at[k])
		if g > c {
			count = i + 1
		}
		left, at = slices.Delete(left, k, k+1), slices.Delete(at, k, k+1)
	}
	return order[:count], r, critical
}

func farthest(x []float64) (g float64, index int) {
	mean, sd := Mean(x), Sd(x)
	for i, v := range x {
		if d := math.Abs(v-mean) / sd; d > g {
			g, index = d, i
		}
	}
	return g, index
}

func grubbsCritical(n int, tail float64) float64 {
	t := -distuv.StudentsT{Mu: 0, Sigma: 1, Nu: float64(n - 2)}.Quantile(tail)
	return float64(n-1) / math.Sqrt(float64(n)) * math.Sqrt(t*t/(float64(n-2)+t*t))
}

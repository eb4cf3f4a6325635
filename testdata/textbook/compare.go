package textbook

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/stat/distuv"
)

// A Comparison is of the means of two samples.
type Comparison struct {
	T, DF, P  float64 // two-sided
	Low, High float64 // 95 % interval of the first mean less the second
}

// Welch compares means without taking the deviations for equal: 40 CFR 1065.602(f); NIST/SEMATECH e-Handbook 1.3.5.3.
func Welch(a, b []float64) Comparison {
	return WelchOf(Mean(a), Sd(a), len(a), Mean(b), Sd(b), len(b))
}

// WelchOf is Welch for samples of which only mean, deviation and size are known.
func WelchOf(meanA, sdA float64, nA int, meanB, sdB float64, nB int) Comparison {
	va, vb := sdA*sdA/float64(nA), sdB*sdB/float64(nB)
	df := (va + vb) * (va + vb) / (va*va/float64(nA-1) + vb*vb/float64(nB-1))
	return compared(meanA-meanB, math.Sqrt(va+vb), df)
}

// Pooled compares means under one deviation: NIST/SEMATECH e-Handbook 1.3.5.3.
func Pooled(a, b []float64) Comparison {
	na, nb := float64(len(a)), float64(len(b))
	df := na + nb - 2
	s := math.Sqrt(((na-1)*Sd(a)*Sd(a) + (nb-1)*Sd(b)*Sd(b)) / df)
	return compared(Mean(a)-Mean(b), s*math.Sqrt(1/na+1/nb), df)
}

func compared(difference, se, df float64) Comparison {
	d := distuv.StudentsT{Mu: 0, Sigma: 1, Nu: df}
	t := difference / se
	half := d.Quantile(0.975) * se
	return Comparison{t, df, 2 * d.CDF(-math.Abs(t)), difference - half, difference + half}
}

// U is the Mann-Whitney statistic of a against b: the pairs in which a is greater, ties counting half.
func U(a, b []float64) float64 {
	u := 0.0
	for _, x := range a {
		for _, y := range b {
			switch {
			case x > y:
				u++
			case x == y:
				u += 0.5
			}
		}
	}
	return u
}

// MannWhitney is the two-sided p value of U by the normal approximation, corrected for ties and continuity: Hollander
// and Wolfe, Nonparametric Statistical Methods (from memory), as R's wilcox.test has it.
func MannWhitney(a, b []float64) float64 {
	m, n := float64(len(a)), float64(len(b))
	all := slices.Sorted(slices.Values(slices.Concat(a, b)))
	ties := 0.0
	for i := 0; i < len(all); {
		k := i
		for k < len(all) && all[k] == all[i] {
			k++
		}
		t := float64(k - i)
		ties += t*t*t - t
		i = k
	}
	sd := math.Sqrt(m * n / 12 * (m + n + 1 - ties/((m+n)*(m+n-1))))
	z := max(0, math.Abs(U(a, b)-m*n/2)-0.5) / sd
	return 2 * distuv.UnitNormal.CDF(-z)
}

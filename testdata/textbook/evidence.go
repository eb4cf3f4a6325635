package textbook

import "math"

// LogEvidence is the logarithm of the always-valid evidence that one coefficient of a linear model is not nought: Lindon,
// Ham, Tingley and Bojinov, arXiv 2210.08589. t on nu degrees of freedom is the ordinary statistic, phi the precision
// of the prior of the standardised effect, z2 the squared length of the regressor after the others are projected
// out. Its exponential may be looked at after every observation.
func LogEvidence(t, nu, phi, z2 float64) float64 {
	r := phi / (phi + z2)
	return 0.5*math.Log(r) + 0.5*(nu+1)*(math.Log1p(t*t/nu)-math.Log1p(r*t*t/nu))
}

// LogEvidenceOfMeans is LogEvidence for the difference of two samples.
func LogEvidenceOfMeans(a, b []float64, phi float64) float64 {
	c := Pooled(a, b)
	na, nb := float64(len(a)), float64(len(b))
	return LogEvidence(c.T, c.DF, phi, na*nb/(na+nb))
}

package calc_test

import (
	"math"
	"testing"

	"brimlog/testdata/textbook"
)

// The second opinions that the program is held against are themselves held against what is published.

const nist = "../../testdata/nist/"

func column(t *testing.T, file, name string) []float64 {
	t.Helper()
	x, err := textbook.Column(nist+file, name)
	if err != nil {
		t.Fatal(err)
	}
	return x
}

// near tells whether got agrees with a published figure to that part of it.
func near(t *testing.T, what string, got, want, part float64) {
	t.Helper()
	if !(math.Abs(got-want) <= part*math.Abs(want)) {
		t.Errorf("%s: %.12g, published %.12g", what, got, want)
	}
}

// NIST/SEMATECH e-Handbook 1.3.5.3, data AUTO83B: T = -12.62059 on 326 degrees of freedom. The rest computed with R 4.2.2,
// t.test and wilcox.test.
func TestTwoSamplesOfAUTO83B(t *testing.T) {
	us, japan := column(t, "auto83b.csv", "us_mpg"), column(t, "auto83b.csv", "japan_mpg")
	if len(us) != 249 || len(japan) != 79 {
		t.Fatalf("%d and %d values", len(us), len(japan))
	}
	p := textbook.Pooled(us, japan)
	near(t, "pooled t", p.T, -12.62059, 5e-7)
	near(t, "its degrees of freedom", p.DF, 326, 0)
	near(t, "its p", p.P, 5.272935e-30, 1e-6)
	near(t, "low", p.Low, -11.947653, 1e-7)
	near(t, "high", p.High, -8.725216, 1e-7)
	w := textbook.Welch(us, japan)
	near(t, "Welch's t", w.T, -12.946273274932, 1e-12)
	near(t, "its degrees of freedom", w.DF, 136.874976672583, 1e-12)
	near(t, "its p", w.P, 1.570855e-25, 1e-6)
	near(t, "U", textbook.U(us, japan), 2521.5, 0)
	near(t, "its p", textbook.MannWhitney(us, japan), 2.07032939659965e-23, 1e-9)
	log := func(x []float64) (out []float64) {
		for _, v := range x {
			out = append(out, math.Log(v))
		}
		return out
	}
	near(t, "Welch's t of ln mpg", textbook.Welch(log(us), log(japan)).T, -14.456941, 1e-7)
}

// R 4.2.2, wilcox.test(a, b, exact = FALSE)$p.value.
func TestMannWhitneyOfFewValues(t *testing.T) {
	a, b := []float64{1.1, 2.2, 3.3, 4.7, 5.9, 7.3, 8.8}, []float64{2.9, 4.1, 6.5, 9.2, 10.4}
	near(t, "U", textbook.U(a, b), 11, 0)
	near(t, "p", textbook.MannWhitney(a, b), 0.329859194655477, 1e-12)
}

// The worked example of 40 CFR 1065.602(f).
func TestWelchOf40CFR1065(t *testing.T) {
	c := textbook.WelchOf(1205.3, 9.399, 11, 1123.8, 10.583, 7)
	if math.Abs(c.T-16.63) > 0.005 || math.Abs(c.DF-11.76) > 0.005 {
		t.Errorf("t = %.4f on %.4f degrees of freedom, printed 16.63 on 11.76", c.T, c.DF)
	}
}

// Lindon, Ham, Tingley and Bojinov, arXiv 2210.08589; the first three agree with the mixture of noncentral t to ten digits.
func TestAlwaysValidEvidence(t *testing.T) {
	for _, c := range []struct{ t, nu, phi, z2, want float64 }{
		{2, 10, 1, 12, 0.4014432005}, {3, 20, 1, 5.5, 2.262651686}, {5, 18, 4, 5, 3.30029669}, {0, 8, 1, 9, -1.151292546},
	} {
		near(t, "log evidence", textbook.LogEvidence(c.t, c.nu, c.phi, c.z2), c.want, 1e-9)
	}
}

// NIST/SEMATECH e-Handbook 6.3.2.2.
func TestIndividualsChart(t *testing.T) {
	l, r := textbook.Individuals(column(t, "imr10.csv", "x"))
	for _, c := range []struct{ got, want float64 }{{l.Centre, 50.81}, {r, 1.8778}, {l.High, 55.8041}, {l.Low, 45.8159}} {
		if math.Abs(c.got-c.want) > 6e-5 {
			t.Errorf("%.5f, printed %v", c.got, c.want)
		}
	}
}

// NIST/SEMATECH e-Handbook 6.3.2.4.
func TestEWMAChart(t *testing.T) {
	average, always, at := textbook.EWMA(column(t, "ewma20.csv", "y"), 0.3, 50, 2.0539, 3)
	if math.Abs(always.High-52.5884) > 6e-5 || math.Abs(always.Low-47.4115) > 1.1e-4 {
		t.Errorf("limits %.5f and %.5f, printed 52.5884 and 47.4115", always.High, always.Low)
	}
	want, high := column(t, "ewma20.csv", "ewma"), column(t, "ewma20.csv", "ucl_t")
	for i := range want {
		if math.Abs(average[i]-want[i]) > 1e-6 || math.Abs(at[i].High-high[i]) > 1e-6 {
			t.Errorf("after %d: %.6f below %.6f, want %.6f below %.6f", i+1, average[i], at[i].High, want[i], high[i])
		}
	}
}

// NIST/SEMATECH e-Handbook 6.3.2.3: target 325, k 0.3175, h 4.1959, first signal at point 14.
func TestCUSUMChart(t *testing.T) {
	high, low, signal := textbook.CUSUM(column(t, "cusum20.csv", "x"), 325, 0.3175, 4.1959)
	if signal+1 != 14 {
		t.Errorf("first signal at point %d, printed 14", signal+1)
	}
	wantHigh, wantLow := column(t, "cusum20.csv", "hi"), column(t, "cusum20.csv", "lo")
	for i := range wantHigh {
		if math.Abs(high[i]-wantHigh[i]) > 1e-9 || math.Abs(low[i]-wantLow[i]) > 1e-9 {
			t.Errorf("point %d: %.4f and %.4f, want %.4f and %.4f", i+1, high[i], low[i], wantHigh[i], wantLow[i])
		}
	}
}

// NIST/SEMATECH e-Handbook 1.3.5.17.1.
func TestGrubbs(t *testing.T) {
	x := column(t, "grubbs8.csv", "x")
	g, both, index := textbook.Grubbs(x, 0.05)
	above, one := textbook.GrubbsAbove(x, 0.05)
	near(t, "G", g, 2.46876461, 1e-8)
	near(t, "G above", above, 2.46876461, 1e-8)
	near(t, "critical, both sides", both, 2.12664509, 1e-8)
	near(t, "critical, one side", one, 2.03165200, 1e-8)
	if x[index] != 245.57 {
		t.Errorf("picked %v", x[index])
	}
}

// NIST/SEMATECH e-Handbook 1.3.5.17.3, data of Rosner 1983.
func TestExtremeDeviates(t *testing.T) {
	outliers, r, critical := textbook.Extreme(column(t, "rosner54.csv", "x"), 10, 0.05)
	if len(outliers) != 3 {
		t.Errorf("%d outliers, published 3", len(outliers))
	}
	for i, want := range [][2]float64{
		{3.118906, 3.158794}, {2.942973, 3.151430}, {3.179424, 3.143890}, {2.810181, 3.136165}, {2.815580, 3.128247},
		{2.848172, 3.120128}, {2.279327, 3.111796}, {2.310366, 3.103243}, {2.101581, 3.094456}, {2.067178, 3.085425},
	} {
		near(t, "R", r[i], want[0], 2e-6)
		near(t, "critical", critical[i], want[1], 2e-6)
	}
}

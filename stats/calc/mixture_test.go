package calc_test

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/integrate/quad"
	"gonum.org/v1/gonum/stat/distuv"
	"pgregory.net/rapid"

	"brimlog/stats/calc"
)

// One part alone is gonum's normal.
func TestMixtureOfOneIsNormal(t *testing.T) {
	n := distuv.Normal{Mu: -0.07, Sigma: 0.03}
	m := calc.Mixture{{Weight: 3, Mean: n.Mu, Sd: n.Sigma}}
	for _, p := range []float64{1e-6, 0.05, 0.25, 0.5, 0.9, 0.95, 1 - 1e-6} {
		if got, want := m.Quantile(p), n.Quantile(p); math.Abs(got-want) > 1e-8 {
			t.Errorf("quantile %v: %v, gonum has %v", p, got, want)
		}
		if got, want := m.Below(n.Quantile(p)), p; math.Abs(got-want) > 1e-12 {
			t.Errorf("below: %v, want %v", got, want)
		}
	}
	if got, want := m.Within(-0.1, 0.1), n.CDF(0.1)-n.CDF(-0.1); math.Abs(got-want) > 1e-14 {
		t.Errorf("within: %v, want %v", got, want)
	}
}

// Any mixture against its density, integrated by gonum; weights need not add up to 1.
func TestMixtureAgreesWithItsDensity(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m, density := drawMixture(t)
		part := func(f func(float64) float64, a, b float64) float64 { return quad.Fixed(f, a, b, 800, nil, 0) }
		far := 14.0
		x := rapid.Float64Range(-3, 3).Draw(t, "x")
		if got, want := m.Below(x), part(density, -far, x); math.Abs(got-want) > 1e-6 {
			t.Fatalf("below %v: %v, integrated %v", x, got, want)
		}
		mean := part(func(x float64) float64 { return x * density(x) }, -far, far)
		if math.Abs(m.Mean()-mean) > 1e-6 {
			t.Fatalf("mean %v, integrated %v", m.Mean(), mean)
		}
		square := part(func(x float64) float64 { return (x - mean) * (x - mean) * density(x) }, -far, far)
		if math.Abs(m.Sd()-math.Sqrt(square)) > 1e-6 {
			t.Fatalf("deviation %v, integrated %v", m.Sd(), math.Sqrt(square))
		}
		p := rapid.Float64Range(0.001, 0.999).Draw(t, "p")
		if got := m.Below(m.Quantile(p)); math.Abs(got-p) > 1e-7 {
			t.Fatalf("below the quantile of %v lies %v", p, got)
		}
	})
}

func drawMixture(t *rapid.T) (m calc.Mixture, density func(float64) float64) {
	for range rapid.IntRange(1, 6).Draw(t, "parts") {
		m = append(m, calc.Normal{
			Weight: rapid.Float64Range(0.01, 5).Draw(t, "weight"),
			Mean:   rapid.Float64Range(-2, 2).Draw(t, "mean"),
			Sd:     rapid.Float64Range(0.2, 1.2).Draw(t, "sd"),
		})
	}
	return m, func(x float64) float64 {
		sum := 0.0
		for _, n := range m {
			sum += n.Weight / m.Total() * distuv.Normal{Mu: n.Mean, Sigma: n.Sd}.Prob(x)
		}
		return sum
	}
}

// What is certain has no width.
func TestMixtureOfCertainties(t *testing.T) {
	m := calc.Mixture{{Weight: 1, Mean: 0}, {Weight: 3, Mean: 2}}
	for _, c := range []struct{ x, want float64 }{{-1, 0}, {0, 0.25}, {1, 0.25}, {2, 1}, {3, 1}} {
		if got := m.Below(c.x); got != c.want {
			t.Errorf("below %v: %v, want %v", c.x, got, c.want)
		}
	}
	if got := m.Quantile(0.5); math.Abs(got-2) > 1e-8 {
		t.Errorf("median %v, want 2", got)
	}
}

func TestQuantileRefuses(t *testing.T) {
	m := calc.Mixture{{Weight: 1, Mean: 0, Sd: 1}}
	for _, p := range []float64{-0.1, 0, 1, 1.1} {
		if x := m.Quantile(p); !math.IsNaN(x) {
			t.Errorf("quantile %v: %v, want none", p, x)
		}
	}
	if x := (calc.Mixture{}).Quantile(0.5); !math.IsNaN(x) {
		t.Errorf("quantile of nothing: %v, want none", x)
	}
}

// What is left out weighs at most the share given, and nothing lighter is kept in its stead.
func TestThinnedDropsTheLightest(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m, _ := drawMixture(t)
		share := rapid.Float64Range(0, 0.6).Draw(t, "share")
		before := append(calc.Mixture{}, m...)
		thin := m.Thinned(share)
		if lost := 1 - thin.Total()/m.Total(); lost > share+1e-12 {
			t.Fatalf("lost %v of the weight, at most %v was allowed", lost, share)
		}
		lightest := math.Inf(1)
		for _, n := range thin {
			lightest = min(lightest, n.Weight)
		}
		if (thin.Total()-lightest)/m.Total() >= 1-share+1e-12 {
			t.Fatalf("kept a part of weight %v that could go", lightest)
		}
		for i := range m {
			if m[i] != before[i] {
				t.Fatal("changed what it was given")
			}
		}
	})
}

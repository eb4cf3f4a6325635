package model

import (
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat"
)

// A drawn state has the history's mean and covariance, singular though that may be.
func TestDrawnStateHasItsCovariance(t *testing.T) {
	const n, draws = 4, 40000
	// The third is the sum of the first two, the fourth is known.
	p := []float64{
		4, 1, 5, 0,
		1, 9, 10, 0,
		5, 10, 15, 0,
		0, 0, 0, 0,
	}
	mean := []float64{1, -2, 3, 7}
	rng := rand.New(rand.NewPCG(1, 2))
	all := mat.NewDense(draws, n, nil)
	for i := range draws {
		h := &history{x: append([]float64(nil), mean...), p: append([]float64(nil), p...)}
		h.jitter(n, rng)
		all.SetRow(i, h.x)
		if off := h.x[2] - h.x[0] - h.x[1] - 4; math.Abs(off) > 1e-9 || h.x[3] != 7 {
			t.Fatalf("drew %v", h.x)
		}
	}
	var got mat.SymDense
	stat.CovarianceMatrix(&got, all, nil)
	for i := range n {
		if m := stat.Mean(mat.Col(nil, i, all), nil); math.Abs(m-mean[i]) > 0.08 {
			t.Errorf("mean of %d: %v", i, m)
		}
		for j := range n {
			if want := p[i*n+j]; math.Abs(got.At(i, j)-want) > 4*math.Sqrt((p[i*n+i]*p[j*n+j]+want*want)/draws)+1e-9 {
				t.Errorf("covariance of %d and %d: %v, want %v", i, j, got.At(i, j), want)
			}
		}
	}
}

// The last digits of the covariance move the draw by no more than themselves.
func TestDrawnStateMovesWithRounding(t *testing.T) {
	p := []float64{1, 0.5, 0.5, 0.5, 1, 0.5, 0.5, 0.5, 1} // of two equal eigenvalues
	draw := func(nudge float64) []float64 {
		h := &history{x: make([]float64, 3), p: append([]float64(nil), p...)}
		h.p[1] += nudge
		h.p[3] += nudge
		h.jitter(3, rand.New(rand.NewPCG(3, 4)))
		return h.x
	}
	a, b := draw(0), draw(1e-13)
	for i := range a {
		if math.Abs(a[i]-b[i]) > 1e-11 {
			t.Errorf("drew %v and %v", a, b)
		}
	}
}

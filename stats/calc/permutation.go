package calc

import "math"

// A Stratum holds small whole scores of two groups that may only be exchanged within it.
type Stratum struct{ Before, After []int }

// Permutation is the two-sided exact p value of the sum of After's scores under exchange within each stratum:
// the chance of a sum at least as far from its expectation. It counts all exchanges by the generating
// function of the sums, so nothing is sampled. NaN when a group is empty in every stratum.
func Permutation(strata []Stratum) float64 {
	total := []float64{1} // chance of each sum
	expected, observed, usable := 0.0, 0, false
	for _, s := range strata {
		if len(s.Before) == 0 || len(s.After) == 0 {
			continue
		}
		usable = true
		all := append(append([]int{}, s.Before...), s.After...)
		sum := 0
		for _, x := range all {
			sum += x
		}
		expected += float64(sum) * float64(len(s.After)) / float64(len(all))
		for _, x := range s.After {
			observed += x
		}
		total = convolve(total, sums(all, len(s.After)))
	}
	if !usable {
		return math.NaN()
	}
	far := math.Abs(float64(observed)-expected) - 1e-9
	p := 0.0
	for sum, chance := range total {
		if math.Abs(float64(sum)-expected) >= far {
			p += chance
		}
	}
	return min(1, p)
}

// sums is the distribution of the sum of k scores drawn without replacement.
func sums(scores []int, k int) []float64 {
	most := 0
	for _, x := range scores {
		most += x
	}
	ways := make([][]float64, k+1) // chance weight of drawing j with a sum
	for j := range ways {
		ways[j] = make([]float64, most+1)
	}
	ways[0][0] = 1
	for i, x := range scores {
		for j := min(i+1, k); j >= 1; j-- {
			for s := most; s >= x; s-- {
				ways[j][s] += ways[j-1][s-x]
			}
		}
	}
	all := 0.0
	for _, w := range ways[k] {
		all += w
	}
	for s := range ways[k] {
		ways[k][s] /= all
	}
	return ways[k]
}

func convolve(a, b []float64) []float64 {
	out := make([]float64, len(a)+len(b)-1)
	for i, x := range a {
		for j, y := range b {
			out[i+j] += x * y
		}
	}
	return out
}

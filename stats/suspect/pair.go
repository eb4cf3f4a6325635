package suspect

import (
	"math"
	"slices"
)

// coincidence is how readily a second fault stands beside a first, against chance meeting: on old vehicles, where a
// fault is brought in only once it is felt, about one in ten has two (common practice).
const coincidence = 0.15

// negligible is the weight, beside the likeliest cause's, below which a pair is nothing.
const negligible = 1e-14

// A pair is two causes at once.
type pair struct {
	a, b   int
	chance float64
}

// pairPriors is the prior chance each cause holds through its pairs, half of each. It is taken from the cause's own
// prior, so that together they are just what the prior says when nothing is known.
func (w *weighing) pairPriors() []float64 {
	listed := 0.0
	for i, c := range w.t.Causes {
		if c.listed() {
			listed += w.prior[i]
		}
	}
	together := make([]float64, len(w.prior))
	for i, c := range w.t.Causes {
		if c.listed() {
			together[i] = 0.5 * coincidence * w.prior[i] * (listed - w.prior[i])
		}
	}
	return together
}

// weighPairs weighs every two listed causes. Of two causes the louder one is heard in each sign; their fuel adds up.
func (w *weighing) weighPairs() {
	least := negligible * slices.Max(w.alone)
	for a := range w.t.Causes {
		if !w.t.Causes[a].listed() || w.prior[a] == 0 {
			continue
		}
		for b := a + 1; b < len(w.t.Causes); b++ {
			if w.t.Causes[b].listed() && w.prior[b] > 0 {
				prior := coincidence * w.prior[a] * w.prior[b]
				if weight := prior * w.both(a, b, least/prior); weight > 0 {
					w.pairs = append(w.pairs, pair{a, b, weight})
				}
			}
		}
	}
}

// both is the likelihood of everything known when a and b stand together: each speaks for the signs in which it is the
// louder, as severe as it may be, and the fuel hears both. What can't come to more than least is not reckoned out.
func (w *weighing) both(a, b int, least float64) float64 {
	var byA, byB [severities]float64
	for s, share := range severityShare {
		byA[s], byB[s] = share, share
	}
	fuel := -1
	for k, o := range w.obs {
		switch {
		case o.sign == w.t.fuel:
			fuel = k
		case w.t.loud[a][o.sign] >= w.t.loud[b][o.sign]:
			speak(&byA, w.like[a], k)
		default:
			speak(&byB, w.like[b], k)
		}
	}
	if fuel < 0 {
		return total(byA) * total(byB)
	}
	most := math.Pow(1/w.obs[fuel].sd+w.obs[fuel].wild, w.t.telling) // no density is higher
	if total(byA)*total(byB)*most < least {
		return 0
	}
	for _, by := range []*[severities]float64{&byA, &byB} { // what nobody feels drinks as usual
		by[usual], by[unfelt] = by[usual]+by[unfelt], 0
	}
	sum := 0.0
	for s, p := range byA {
		for v, q := range byB {
			if p*q*most >= least/severities/severities {
				q *= bothFuel(w.laws[a][w.t.fuel].peaks[s], w.laws[b][w.t.fuel].peaks[v], w.obs[fuel], w.t.telling)
				sum += p * q
			}
		}
	}
	return sum
}

func total(by [severities]float64) (sum float64) {
	for _, p := range by {
		sum += p
	}
	return sum
}

func speak(by *[severities]float64, like [severities][]float64, k int) {
	for s := range by {
		by[s] *= like[s][k]
	}
}

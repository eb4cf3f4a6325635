package suspect

import (
	"math"
	"slices"
)

// A weighing is the evidence laid on the table's scales.
type weighing struct {
	t        *Table
	e        Evidence
	obs      []observation
	prior    []float64
	laws     [][]law
	like     [][severities][]float64 // of each cause and severity, for each observation
	mixed    [][]float64             // the same over severities; for 'not listed', over all causes
	alone    []float64               // chance that the cause stands alone
	severity [][severities]float64   // how severe it would be, given what is known
	pairs    []pair
	chance   []float64 // alone, and half of each pair that it is part of
}

// weigh reckons every chance. Observations are independent given the cause and how severe it is.
func (t *Table) weigh(e Evidence) (*weighing, []string) {
	obs, notes := t.observe(e)
	w := &weighing{t: t, e: e, obs: obs, prior: t.Prior(e)}
	w.likelihoods()
	w.weighAlone()
	w.weighPairs()
	w.share()
	return w, notes
}

// likelihoods fills like and mixed.
func (w *weighing) likelihoods() {
	n := len(w.t.Causes)
	w.like, w.mixed, w.laws = make([][severities][]float64, n), make([][]float64, n), slices.Clone(w.t.laws)
	for i := range w.t.Causes {
		if pct, ok := w.e.ExtraFuelPct[w.t.Causes[i].ID]; ok {
			w.laws[i] = w.withModel(w.laws[i], pct)
		}
		w.mixed[i] = make([]float64, len(w.obs))
		for s, share := range severityShare {
			w.like[i][s] = make([]float64, len(w.obs))
			for k, o := range w.obs {
				l := w.laws[i][o.sign].like(o, s, w.t.telling)
				w.like[i][s][k] = l
				w.mixed[i][k] += share * l
			}
		}
	}
	w.expectAnything()
}

// withModel puts the cycle model's figure in place of the table's range, with a third of it as doubt.
func (w *weighing) withModel(laws []law, pct float64) []law {
	laws = slices.Clone(laws)
	if w.t.fuel >= 0 {
		e := fuelEffect(pct, pct)
		e.sd = 0.01 + 0.3*math.Abs(e.mean)
		laws[w.t.fuel] = fuelLaw(e)
	}
	return laws
}

// expectAnything gives 'not listed' the average of the listed causes, sign by sign: it is surprised by a sign no more
// than the trade is, and by a combination not at all.
func (w *weighing) expectAnything() {
	u := w.t.rank[NotListed]
	common := w.t.common(w.e)
	for k := range w.obs {
		w.mixed[u][k] = 0
		for s, often := range severityShare {
			w.like[u][s][k] = 0
			for i, share := range common {
				if share > 0 {
					w.like[u][s][k] += share * w.like[i][s][k]
				}
			}
			w.mixed[u][k] += often * w.like[u][s][k]
		}
	}
}

// weighAlone gives each cause its weight as the only one, not yet made to sum to one.
func (w *weighing) weighAlone() {
	together := w.pairPriors()
	w.alone, w.severity = make([]float64, len(w.prior)), make([][severities]float64, len(w.prior))
	for i := range w.prior {
		total := 0.0
		for s, share := range severityShare {
			p := share
			for _, l := range w.like[i][s] {
				p *= l
			}
			w.severity[i][s] = p
			total += p
		}
		for s := range w.severity[i] {
			w.severity[i][s] /= total
		}
		w.alone[i] = (w.prior[i] - together[i]) * total
	}
}

// share makes everything sum to one, and gives each of a pair half of the pair's chance.
func (w *weighing) share() {
	sum := 0.0
	for _, a := range w.alone {
		sum += a
	}
	for _, p := range w.pairs {
		sum += p.chance
	}
	w.chance = make([]float64, len(w.alone))
	for i := range w.alone {
		w.alone[i] /= sum
		w.chance[i] += w.alone[i]
	}
	for k := range w.pairs {
		w.pairs[k].chance /= sum
		w.chance[w.pairs[k].a] += w.pairs[k].chance / 2
		w.chance[w.pairs[k].b] += w.pairs[k].chance / 2
	}
}

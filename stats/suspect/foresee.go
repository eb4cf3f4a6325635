package suspect

import (
	"math"

	"gonum.org/v1/gonum/stat/distuv"
)

// A hypothesis is one cause alone, or two at once; b is -1 when alone.
type hypothesis struct {
	a, b   int
	chance float64
}

// hypotheses are every cause alone and the pairs that still have a chance, summing to one.
func (w *weighing) hypotheses() []hypothesis {
	var hs []hypothesis
	sum := 0.0
	for i, p := range w.alone {
		if p > 0 {
			hs, sum = append(hs, hypothesis{i, -1, p}), sum+p
		}
	}
	for _, p := range w.pairs {
		if p.chance > 0.004 {
			hs, sum = append(hs, hypothesis{p.a, p.b, p.chance}), sum+p.chance
		}
	}
	for i := range hs {
		hs[i].chance /= sum
	}
	return hs
}

// expect gives the chances of the sign's outcomes under each hypothesis: its words, or cells of its scale.
func (w *weighing) expect(hs []hypothesis, sign int) [][]float64 {
	by := w.outcomes(sign)
	table := make([][]float64, len(hs))
	for i, h := range hs {
		table[i] = by[h.a]
		if h.b >= 0 && w.t.loud[h.b][sign] > w.t.loud[h.a][sign] {
			table[i] = by[h.b]
		}
	}
	return table
}

// outcomes gives them by cause; 'not listed' expects what all causes together expect.
func (w *weighing) outcomes(sign int) [][]float64 {
	by := make([][]float64, len(w.t.Causes))
	sound := w.outcome(w.t.rank[NothingWrong], sign)
	anything := make([]float64, len(sound))
	common := w.t.common(w.e)
	for i := range w.t.Causes {
		by[i] = sound
		if !w.laws[i][sign].sound {
			by[i] = w.outcome(i, sign)
		}
		for o, p := range by[i] {
			anything[o] += common[i] * p
		}
	}
	by[w.t.rank[NotListed]] = anything
	return by
}

// outcome averages the cause's law over how severe it would be, given what is known. Readings do not depend on that.
func (w *weighing) outcome(cause, sign int) []float64 {
	l := w.laws[cause][sign]
	if l.chances[0] == nil {
		return cells(l.peaks[0], w.scatter(sign))
	}
	out := make([]float64, len(l.chances[0]))
	for s, share := range w.severity[cause] {
		for o, p := range l.chances[s] {
			out[o] += share * p
		}
	}
	return out
}

// cells are the chances of a figure falling into cells one scatter wide around sound.
func cells(peaks []peak, scatter float64) []float64 {
	const n = 9
	out := make([]float64, n)
	for _, p := range peaks {
		law := distuv.Normal{Mu: p.mean, Sigma: math.Hypot(p.sd, scatter)}
		below := 0.0
		for o := range out {
			up := 1.0
			if o < n-1 {
				up = law.CDF((float64(o) - 3.5) * scatter)
			}
			out[o] += (1 - outlier) * p.share * (up - below)
			below = up
		}
	}
	for o := range out {
		out[o] += outlier / n
	}
	return out
}

// scatter is how far a sound vehicle would read: less where the owner has an earlier figure.
func (w *weighing) scatter(sign int) float64 {
	s := w.t.Signs[sign]
	if _, ok := value(w.e.Baseline, s.Reading); ok {
		return s.OwnSD
	}
	return s.SD
}

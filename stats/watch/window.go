package watch

import (
	"cmp"
	"math"
	"slices"

	"brimlog/ingest/tank"
	"brimlog/stats/model"
)

// A window is a stretch of tanks that holds one step.
type window struct {
	peak, first, last int
	chance            float64 // of a step within reach of the peak
	held              float64 // of one within the window
	sure              float64 // share of that which falls to the peak
}

// windows finds the stretches in which a step is likely enough to be told, in order: those narrow enough for a date, and
// those that are not.
func windows(step []float64) (narrow, wide []window) {
	left := slices.Clone(step)
	peaks := make([]int, 0, len(step))
	for i, s := range step {
		if s >= told/(2*reach+1) {
			peaks = append(peaks, i)
		}
	}
	slices.SortStableFunc(peaks, func(a, b int) int { return cmp.Compare(step[b], step[a]) })
	for _, peak := range peaks {
		for left[peak] > 0 { // again, where a likelier stretch close by came first
			w := around(left, peak)
			if w.chance < told {
				break
			}
			clear(left[w.first : w.last+1])
			if w.last-w.first < widest {
				narrow = append(narrow, w)
			} else {
				wide = append(wide, w)
			}
		}
	}
	byPeak := func(a, b window) int { return cmp.Compare(a.peak, b.peak) }
	slices.SortFunc(narrow, byPeak)
	slices.SortFunc(wide, byPeak)
	return narrow, wide
}

// around finds, of all stretches within reach of a peak, the shortest that holds the share asked for. Where two steps lie close by, that
// may be one beside the peak, with a peak of its own.
func around(step []float64, peak int) window {
	w := window{peak: peak}
	low, high := max(0, w.peak-reach), min(len(step), w.peak+reach+1)
	for _, s := range step[low:high] {
		w.chance += s
	}
	w.chance = min(w.chance, 1-1e-6) // two steps close by count one each
	w.first, w.last, w.held = low, high-1, w.chance
	for first := low; first < high; first++ {
		held := 0.0
		for last := first; last < high; last++ {
			held += step[last]
			wider := last - first - (w.last - w.first)
			if held >= windowed*w.chance && (wider < 0 || wider == 0 && held > w.held) {
				w.first, w.last, w.held = first, last, min(held, w.chance)
			}
		}
	}
	for i := w.first; i <= w.last; i++ {
		if w.peak < w.first || w.peak > w.last || step[i] > step[w.peak] {
			w.peak = i
		}
	}
	w.sure = step[w.peak] / max(w.held, step[w.peak])
	return w
}

// meets tells whether two windows share a tank.
func (w window) meets(v window) bool { return w.first <= v.last && v.first <= w.last }

// touches tells whether a window shares a tank with a shift.
func (w window) touches(s Shift) bool { return w.meets(window{first: s.First, last: s.Last}) }

// odds holds the chance of a step in the window against what it was before the log was seen, of one on some date among the tanks that
// the model looks back over: that is what the search costs, and it does not grow with the log.
func odds(l *tank.Log, w window) float64 {
	km := (l.Tanks[w.last].To - l.Tanks[w.first].From) / float64(w.last-w.first+1)
	prior := -math.Expm1(-model.LookBack * km / model.OnsetKm)
	return w.held / (1 - w.held) * (1 - prior) / prior
}

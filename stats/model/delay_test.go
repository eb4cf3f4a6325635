package model

import (
	"math"
	"math/rand/v2"
	"os"
	"testing"
)

// The running watch set beside control charts, on a plain series: a level, independent normal scatter, one step. Average
// run lengths of the charts are those of designs with a false alarm in 500 observations (EWMA lambda 0.2, L 2.962 and CUSUM
// k 0.5, h 5; R package spc 0.6.7, xewma.arl and xcusum.arl; the designs of Lucas & Saccucci, Technometrics 1990, from
// memory): 5.5 for a step of 1.5 deviations, 3.0 to 3.2 for 2.5 (between their figures for 2 and 3). The charts are told level and
// scatter; the watch learns both, so it comes near them after a long quiet time and later after a short one. It must not grow deaf.
func TestStepIsSeenAboutAsEarlyAsChartsSeeIt(t *testing.T) {
	series := 30
	cases := []struct {
		quiet                 int
		step, charts, allowed float64
	}{{20, 1.5, 5.5, 16}, {20, 2.5, 3.2, 4.4}, {200, 1.5, 5.5, 9}, {200, 2.5, 3.2, 3.7}}
	if os.Getenv("BRIMLOG_LONG") != "" {
		series = 100
		cases = append(cases, cases[2], cases[3])
		cases[4].quiet, cases[5].quiet = 1500, 1500
	}
	for _, c := range cases {
		late, alarms := 0.0, 0
		for k := range series {
			delay, before := watchSeries(c.quiet, c.step, uint64(k+1))
			late += float64(delay) / float64(series)
			if before {
				alarms++
			}
		}
		looked := series * c.quiet
		t.Logf("after %4d quiet tanks, a step of %.1f deviations: seen after %.1f tanks on average (charts that are told all: %.1f); false alarms %.2f in 100 tanks",
			c.quiet, c.step, late, c.charts, 100*float64(alarms)/float64(looked))
		if late > c.allowed {
			t.Errorf("after %d quiet tanks a step of %.1f deviations took %.1f tanks, more than %.1f", c.quiet, c.step, late, c.allowed)
		}
		if most := float64(looked)/500 + 3*math.Sqrt(float64(looked)/500); float64(alarms) > most {
			t.Errorf("after %d quiet tanks: %d false alarms in %d tanks", c.quiet, alarms, looked)
		}
	}
}

// watchSeries runs one series and gives the tanks from its step to the alarm, and whether there was one before it.
func watchSeries(quiet int, step float64, seed uint64) (delay int, before bool) {
	const sd, most = 0.035, 40
	rng := rand.New(rand.NewPCG(seed, uint64(quiet)))
	d := plainDesign(quiet+most, func(i int) float64 {
		y := sd * rng.NormFloat64()
		if i >= quiet {
			y += step * sd
		}
		return y
	})
	l := newLanes(d)
	alarmed := false
	for i := range d.Obs {
		l, _ = l.step(&d.Obs[i], role{fold: true})
		if seen := l.likeliestWindow() >= told; seen && i >= quiet {
			return i - quiet + 1, alarmed
		} else if seen {
			alarmed = true
		}
	}
	return most, alarmed
}

const told = 0.25 // as package watch has it

// likeliestWindow is the largest chance of a step within nine tanks on end.
func (l lanes) likeliestWindow() float64 {
	shares, best := l.shares(), 0.0
	var chance [onsetMemory]float64
	for bit := 1; bit < onsetMemory; bit++ {
		chance[bit] = l.chance(shares, func(h *history) bool { return h.onsets>>bit&1 == 1 })
	}
	for first := 1; first < onsetMemory; first++ {
		sum := 0.0
		for bit := first; bit < min(first+9, onsetMemory); bit++ {
			sum += chance[bit]
		}
		best = max(best, sum)
	}
	return best
}

// plainDesign is a log of nothing but a level, with so much fuel in each observation that no brim tells.
func plainDesign(n int, y func(int) float64) *Design {
	const level = 2.0
	d := &Design{Priors: []Prior{{Name: "level", Mean: level, Sd: 0.5}}}
	for i := range n {
		d.Obs = append(d.Obs, Obs{Y: level + y(i), Km: typicalTankKm, X: []float64{1}, E: []float64{0}, Clump: typicalClump, Chained: i > 0})
	}
	return d
}

const typicalTankKm = 400

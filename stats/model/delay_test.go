package model

import (
	"math"
	"math/rand/v2"
	"os"
	"strconv"
	"testing"

	"brimlog/testdata/table"
)

// The running watch set beside control charts on a plain series: a level, independent normal scatter, one step. All give their first false
// alarm as late as the watch does. Charts that are told level and scatter: EWMA 0.2 and CUSUM 0.5 by R package spc 0.6.7, see testdata/breaks.
// Charts that must learn them, as the watch must, from the quiet tanks: EWMA 0.2 about their mean and deviation.
//
// Measured with BRIMLOG_LONG=1, 1000 series each, 250 after 1500 tanks, in tanks from the step to the alarm, 40 where there is none within 40:
//
//	quiet  a false alarm in  step  watch  learning  told: EWMA, CUSUM
//	   20         351 tanks   1.5   10.3       8.4           5.1   5.0
//	                          2.5    3.0       3.6           2.7   2.7
//	  200         533         1.5    5.7       5.7           5.5   5.4
//	                          2.5    2.6       3.0           2.9   2.9
//	 1500         551         1.5    5.7       5.5           5.5   5.5
//	                          2.5    2.7       2.9           2.9   3.0
//
// So the watch is earlier where a step is plain, as early to a quarter of a tank where it is small, and later by two tanks where it is small and
// the quiet time was short: it has to leave room for steps of any size, for habits that drift and for tanks that scatter three times as wide as usual.
func TestStepIsSeenAboutAsEarlyAsChartsSeeIt(t *testing.T) {
	long := os.Getenv("BRIMLOG_LONG") != ""
	for _, c := range []struct {
		quiet, calm, series int        // tanks before the step; series without a step; series with one
		learning, told      [2]float64 // how much later than either chart the watch may be, for 1.5 and 2.5 deviations
	}{{20, 400, 100, [2]float64{4, 0.5}, [2]float64{8, 1}}, {200, 100, 100, [2]float64{1.2, 0.3}, [2]float64{1.5, 0.3}}, {1500, 0, 60, [2]float64{1.5, 0.5}, [2]float64{1.5, 0.5}}} {
		if long {
			c.calm, c.series = 1500*20/c.quiet+300, 1000
			if c.quiet > 1000 {
				c.calm, c.series = 250, 250
			}
		} else if c.calm == 0 {
			continue
		}
		every := calmTanks(c.quiet, c.calm)
		for k, step := range []float64{1.5, 2.5} {
			late := 0.0
			for seed := range c.series {
				late += float64(watchSeries(c.quiet, step, uint64(seed+1))) / float64(c.series)
			}
			ewma, cusum := toldCharts(t, every, k)
			learnt := learningChart(c.quiet, step, every)
			t.Logf("after %4d quiet tanks, a step of %.1f deviations: the watch %.1f, a chart that learns %.1f, charts that are told EWMA %.1f, CUSUM %.1f; a false alarm in %.0f tanks",
				c.quiet, step, late, learnt, ewma, cusum, every)
			if late > learnt+c.learning[k] || late > max(ewma, cusum)+c.told[k] {
				t.Errorf("after %d quiet tanks a step of %.1f deviations took the watch %.1f tanks", c.quiet, step, late)
			}
		}
		if every < 220 { // the long run has 351 and more
			t.Errorf("after %d quiet tanks: a false alarm in %.0f tanks", c.quiet, every)
		}
	}
}

const looked = 40 // tanks that a step is looked for in

// calmTanks is how many quiet tanks there are to the first false alarm, once twenty have passed.
func calmTanks(quiet, series int) float64 {
	seen, alarms := 0, 0
	for seed := range series {
		watched(plainSeries(quiet, quiet+looked, 0, uint64(1e6+seed)), func(i int, alarm bool) bool {
			if i < min(quiet, 20) {
				return true
			}
			seen++
			if alarm {
				alarms++
			}
			return !alarm
		})
	}
	return float64(seen) / max(0.7, float64(alarms)) // none seen: as likely as not fewer than 0.7 were due
}

// toldCharts interpolates how late the charts of testdata see a step, the k-th of the two.
func toldCharts(t *testing.T, every float64, k int) (ewma, cusum float64) {
	t.Helper()
	rows := table.Read(t, "../../testdata/breaks/charts.csv")
	at := func(name string) float64 {
		x, y := math.NaN(), math.NaN()
		for _, r := range rows[1:] {
			a, _ := strconv.ParseFloat(r[3], 64)
			late, _ := strconv.ParseFloat(r[4+k], 64)
			if r[0]+" "+r[1] != name {
				continue
			}
			if last := y; a >= every && !math.IsNaN(x) {
				return last + (late-last)*(math.Log(every)-x)/(math.Log(a)-x)
			}
			x, y = math.Log(a), late
		}
		return y
	}
	return at("EWMA 0.2"), at("CUSUM 0.5")
}

// learningChart is how late a chart sees a step whose level and deviation are those of the quiet tanks before it, with limits that
// give a false alarm in so many tanks while the step is looked for.
func learningChart(quiet int, step, every float64) float64 {
	const series, lambda = 4000, 0.2
	run := func(step, limit float64) (late float64, alarms int) {
		rng := rand.New(rand.NewPCG(7, uint64(quiet)))
		for range series {
			mean, square := 0.0, 0.0
			for range quiet {
				z := rng.NormFloat64()
				mean, square = mean+z/float64(quiet), square+z*z
			}
			sd := math.Sqrt((square - float64(quiet)*mean*mean) / float64(quiet-1))
			z, i, out := mean, 0, false
			for ; i < looked && !out; i++ {
				z = lambda*(rng.NormFloat64()+step) + (1-lambda)*z
				out = math.Abs(z-mean) > limit*sd*math.Sqrt(lambda/(2-lambda))
			}
			for k := i; k < looked; k++ {
				rng.NormFloat64() // the next series is the same whatever became of this one
			}
			late += float64(i) / series
			if out {
				alarms++
			}
		}
		return late, alarms
	}
	low, high := 1.0, 9.0
	for range 20 {
		mid := (low + high) / 2
		if calm, alarms := run(0, mid); calm*series/max(1, float64(alarms)) < every {
			low = mid
		} else {
			high = mid
		}
	}
	late, _ := run(step, high)
	return late
}

// plainSeries is a log of nothing but normal scatter, with a step after the quiet tanks.
func plainSeries(quiet, n int, step float64, seed uint64) *Design {
	const sd = 0.035
	rng := rand.New(rand.NewPCG(seed, uint64(quiet)))
	return plainDesign(n, func(i int) float64 {
		y := sd * rng.NormFloat64()
		if i >= quiet {
			y += step * sd
		}
		return y
	})
}

// watched runs over a log, and tells after each tank whether an alarm is up, for as long as it is asked to go on.
func watched(d *Design, tell func(i int, alarm bool) bool) {
	l := newLanes(d)
	for i := range d.Obs {
		l, _ = l.step(&d.Obs[i], role{fold: true, whole: true})
		if !tell(i, l.likeliestWindow() >= told) {
			return
		}
	}
}

// watchSeries runs one series and gives the tanks from its step to the alarm.
func watchSeries(quiet int, step float64, seed uint64) (delay int) {
	delay = looked
	watched(plainSeries(quiet, quiet+looked, step, seed), func(i int, alarm bool) bool {
		if alarm && i >= quiet {
			delay = i - quiet + 1
			return false
		}
		return true
	})
	return delay
}

const told = 0.14 // as package watch has it

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

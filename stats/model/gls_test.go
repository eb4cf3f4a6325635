package model

import (
	"math"
	"strconv"
	"testing"

	"brimlog/testdata/table"
	"brimlog/testdata/textbook"
)

// The filter at fixed scatters against generalised least squares by nlme's gls: testdata/gls/gls.R. All scatter but the wander
// is given as known beforehand, so that its heavy tails play no part; the effect has one normal prior.
func TestFilterAgreesWithGLS(t *testing.T) {
	want := glsValues(t)
	with, without := glsPool(t, true), glsPool(t, false)
	accounts := map[string]*pool{"with": with, "without": without}
	at := map[string]int{"level": 0, "cold": 1, "town": 2, "after": with.slot(slotTrack)}
	checked := 0
	for account, p := range accounts {
		if len(p.histories) != 1 {
			t.Fatalf("%d histories, want one", len(p.histories))
		}
		h := p.histories[0]
		for name, i := range at {
			if name == "after" && account == "without" {
				continue
			}
			checked += 2
			agree(t, account+": mean of "+name, h.x[i], want[account+" mean_"+name], 1e-8)
			agree(t, account+": deviation of "+name, math.Sqrt(h.p[i*p.n+i]), want[account+" sd_"+name], 1e-8)
		}
		checked++
		agree(t, account+": log likelihood", p.logL, want[account+" log_likelihood"], 1e-8)
	}
	if checked != len(want) {
		t.Errorf("checked %d of %d values", checked, len(want))
	}
}

// glsPool takes the small logbook through the filter.
func glsPool(t *testing.T, effect bool) *pool {
	t.Helper()
	p := newPool([]float64{math.Log(0.115), 0.004, 0.16}, []float64{0.5, 0.0012, 0.05}, Scatter{Driving: 0.012, Wander: 1, Brim: 0.8})
	if effect {
		p.widen(p.histories[0], p.slot(slotTrack), 0.1*0.1)
	}
	if wanderKm != 1000 {
		t.Fatal("the wander fades otherwise than in gls.R")
	}
	for _, r := range numbers(t, "../../testdata/gls/tanks.csv") {
		km, gap, chained, litres, cold, town, after, sd := r[1], r[2], r[3], r[4], r[5], r[6], r[7], r[8]
		o := Obs{Y: math.Log(litres / km), Km: km, Gap: gap, Chained: chained == 1, X: []float64{1, cold, town}, E: make([]float64, 3), Var: sd * sd}
		as := role{quiet: true}
		if effect {
			as.tracked = after
		}
		p.step(&o, as)
		// that nothing unusual happened is part of the filter's likelihood, not of R's
		p.logL -= math.Log1p(-brimTail-lostShare) - (km+gap)/OnsetKm
	}
	return p
}

// One flat level, an effect in units of the scatter, and a scatter that is known: the evidence is then the limit, for many
// degrees of freedom, of the always-valid one of Lindon et al., arXiv 2210.08589.
func TestFilterAgreesWithAlwaysValidEvidence(t *testing.T) {
	const scatter, effect, before = 0.03, 0.06, 10
	without, with := newPool([]float64{-2.1}, []float64{1000}, Scatter{}), newPool([]float64{-2.1}, []float64{1000}, Scatter{})
	with.widen(with.histories[0], with.slot(slotTrack), effect*effect)
	var a, b []float64
	for i := range 18 {
		y := scatter * math.Sin(5.3*float64(i))
		o := Obs{Y: y, Km: 400, X: []float64{1}, E: []float64{0}, Var: scatter * scatter, Chained: i > 0}
		as := role{quiet: true}
		if i >= before {
			o.Y -= 0.05
			as.tracked = 1
			b = append(b, o.Y)
		} else {
			a = append(a, o.Y)
		}
		without.step(&o, role{quiet: true})
		with.step(&o, as)
		if len(b) == 0 {
			continue
		}
		n := float64(before*len(b)) / float64(before+len(b))
		z := (textbook.Mean(a) - textbook.Mean(b)) / scatter * math.Sqrt(n)
		agree(t, "log evidence", with.logL-without.logL, textbook.LogEvidence(z, 1e9, scatter*scatter/(effect*effect), n), 1e-6)
	}
}

func glsValues(t *testing.T) map[string]float64 {
	t.Helper()
	out := map[string]float64{}
	for _, r := range table.Rows(t, "../../testdata/gls/values.csv") {
		x, err := strconv.ParseFloat(r[2], 64)
		if err != nil {
			t.Fatal(err)
		}
		out[r[0]+" "+r[1]] = x
	}
	return out
}

func agree(t *testing.T, what string, got, want, apart float64) {
	t.Helper()
	if !(math.Abs(got-want) <= apart) {
		t.Errorf("%s: %.12g, want %.12g", what, got, want)
	}
}

func numbers(t *testing.T, path string) (out [][]float64) {
	t.Helper()
	for _, r := range table.Rows(t, path) {
		row := make([]float64, len(r))
		for i, cell := range r {
			x, err := strconv.ParseFloat(cell, 64)
			if err != nil {
				t.Fatal(err)
			}
			row[i] = x
		}
		out = append(out, row)
	}
	return out
}

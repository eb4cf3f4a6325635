package model

import (
	"math"
	"testing"

	"brimlog/testdata/textbook"
)

// A plain series with one wild value: the generalised extreme Studentised deviate test (Rosner 1983) and the filter must
// pick the same one, and none where there is none.
func TestWildTankIsTheTextbooksOutlier(t *testing.T) {
	for _, c := range []struct {
		name string
		at   int
		by   float64
		want int
	}{{"none", 13, 0, -1}, {"half as much again", 13, math.Log(1.5), 13}, {"a third less", 20, math.Log(0.67), 20}} {
		d := &Design{Priors: []Prior{{Name: "level", Mean: math.Log(0.115), Sd: 0.5}}}
		var y []float64
		for i := range 30 {
			o := Obs{Km: 400, Clump: 0.2, X: []float64{1}, E: []float64{0}, Chained: i > 0, Y: math.Log(0.11) + 0.03*math.Sin(5.3*float64(i)) + 0.015*math.Sin(11.7*float64(i))}
			if i == c.at {
				o.Y += c.by
			}
			d.Obs, y = append(d.Obs, o), append(y, o.Y)
		}
		outliers, _, _ := textbook.Extreme(y, 5, 0.05)
		_, course := d.Ask(nil)
		wild := -1
		for i := range y {
			z := math.Abs(y[i]-course.Expected[i]) / course.Sd[i]
			if course.Lost[i] > 0.5 || z > 4 {
				if wild >= 0 {
					t.Errorf("%s: tanks %d and %d both stand out", c.name, wild, i)
				}
				wild = i
			}
		}
		if wild != c.want || (len(outliers) == 1) != (c.want >= 0) || c.want >= 0 && outliers[0] != c.want {
			t.Errorf("%s: the filter picks %d, the textbook %v, want %d", c.name, wild, outliers, c.want)
		}
		// The level goes on as it was: one wild tank is no step.
		for i, step := range course.Step {
			if step > 0.5 {
				t.Errorf("%s: a step at tank %d with chance %.2f", c.name, i, step)
			}
		}
	}
}

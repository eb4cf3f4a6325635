package expect

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/stat"

	"brimlog/ingest/quantity"
)

// What size is guessed from what other, on the half of the cars that did not set it, and on the cars of 1993: the middle is right
// and the scatter no more than the width that is drawn.
func TestSizeThatNobodyTold(t *testing.T) {
	_, scores := cars1970(t)
	later, _ := cars1993(t)
	for _, c := range []struct {
		name   string
		hide   func(*car)
		miss   func(told, guessed car) float64
		factor int
		bias   float64
	}{
		{"litres by mass and cylinders", func(c *car) { c.Engine.DisplacementCC = quantity.Unknown }, missLitres, byLitres, 0.04},
		{"litres by mass", func(c *car) { c.Engine.DisplacementCC, c.Engine.Cylinders = quantity.Unknown, quantity.Unknown }, missLitres, byLitres, 0.07},
		{"litres by cylinders", func(c *car) { c.Engine.DisplacementCC, c.Body.MassKg = quantity.Unknown, quantity.Unknown }, missLitres, byLitres, 0.04},
		{"mass by litres", func(c *car) { c.Body.MassKg = quantity.Unknown }, func(told, guessed car) float64 {
			_, m := guessed.size(1, 1)
			return math.Log(told.Body.MassKg / m)
		}, byMass, 0.04},
	} {
		var misses, laterMisses []float64
		each := func(all []measuredCar, to *[]float64) (width float64) {
			for _, v := range all {
				if !(v.Engine.Cylinders > 0) { // a rotary has none
					continue
				}
				told, guessed := car{v.Vehicle}, car{v.Vehicle}
				c.hide(&guessed)
				*to = append(*to, c.miss(told, guessed))
				width = widths(guessed.Vehicle, UnknownRoads())[c.factor]
			}
			return width
		}
		width := each(scores, &misses)
		each(later, &laterMisses)
		mean, sd := stat.MeanStdDev(misses, nil)
		laterMean, laterSd := stat.MeanStdDev(laterMisses, nil)
		t.Logf("%s: off by %+.3f, spread %.3f, drawn %.3f; 1993 %+.3f, %.3f", c.name, mean, sd, width, laterMean, laterSd)
		if math.Abs(mean) > c.bias || sd > width || sd < 0.6*width || math.Hypot(laterMean, laterSd) > 1.05*width {
			t.Errorf("%s: off by %+.3f (within %g), spread %.3f (drawn %.3f); 1993: off by %+.3f, spread %.3f", c.name, mean, c.bias, sd, width, laterMean, laterSd)
		}
	}
}

func missLitres(told, guessed car) float64 {
	l, _ := guessed.size(1, 1)
	return math.Log(told.Engine.DisplacementCC / 1000 / l)
}

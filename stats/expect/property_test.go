package expect

import (
	"flag"
	"math"
	"testing"

	"pgregory.net/rapid"

	"brimlog/ingest/book"
	"brimlog/ingest/quantity"
	"brimlog/stats/engine"
)

// The vehicle is drawn over a table of 2,048 rows for each answer; eight answers a property are enough in one run.
func init() { flag.Set("rapid.checks", "8") }

// Where physics says so, more never gives less.
func TestMonotone(t *testing.T) {
	up := map[string]func(*book.Vehicle, *Roads, float64){
		"heavier":       func(v *book.Vehicle, _ *Roads, x float64) { v.Body.MassKg = 700 + 2000*x },
		"blunter":       func(v *book.Vehicle, _ *Roads, x float64) { v.Body.DragAreaM2 = 0.5 + x },
		"colder":        func(_ *book.Vehicle, r *Roads, x float64) { r.AirC = 35 - 60*x },
		"shorter trips": func(_ *book.Vehicle, r *Roads, x float64) { r.ColdStartsPerKm = x },
		"more load":     func(_ *book.Vehicle, r *Roads, x float64) { r.LoadKg = 600 * x },
		"heavier tow":   func(_ *book.Vehicle, r *Roads, x float64) { r.TowKg = 2000 * x },
		"faster": func(_ *book.Vehicle, r *Roads, x float64) {
			r.CruiseKmh[engine.Open], r.CruiseKmh[engine.Motorway] = 70+60*x, 70+60*x
		},
		"brisker":      func(_ *book.Vehicle, r *Roads, x float64) { r.Easy, r.Brisk = 1-x, x },
		"lower geared": func(v *book.Vehicle, _ *Roads, x float64) { v.Driveline.KmhPer1000RPM = 50 - 30*x },
		"bigger engine": func(v *book.Vehicle, _ *Roads, x float64) { // on the same axle
			v.Engine.DisplacementCC, v.Driveline.KmhPer1000RPM = 900+4000*x, 30
		},
		"less squeezed": func(v *book.Vehicle, _ *Roads, x float64) { v.Engine.CompressionRatio = 10 - 3*x },
	}
	for name, set := range up {
		t.Run(name, func(t *testing.T) {
			rapid.Check(t, func(t *rapid.T) {
				v, r := drawVehicle(t), UnknownRoads()
				a := rapid.Float64Range(0, 1).Draw(t, "a")
				b := rapid.Float64Range(0, 1).Draw(t, "b")
				a, b = min(a, b), max(a, b)
				var got [2]Range
				for i, x := range []float64{a, b} {
					vehicle, roads := v, r
					set(&vehicle, &roads, x)
					c, err := newCar(vehicle)
					if err != nil {
						t.Skip(err)
					}
					got[i] = rangeOf(c.draw(roads).all)
				}
				if got[1].Mid < got[0].Mid-1e-9 || got[1].Low < got[0].Low-1e-9 || got[1].High < got[0].High-1e-9 {
					t.Errorf("from %.3f to %.3f the range falls from %v to %v", a, b, got[0], got[1])
				}
			})
		})
	}
}

// drawVehicle is any vehicle, with any of its keys missing.
func drawVehicle(t *rapid.T) book.Vehicle {
	v := blank()
	maybe := func(name string, set func()) {
		if rapid.Bool().Draw(t, name) {
			set()
		}
	}
	maybe("year", func() { v.Year = rapid.Float64Range(1955, 2000).Draw(t, "year is") })
	maybe("mass", func() { v.Body.MassKg = rapid.Float64Range(600, 2500).Draw(t, "mass is") })
	maybe("litres", func() { v.Engine.DisplacementCC = rapid.Float64Range(700, 5500).Draw(t, "cc are") })
	maybe("cylinders", func() { v.Engine.Cylinders = float64(rapid.SampledFrom([]int{4, 6, 8}).Draw(t, "cylinders are")) })
	maybe("shape", func() {
		v.Body.Shape = rapid.SampledFrom([]string{"small", "saloon", "estate", "coupe", "roadster", "van", "camper", "boxy_4x4", "pickup"}).Draw(t, "shape is")
	})
	maybe("gearbox", func() { v.Driveline.Gearbox = rapid.SampledFrom([]string{"manual", "automatic"}).Draw(t, "gearbox is") })
	maybe("fuel", func() {
		v.Engine.FuelSystem = rapid.SampledFrom([]string{"carburettor", "injection"}).Draw(t, "fuel is")
	})
	return v
}

// A key that appears with the value that was taken for it anyhow moves nothing but the width, and that never outwards;
// a figure that moves a little moves the answer a little.
func TestNoJumpWhereAKeyAppears(t *testing.T) {
	v, r := heron(), UnknownRoads()
	v.Engine.FuelSystem, v.Driveline.Gearbox, v.Body.Shape, v.Body.DragAreaM2 = "", "", "", quantity.Unknown
	v.Place.MonthlyC = nil
	for name, set := range map[string]struct {
		without, with func(*book.Vehicle, *Roads)
	}{
		"mass": {func(v *book.Vehicle, _ *Roads) { v.Body.MassKg = quantity.Unknown },
			func(v *book.Vehicle, _ *Roads) { v.Body.MassKg = 1180 * math.Pow(2.6/1.8, 0.55) }},
		"gearing": {func(v *book.Vehicle, _ *Roads) { v.Driveline.KmhPer1000RPM = quantity.Unknown },
			func(v *book.Vehicle, _ *Roads) { v.Driveline.KmhPer1000RPM = fitted.kmhPer1000(2.6, 1380) }},
		"drag area": {func(*book.Vehicle, *Roads) {}, func(v *book.Vehicle, _ *Roads) { v.Body.DragAreaM2 = usualArea(1380) }},
		"ratio": {func(v *book.Vehicle, _ *Roads) { v.Engine.CompressionRatio = quantity.Unknown },
			func(v *book.Vehicle, _ *Roads) { v.Engine.CompressionRatio = usualRatio }},
		"year":          {func(v *book.Vehicle, _ *Roads) { v.Year = quantity.Unknown }, func(v *book.Vehicle, _ *Roads) { v.Year = usualYear }},
		"air":           {func(*book.Vehicle, *Roads) {}, func(_ *book.Vehicle, r *Roads) { r.AirC = usualAirC }},
		"kinds of road": {func(*book.Vehicle, *Roads) {}, func(_ *book.Vehicle, r *Roads) { r.Share = usualShare }},
		"tyres":         {func(*book.Vehicle, *Roads) {}, func(v *book.Vehicle, _ *Roads) { v.Body.Tyres = "radial" }},
		"load":          {func(*book.Vehicle, *Roads) {}, func(_ *book.Vehicle, r *Roads) { r.LoadKg = 0 }},
		"trailer":       {func(*book.Vehicle, *Roads) {}, func(_ *book.Vehicle, r *Roads) { r.TowKg = 1 }},
		"height":        {func(*book.Vehicle, *Roads) {}, func(v *book.Vehicle, _ *Roads) { v.Place.AltitudeM = 0 }},
		"energy":        {func(*book.Vehicle, *Roads) {}, func(_ *book.Vehicle, r *Roads) { r.MJPerL = petrolMJ }},
	} {
		va, ra := v, r
		set.without(&va, &ra)
		vb, rb := va, ra
		set.with(&vb, &rb)
		a, b := healthy(t, va, ra), healthy(t, vb, rb)
		if d := math.Abs(math.Log(float64(b.Mid / a.Mid))); d > 0.012 {
			t.Errorf("%s told as it was taken anyhow moves the middle by %.1f %%: %v, %v", name, 100*d, a, b)
		}
		if b.High/b.Low > a.High/a.Low*1.004 {
			t.Errorf("%s told widens the range: %v, %v", name, a, b)
		}
	}
}

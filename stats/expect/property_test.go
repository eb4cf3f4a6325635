package expect

import (
	"math"
	"testing"

	"brimlog/ingest/book"
	"brimlog/ingest/quantity"
	"brimlog/stats/engine"
)

// spread gives row i of an additive recurrence over [0, 1) (square roots of primes), so that a few dozen vehicles lie all over
// what vehicles are.
func spread(i int) func() float64 {
	primes := []float64{2, 3, 5, 7, 11, 13, 17, 19, 23, 29, 31, 37, 41, 43, 47, 53}
	column := 0
	return func() float64 {
		_, x := math.Modf(0.5 + float64(i+1)*math.Sqrt(primes[column%len(primes)]))
		column++
		return x
	}
}

// anyVehicle is one of them, each of its keys told or missing.
func anyVehicle(i int) book.Vehicle {
	next := spread(i)
	v := blank()
	among := func(words ...string) string { return words[int(next()*float64(len(words)))] }
	told := func(x *float64, low, high float64) {
		if at := next(); at < 0.65 {
			*x = low + (high-low)*at/0.65
		}
	}
	told(&v.Year, 1955, 2000)
	told(&v.Body.MassKg, 600, 2500)
	told(&v.Engine.DisplacementCC, 900, 5500)
	v.Engine.Cylinders = []float64{quantity.Unknown, 4, 6, 8}[int(next()*4)]
	v.Body.Shape = among("", "", "small", "saloon", "estate", "roadster", "van", "camper", "boxy_4x4", "pickup")
	v.Body.Tyres = among("", "crossply", "radial", "modern")
	v.Driveline.Gearbox = among("", "manual", "automatic")
	v.Driveline.Driven = among("", "rear", "full_time_four")
	v.Engine.FuelSystem = among("", "carburettor", "injection")
	told(&v.Engine.CompressionRatio, 7, 10)
	told(&v.Driveline.KmhPer1000RPM, 20, 45)
	told(&v.Place.AltitudeM, 0, 2500)
	return v
}

const manyVehicles = 96

// Where physics says so, more never gives less, on any kind of road, in any draw; and over the whole span it gives more.
func TestMonotone(t *testing.T) {
	everywhere := [engine.Kinds]bool{true, true, true, true, true}
	steady := [engine.Kinds]bool{engine.Open: true, engine.Motorway: true}
	for name, c := range map[string]struct {
		set  func(*book.Vehicle, *Roads, float64)
		felt [engine.Kinds]bool // where it must give more
	}{
		"heavier":          {func(v *book.Vehicle, _ *Roads, x float64) { v.Body.MassKg = 700 + 1800*x }, everywhere},
		"blunter":          {func(v *book.Vehicle, _ *Roads, x float64) { v.Body.DragAreaM2 = 0.5 + x }, everywhere},
		"colder":           {func(_ *book.Vehicle, r *Roads, x float64) { r.AirC = 20 - 45*x }, everywhere},
		"shorter trips":    {func(_ *book.Vehicle, r *Roads, x float64) { r.ColdStartsPerKm = 5 * x * x * x }, everywhere},
		"colder and short": {func(_ *book.Vehicle, r *Roads, x float64) { r.ColdStartsPerKm, r.AirC = 2, 35-60*x }, everywhere},
		"more load":        {func(_ *book.Vehicle, r *Roads, x float64) { r.LoadKg = 600 * x }, everywhere},
		"heavier tow":      {func(_ *book.Vehicle, r *Roads, x float64) { r.TowKg = 2000 * x }, everywhere},
		"more of it towed": {func(_ *book.Vehicle, r *Roads, x float64) { r.TowKg, r.TowShare = 900, x }, everywhere},
		"brisker":          {func(_ *book.Vehicle, r *Roads, x float64) { r.Easy, r.Brisk = 1-x, x }, everywhere},
		"less energy":      {func(_ *book.Vehicle, r *Roads, x float64) { r.MJPerL = 32 - 9*x }, everywhere},
		"lower geared":     {func(v *book.Vehicle, _ *Roads, x float64) { v.Driveline.KmhPer1000RPM = 50 - 30*x }, everywhere},
		"less squeezed":    {func(v *book.Vehicle, _ *Roads, x float64) { v.Engine.CompressionRatio = 10 - 3*x }, everywhere},
		"bigger engine on the same axle": {func(v *book.Vehicle, _ *Roads, x float64) {
			v.Engine.DisplacementCC, v.Driveline.KmhPer1000RPM = 900+4000*x, 30
		}, everywhere},
		"faster": {func(_ *book.Vehicle, r *Roads, x float64) {
			r.CruiseKmh[engine.Open], r.CruiseKmh[engine.Motorway] = 60+80*x, 60+80*x
		}, steady},
	} {
		for i := range manyVehicles {
			mustRise(t, name, i, c.set, c.felt)
		}
	}
}

// mustRise drives vehicle i up the steps of a change, in a few rows of the table of draws.
func mustRise(t *testing.T, name string, i int, set func(*book.Vehicle, *Roads, float64), felt [engine.Kinds]bool) {
	t.Helper()
	const steps, rows = 12, 5
	z := standard()
	for row := range rows {
		var first, last [engine.Kinds]float64
		for step := range steps + 1 {
			v, r := anyVehicle(i), UnknownRoads()
			set(&v, &r, float64(step)/steps)
			c := car{v}
			f := c.figures(r, widths(v, r), &z[(i*131+row*977)%draws])
			for k := range engine.Kinds {
				now := f.litresPer100(k, r)
				if step == 0 {
					first[k] = now
				} else if now < last[k]*(1-1e-12) {
					t.Fatalf("%s: vehicle %d falls from %.4f to %.4f L/100 km on %v at step %d of %d", name, i, last[k], now, k, step, steps)
				}
				last[k] = now
			}
		}
		for k := range engine.Kinds {
			if felt[k] && last[k] < first[k]*1.004 {
				t.Fatalf("%s: vehicle %d takes %.4f L/100 km on %v before and %.4f after", name, i, first[k], k, last[k])
			}
		}
	}
}

// The ranges follow: what never falls in a draw never falls in a quantile, with healthy tanks known too.
func TestRangesAreMonotone(t *testing.T) {
	for i := range 6 {
		last := Range{}
		for step := range 4 {
			v, r := anyVehicle(i), UnknownRoads()
			v.Body.MassKg, r.AirC, r.ColdStartsPerKm = 800+400*float64(step), 25-10*float64(step), 0.05*float64(step)
			now := healthy(t, v, r)
			if now.Low <= last.Low || now.Mid <= last.Mid || now.High <= last.High {
				t.Errorf("vehicle %d, heavier, colder and on shorter trips, goes from %v to %v", i, last, now)
			}
			last = now
		}
	}
}

// A key that appears with the value that was taken for it anyhow leaves the middle of every vehicle just where it was, and
// never widens the range by more than the table of draws is coarse.
func TestNoJumpWhereAKeyAppears(t *testing.T) {
	tested := map[string]int{}
	for i := range manyVehicles {
		c, r := car{anyVehicle(i)}, UnknownRoads()
		for _, key := range tellings {
			if key.tell == nil || !key.untold(c.Vehicle, r) {
				continue
			}
			tested[key.key]++
			told, on := c, r
			key.tell(&told.Vehicle, &on, c)
			for k := range engine.Kinds {
				a, b := c.middle(r).litresPer100(k, r), told.middle(on).litresPer100(k, on)
				within := 1e-9
				if key.key == "body.mass_kg" && quantity.Known(c.Engine.Cylinders) {
					within = 0.01 // the lines by mass and by cylinders are fitted apart
				}
				if math.Abs(math.Log(b/a)) > within {
					t.Errorf("vehicle %d: %s told as it was taken anyhow moves %v from %.4f to %.4f", i, key.key, k, a, b)
				}
			}
			if i < 8 {
				before, after := rangeOf(c.draw(r, asTold).all), rangeOf(told.draw(on, asTold).all)
				if after.width() > 1.01*before.width() || math.Abs(math.Log(float64(after.Mid/before.Mid))) > 0.02 {
					t.Errorf("vehicle %d: %s told as it was taken anyhow turns %v into %v", i, key.key, before, after)
				}
			}
		}
	}
	for _, key := range tellings {
		if key.tell != nil && tested[key.key] < 3 {
			t.Errorf("%s appeared in %d vehicles only", key.key, tested[key.key])
		}
	}
}

// Figures of the roads that appear as they were taken anyhow move nothing at all.
func TestNoJumpOnTheRoads(t *testing.T) {
	for name, set := range map[string]func(*book.Vehicle, *Roads){
		"air":       func(_ *book.Vehicle, r *Roads) { r.AirC = usualAirC },
		"load":      func(_ *book.Vehicle, r *Roads) { r.LoadKg = 0 },
		"trailer":   func(_ *book.Vehicle, r *Roads) { r.TowKg = 1e-6 },
		"towed":     func(_ *book.Vehicle, r *Roads) { r.TowKg, r.TowShare = 1000, 1e-9 },
		"height":    func(v *book.Vehicle, _ *Roads) { v.Place.AltitudeM = 0 },
		"energy":    func(_ *book.Vehicle, r *Roads) { r.MJPerL = petrolMJ },
		"pace":      func(_ *book.Vehicle, r *Roads) { r.Easy, r.Brisk = 0, 0 },
		"cruising":  func(_ *book.Vehicle, r *Roads) { r.CruiseKmh[engine.Motorway] = demands[engine.Motorway].kmh },
		"no starts": func(_ *book.Vehicle, r *Roads) { r.ColdStartsPerKm = 0 },
	} {
		for i := range manyVehicles {
			v, r := anyVehicle(i), UnknownRoads()
			v.Place.AltitudeM = quantity.Unknown
			was, on := v, r
			set(&v, &r)
			if name == "no starts" { // against all but none
				on.ColdStartsPerKm = 1e-9
			}
			for k := range engine.Kinds {
				a, b := car{was}.middle(on).litresPer100(k, on), car{v}.middle(r).litresPer100(k, r)
				if math.Abs(math.Log(b/a)) > 1e-6 {
					t.Fatalf("vehicle %d: %s appears and moves %v from %.6f to %.6f", i, name, k, a, b)
				}
			}
		}
	}
}

package expect

import (
	"math"
	"path/filepath"
	"slices"
	"strconv"
	"testing"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat"

	"brimlog/ingest/book"
	"brimlog/ingest/quantity"
	"brimlog/stats/engine"
	"brimlog/testdata/table"
)

// usGallonMile is L/100 km at one mile to the US gallon (exact by definition).
const usGallonMile = 235.214583333

// blank is a vehicle of which nothing but the name is told.
func blank() book.Vehicle {
	u := quantity.Unknown
	v := book.Vehicle{Name: "Heron", Year: u}
	v.Engine = book.Engine{DisplacementCC: u, Cylinders: u, CompressionRatio: u, IdleRPM: u, Cam: book.Cam{
		IntakeOpensBTDC: u, IntakeClosesABDC: u, ExhaustOpensBBDC: u, ExhaustClosesATDC: u, SprocketTeeth: u}}
	v.Body.MassKg, v.Body.DragAreaM2 = u, u
	v.Driveline.KmhPer1000RPM, v.Place.AltitudeM = u, u
	return v
}

// A measuredCar is a car told by the four figures alone, and what it was measured to take.
type measuredCar struct {
	book.Vehicle
	lPer100 float64
}

// cars reads a file of testdata: column numbers of litres (of a unit in cc), pounds, cylinders and year, and a
// function for the consumption.
func cars(t testing.TB, name string, cc float64, litres, pounds, cylinders, year int, taken func(row []float64) float64) []measuredCar {
	t.Helper()
	rows := table.Read(t, filepath.Join("..", "..", "testdata", name))
	var out []measuredCar
	for _, row := range rows[1:] {
		x := make([]float64, len(row))
		for i, cell := range row {
			x[i], _ = strconv.ParseFloat(cell, 64) // words and empty cells are not asked for
		}
		c := measuredCar{blank(), taken(x)}
		c.Engine.DisplacementCC, c.Engine.Cylinders = x[litres]*cc, x[cylinders]
		c.Body.MassKg, c.Year = x[pounds]*0.45359237, x[year]
		out = append(out, c)
	}
	if len(out) == 0 {
		t.Fatalf("%s has no cars", name)
	}
	return out
}

// cars1970 is StatLib's file of 398 cars, split in two: every other car sets the constants, the rest score them.
func cars1970(t testing.TB) (sets, scores []measuredCar) {
	return halves(cars(t, "cars_1970_1982.csv", 16.387064, 2, 4, 1, 6, func(x []float64) float64 { return usGallonMile / x[0] }))
}

// cars1993 is Cars93 of R's MASS: 92 cars of the 1993 model year, US labels at 0.55 city and 0.45 highway (Lock 1993).
func cars1993(t testing.TB) (sets, scores []measuredCar) {
	return halves(cars(t, "cars_1993.csv", 1000, 3, 4, 2, 5, func(x []float64) float64 { return usGallonMile * (0.55/x[0] + 0.45/x[1]) }))
}

// cars1974 is R's mtcars: 32 cars of the 1973 and 74 model years in a magazine's road tests (Henderson and Velleman
// 1981). They set nothing.
func cars1974(t testing.TB) []measuredCar {
	return cars(t, "cars_1974_road_tests.csv", 16.387064, 2, 3, 1, 4, func(x []float64) float64 { return usGallonMile / x[0] })
}

func halves(all []measuredCar) (sets, scores []measuredCar) {
	for i, c := range all {
		if i%2 == 0 {
			sets = append(sets, c)
		} else {
			scores = append(scores, c)
		}
	}
	return sets, scores
}

// scatter is measured over expected, as logarithms, each car at the middle of everything else.
func scatter(t testing.TB, all []measuredCar) []float64 {
	var out []float64
	for _, v := range all {
		c, err := newCar(v.Vehicle)
		if err != nil {
			t.Fatal(err)
		}
		f := c.middle(UnknownRoads())
		sum := 0.0
		for k, share := range f.mix {
			sum += share * f.litresPer100(engine.Driving(k), UnknownRoads())
		}
		out = append(out, math.Log(v.lPer100/sum))
	}
	return out
}

// The constants are those that least squares sets on the one half of the cars (Gauss and Newton, from far off).
func TestConstantsComeFromHalfTheCars(t *testing.T) {
	sets, _ := cars1970(t)
	shipped := fitted
	defer func() { fitted = shipped }()
	misses := func(x []float64) []float64 {
		fitted = constants{x[0], x[1], x[2], x[3], x[4], shipped.givenBack}
		return scatter(t, sets)
	}
	x := []float64{0.25, 0.6, 0.25, 1977, 1.5}
	for range 30 {
		x = gaussNewton(misses, x)
	}
	now := []float64{shipped.turning, shipped.gearing, shipped.thrift, shipped.thriftYear, shipped.thriftYears}
	t.Logf("least squares gives %.5g, shipped %.5g", x, now)
	for i := range x {
		if math.Abs(now[i]-x[i]) > 0.002*math.Abs(x[i]) {
			t.Errorf("constant %d is %.5g, the cars set it to %.5g", i+1, now[i], x[i])
		}
	}
}

// What the cars of 1993 gave back is the mean miss of the half of them that sets it.
func TestGivenBackComesFromHalfTheCars(t *testing.T) {
	sets, _ := cars1993(t)
	if miss := stat.Mean(scatter(t, sets), nil); math.Abs(miss) > 0.002 {
		t.Errorf("the half that sets it misses by %+.4f: set it to %.4f", miss, fitted.givenBack+miss)
	}
}

// gaussNewton is one step of least squares from x, half as far as the straight line says.
func gaussNewton(misses func([]float64) []float64, x []float64) []float64 {
	at := misses(x)
	slope := mat.NewDense(len(at), len(x), nil)
	for j := range x {
		moved := slices.Clone(x)
		h := 1e-4 * math.Abs(x[j])
		moved[j] += h
		for i, m := range misses(moved) {
			slope.Set(i, j, (m-at[i])/h)
		}
	}
	var step mat.VecDense
	if err := step.SolveVec(slope, mat.NewVecDense(len(at), at)); err != nil {
		panic(err)
	}
	out := slices.Clone(x)
	for j := range out {
		out[j] -= 0.5 * step.AtVec(j)
	}
	return out
}

// The bounds on the spread are the contract's: 12.7 % on the file, 14 % on other cars.
func TestScatterAndRange(t *testing.T) {
	sets, scores := cars1970(t)
	later, laterScores := cars1993(t)
	for _, c := range []struct {
		name                  string
		cars                  []measuredCar
		most, bias, low, high float64
	}{
		{"1970 to 1982, the half that sets", sets, 0.127, 0.01, 0.75, 0.85},
		{"1970 to 1982, the other half", scores, 0.127, 0.03, 0.75, 0.85},
		{"1974, road tests", cars1974(t), 0.14, 0.06, 0.70, 0.90},
		{"1993, the half that sets", later, 0.14, 0.01, 0.70, 0.90},
		{"1993, the other half", laterScores, 0.14, 0.05, 0.70, 0.90},
	} {
		mean, sd := stat.MeanStdDev(scatter(t, c.cars), nil)
		held := 0.0
		for _, v := range c.cars {
			car, err := newCar(v.Vehicle)
			if err != nil {
				t.Fatal(err)
			}
			d := car.draw(UnknownRoads(), asTold)
			if r := rangeOf(d.all); float64(r.Low) <= v.lPer100 && v.lPer100 <= float64(r.High) {
				held += 1 / float64(len(c.cars))
			}
		}
		t.Logf("%s: %d cars, measured over expected %+.3f, spread %.4f, range holds %.1f %%", c.name, len(c.cars), mean, sd, 100*held)
		if sd > c.most || math.Abs(mean) > c.bias || held < c.low || held > c.high {
			t.Errorf("%s: mean %+.3f (within %g), spread %.4f (at most %g), held %.3f (%g to %g)", c.name, mean, c.bias, sd, c.most, held, c.low, c.high)
		}
	}
}

package expect

import (
	"brimlog/ingest/book"
	"brimlog/ingest/quantity"
)

// What size goes with what, by least squares on logarithms over every other car of testdata/cars_1970_1982.csv (the 1st, 3rd,
// 5th ...); the others score it. By mass alone it is set 4 % lower than they have it, so that a middling vehicle stays the same
// whichever of its figures is told.
const (
	middlingLitres = 1.80
	middlingKg     = 1051.0
	kgByLitres     = 0.50 // powers
	litresByKg     = 1.80
	litresByBoth   = 0.995
	cylindersToo   = 0.832
	byFours        = 1.638
)

// What the logarithm of a displacement that nobody told scatters by, with mass and cylinders known, one of them, and neither.
const (
	litresByTwo  = 0.15
	litresByOne  = 0.21
	litresByNone = 0.35
)

// size is displacement in litres and mass in kg, the one from the other where only one is told.
func (c car) size(litres, mass float64) (l, m float64) {
	middling := middlingKg * shapeFactor(c.Body.Shape)
	heavy, fours := c.Body.MassKg/middling, c.Engine.Cylinders/4
	usual := quantity.Or(pow(heavy, litresByBoth)*pow(fours, cylindersToo),
		quantity.Or(pow(heavy, litresByKg), quantity.Or(pow(fours, byFours), 1)))
	l = quantity.Or(c.Engine.DisplacementCC/1000, middlingLitres*usual) * litres
	return l, quantity.Or(c.Body.MassKg, middling*pow(l/middlingLitres, kgByLitres)) * mass
}

func shapeFactor(shape string) float64 {
	if x := shapeMass[shape]; x > 0 {
		return x
	}
	return 1
}

// litresWidth is how well the displacement is known.
func litresWidth(v book.Vehicle) float64 {
	mass, cylinders := quantity.Known(v.Body.MassKg), quantity.Known(v.Engine.Cylinders)
	switch {
	case quantity.Known(v.Engine.DisplacementCC):
		return litresTold
	case mass && cylinders:
		return litresByTwo
	case mass || cylinders:
		return litresByOne
	}
	return litresByNone
}

// usualCylinders are those that leave a displacement which nobody told where it is taken to be.
func (c car) usualCylinders() float64 {
	l, _ := c.size(1, 1)
	if l /= middlingLitres; quantity.Known(c.Body.MassKg) {
		heavy := c.Body.MassKg / middlingKg / shapeFactor(c.Body.Shape)
		return 4 * pow(l/pow(heavy, litresByBoth), 1/cylindersToo)
	}
	return 4 * pow(l, 1/byFours)
}

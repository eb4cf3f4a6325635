package expect

import "math"

// The constants that no book gives, set by least squares on the logarithm, told mass, displacement, cylinders and year
// alone, on the usual roads: the first five over every other car of testdata/cars_1970_1982.csv (the 1st, 3rd, 5th ...),
// givenBack after them over every other car of testdata/cars_1993.csv. The other halves score them. The test that sets
// them stands beside this file and compares.
var fitted = constants{
	turning: 0.2839, gearing: 0.8035,
	thrift: 0.3221, thriftYear: 1977.3, thriftYears: 1.364,
	givenBack: 0.0764,
}

// constants: turning is the kJ that a litre of engine takes to turn once (published: 0.20 to 0.25 for engines of the
// 1980s and 90s, about 0.30 for those of the 60s); gearing is how strongly makers geared up what had more engine for its
// mass; thrift is by how much engines grew thriftier around thriftYear, over so many years; givenBack is how much of it
// power and comfort took again between 1983 and 1993.
type constants struct{ turning, gearing, thrift, thriftYear, thriftYears, givenBack float64 }

// thirst is how much more than the middle of the time an engine designed in that year takes.
func (c constants) thirst(year float64) float64 {
	thriftless := 1 / (1 + math.Exp((year-c.thriftYear)/c.thriftYears))
	return math.Exp(c.thrift*(thriftless-0.5) + c.givenBack*between((year-1983)/10, 0, 1))
}

// kmhPer1000 is the usual gearing for an engine in that mass: 32.5 km/h for 2.6 litres in 1,380 kg.
func (c constants) kmhPer1000(litres, mass float64) float64 {
	return between(32.5*pow(litres/mass/(2.6/1380), c.gearing), 12, 65)
}

func pow(x, y float64) float64 { return math.Pow(x, y) }

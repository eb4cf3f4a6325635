package expect

import (
	"math"

	"brimlog/ingest/book"
	"brimlog/ingest/quantity"
	"brimlog/stats/engine"
)

// A car is a vehicle that has been looked over.
type car struct{ book.Vehicle }

// newCar refuses vehicles outside what the package can speak of, with an *engine.BoundError.
func newCar(v book.Vehicle) (car, error) {
	checks := []error{
		usualEngine(v.Engine).Check(),
		engine.Within("year", v.Year, 1900, 2030, ""),
		engine.Within("body.mass_kg", v.Body.MassKg, 250, 7500, "kg"),
		engine.Within("body.drag_area_m2", v.Body.DragAreaM2, 0.2, 6, "m2"),
		engine.Within("driveline.kmh_per_1000rpm", v.Driveline.KmhPer1000RPM, 8, 80, "km/h"),
		engine.Within("place.altitude_m", v.Place.AltitudeM, -450, 5500, "m"),
		engine.Within("engine.displacement_cc for each tonne of body.mass_kg", v.Engine.DisplacementCC/v.Body.MassKg*1000, 150, 12000, "cc"),
	}
	for _, err := range checks {
		if err != nil {
			return car{}, err
		}
	}
	return car{v}, nil
}

// figures are one draw of everything that the fuel depends on.
type figures struct {
	litres, mass, area, rolling  float64
	gearing, driveline, slip     float64 // km/h at 1000 rev/min, efficiency, revs against a rigid drive
	efficiency, idleRPM, thirst  float64 // of the work proper; of the idle; against the middle of the time
	turning, extra               float64 // kJ a litre and turn; a factor on everything
	choke, altitudeM, airC, rich float64
	startsPerKm                  float64 // Unknown: each kind of road has its own
	startsFactor, faster         float64
	mix                          [engine.Kinds]float64
	towArea                      float64
}

// figures turns one row of standard draws, and the widths, into figures.
func (c car) figures(r Roads, sd [factors]float64, z *[factors]float64) figures {
	ln := func(i int) float64 { return math.Exp(sd[i] * z[i]) }
	add := func(i int) float64 { return sd[i] * z[i] }
	var f figures
	f.litres, f.mass = c.size(ln(byLitres), ln(byMass))
	f.area = c.dragArea(f.mass) * ln(byArea)
	f.rolling = usualRolling(c.Body.Shape)
	if cr := rolling[c.Body.Tyres]; cr > 0 {
		f.rolling = cr
	}
	f.rolling *= ln(byRolling)
	f.gearing = quantity.Or(c.Driveline.KmhPer1000RPM, fitted.kmhPer1000(f.litres, f.mass)) * ln(byGearing)
	f.driveline, f.slip = c.drive()
	f.driveline = min(0.98, f.driveline*ln(byGearbox)*ln(byDriven))
	f.efficiency = efficiencyAt(between(quantity.Or(c.Engine.CompressionRatio, usualRatio)+add(byRatio), 4, 15))
	f.idleRPM = quantity.Or(c.Engine.IdleRPM, usualIdleRPM) * ln(byIdle)
	f.thirst = fitted.thirst(quantity.Or(c.Year, usualYear)) * ln(byYear)
	f.turning = fitted.turning * ln(byTurning)
	mixture, choke, rich := c.fuelSystem()
	f.extra = mixture * ln(byFuelSystem) * ln(byMake) * ln(byStyle) * r.pace() * petrolMJ / quantity.Or(r.MJPerL, petrolMJ)
	f.choke, f.rich = choke, rich
	f.altitudeM = quantity.Or(c.Place.AltitudeM, 0)
	f.airC = quantity.Or(r.AirC, c.usualAir()) + add(byAir)
	f.startsPerKm, f.startsFactor = r.ColdStartsPerKm, ln(byStarts)
	f.faster = ln(byCruise)
	f.mix = r.mix(add(byMix))
	f.towArea = ln(byTow)
	return f
}

// usualYear is the middle of the time, when neither thirsty engines nor thrifty ones were the rule.
const (
	usualRatio   = 8.6
	usualIdleRPM = 750.0
	usualYear    = 1977.0
)

func (c car) dragArea(mass float64) float64 {
	if a := shapeArea[c.Body.Shape]; a > 0 {
		return quantity.Or(c.Body.DragAreaM2, a)
	}
	return quantity.Or(c.Body.DragAreaM2, usualArea(mass))
}

// drive is the driveline's efficiency, and the engine's turns against a rigid drive's (common practice).
func (c car) drive() (efficiency, slip float64) {
	switch c.Driveline.Gearbox {
	case "manual":
		efficiency, slip = 0.92, 1
	case "automatic":
		efficiency, slip = 0.845, 1.04
	default:
		efficiency, slip = 0.885, 1.02
	}
	switch driven := c.Driveline.Driven; {
	case driven == "part_time_four", driven == "" && c.Body.Shape == "boxy_4x4":
		efficiency *= 0.97
	case driven == "full_time_four":
		efficiency *= 0.935
	}
	return efficiency, slip
}

// fuelSystem is what the mixture costs against the usual, what cold starts take, and what height does.
func (c car) fuelSystem() (mixture, choke, rich float64) {
	switch c.Engine.FuelSystem {
	case "carburettor":
		return 1.01, carburettorChoke, richPerKm
	case "injection":
		return 0.97, injectionChoke, 0
	}
	return 1, unknownChoke, richPerKm / 2
}

// usualAir is the mean of the place's months, else of nowhere in particular.
func (c car) usualAir() float64 {
	if len(c.Place.MonthlyC) != 12 {
		return usualAirC
	}
	sum := 0.0
	for _, t := range c.Place.MonthlyC {
		sum += t
	}
	return quantity.Or(sum/12, usualAirC)
}

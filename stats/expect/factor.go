package expect

import (
	"brimlog/ingest/book"
	"brimlog/ingest/quantity"
	"brimlog/stats/engine"
)

// The factors that a range is drawn over. Each has its own column of draws whatever else is told, so that telling one
// moves nothing but itself.
const (
	byMake = iota
	byStyle
	byTurning
	byMass
	byLitres
	byArea
	byRolling
	byGearing
	byGearbox
	byDriven
	byFuelSystem
	byRatio
	byIdle
	byYear
	byMix
	byStarts
	byAir
	byCruise
	byTow
	byTune
	byReset
	byLevel
	factors
)

// A factor is one thing that is known with a width: the standard deviation of its logarithm, unless its unit says else.
type factor func(v book.Vehicle, r Roads) (sd float64)

// always is a width that no telling narrows.
func always(sd float64) factor { return func(book.Vehicle, Roads) float64 { return sd } }

// keyed is a factor that a single figure or word tells.
func keyed(toldSd, usualSd float64, known func(v book.Vehicle, r Roads) bool) factor {
	return func(v book.Vehicle, r Roads) float64 {
		if known(v, r) {
			return toldSd
		}
		return usualSd
	}
}

// Widths of what was told, where more than one place needs them.
const (
	litresTold = 0.005
	shapeTold  = 0.10
	areaTold   = 0.05
)

// factorTable has every width once. Widths are common practice; those of drag area and rolling resistance are the spans
// of body.go, those of mass and displacement what size.go leaves open. byMake, what makes differ by when all else is told, is
// what makes the whole come to the 11 % by which the 398 cars scatter.
var factorTable = [factors]factor{
	byMake:    always(0.038),
	byStyle:   always(0.040),
	byTurning: always(0.040),
	byMass:    keyed(0.02, 0.13, func(v book.Vehicle, _ Roads) bool { return quantity.Known(v.Body.MassKg) }),
	byLitres:  func(v book.Vehicle, _ Roads) float64 { return litresWidth(v) },
	byArea: func(v book.Vehicle, _ Roads) float64 {
		switch {
		case quantity.Known(v.Body.DragAreaM2):
			return areaTold
		case v.Body.Shape != "":
			return shapeTold
		}
		return 0.16
	},
	byRolling:    keyed(0.08, 0.13, func(v book.Vehicle, _ Roads) bool { return rolling[v.Body.Tyres] > 0 }),
	byGearing:    keyed(0.02, 0.09, func(v book.Vehicle, _ Roads) bool { return quantity.Known(v.Driveline.KmhPer1000RPM) }),
	byGearbox:    keyed(0.02, 0.05, func(v book.Vehicle, _ Roads) bool { return v.Driveline.Gearbox != "" }),
	byDriven:     keyed(0.01, 0.025, func(v book.Vehicle, _ Roads) bool { return v.Driveline.Driven != "" }),
	byFuelSystem: keyed(0.01, 0.025, func(v book.Vehicle, _ Roads) bool { return v.Engine.FuelSystem != "" }),
	byRatio:      keyed(0.1, 0.7, func(v book.Vehicle, _ Roads) bool { return quantity.Known(v.Engine.CompressionRatio) }), // in units of the ratio
	byIdle:       keyed(0.03, 0.10, func(v book.Vehicle, _ Roads) bool { return quantity.Known(v.Engine.IdleRPM) }),
	byYear:       keyed(0.015, 0.125, func(v book.Vehicle, _ Roads) bool { return quantity.Known(v.Year) }),
	byMix:        func(_ book.Vehicle, r Roads) float64 { return 0.30 * (1 - r.noted()) },
	byStarts:     keyed(0.15, 0.40, func(_ book.Vehicle, r Roads) bool { return quantity.Known(r.ColdStartsPerKm) }),
	byAir: func(v book.Vehicle, r Roads) float64 { // degrees C
		switch {
		case quantity.Known(r.AirC):
			return 1
		case len(v.Place.MonthlyC) == 12:
			return 2
		}
		return 4
	},
	byCruise: func(_ book.Vehicle, r Roads) float64 { return 0.03 + 0.05*r.cruiseUntold() },
	byTow:    always(0.25),
	byTune:   always(1),
	byReset:  always(1),
	byLevel:  always(1),
}

// widths are the factors' widths as things stand.
func widths(v book.Vehicle, r Roads) (sd [factors]float64) {
	for i, now := range factorTable {
		sd[i] = now(v, r)
	}
	return sd
}

// usualEngine tells the cycle model what is known of the engine.
func usualEngine(e book.Engine) engine.Engine {
	return engine.Engine{
		DisplacementCC: e.DisplacementCC, Cylinders: e.Cylinders, CompressionRatio: e.CompressionRatio,
		IdleRPM: e.IdleRPM, Injection: e.FuelSystem == "injection", Card: engine.Card(e.Cam),
	}
}

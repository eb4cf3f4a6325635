package expect

import (
	"fmt"
	"strings"

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
type factor struct {
	key  string // where an owner would tell it; empty where nobody could
	what string
	told float64                                    // width once told
	now  func(v book.Vehicle, r Roads) (sd float64) // width as things stand
}

// always is a width that no telling narrows.
func always(sd float64) factor {
	return factor{told: sd, now: func(book.Vehicle, Roads) float64 { return sd }}
}

// keyed is a factor that a single figure or word tells.
func keyed(key, what string, toldSd, usualSd float64, known func(v book.Vehicle, r Roads) bool) factor {
	return factor{key, what, toldSd, func(v book.Vehicle, r Roads) float64 {
		if known(v, r) {
			return toldSd
		}
		return usualSd
	}}
}

// factorTable has every width once. Widths are common practice; those of drag area and rolling resistance are the spans
// of body.go. byMake, what makes differ by when all else is told, is what makes the whole come to the 11 % by which the
// 398 cars scatter.
var factorTable = [factors]factor{
	byMake:    always(0.038),
	byStyle:   always(0.040),
	byTurning: always(0.040),
	byMass: keyed("body.mass_kg", "the mass as driven", 0.02, 0.17,
		func(v book.Vehicle, _ Roads) bool { return quantity.Known(v.Body.MassKg) }),
	byLitres: {"engine.displacement_cc", "the engine's displacement", 0.005, func(v book.Vehicle, _ Roads) float64 {
		switch {
		case quantity.Known(v.Engine.DisplacementCC):
			return 0.005
		case quantity.Known(v.Engine.Cylinders):
			return 0.20
		}
		return 0.32
	}},
	byArea: {"body.shape", "the body's shape, or its drag_area_m2", 0.10, func(v book.Vehicle, _ Roads) float64 {
		switch {
		case quantity.Known(v.Body.DragAreaM2):
			return 0.05
		case v.Body.Shape != "":
			return 0.10
		}
		return 0.16
	}},
	byRolling: keyed("body.tyres", "the kind of tyre", 0.08, 0.13,
		func(v book.Vehicle, _ Roads) bool { return rolling[v.Body.Tyres] > 0 }),
	byGearing: keyed("driveline.kmh_per_1000rpm", "the speed in top gear at 1000 rev/min", 0.02, 0.09,
		func(v book.Vehicle, _ Roads) bool { return quantity.Known(v.Driveline.KmhPer1000RPM) }),
	byGearbox: keyed("driveline.gearbox", "the gearbox", 0.02, 0.05,
		func(v book.Vehicle, _ Roads) bool { return v.Driveline.Gearbox != "" }),
	byDriven: keyed("driveline.driven", "the driven wheels", 0.01, 0.025,
		func(v book.Vehicle, _ Roads) bool { return v.Driveline.Driven != "" }),
	byFuelSystem: keyed("engine.fuel_system", "carburettor or injection", 0.01, 0.025,
		func(v book.Vehicle, _ Roads) bool { return v.Engine.FuelSystem != "" }),
	byRatio: keyed("engine.compression_ratio", "the compression ratio", 0.1, 0.7, // in units of the ratio
		func(v book.Vehicle, _ Roads) bool { return quantity.Known(v.Engine.CompressionRatio) }),
	byIdle: keyed("engine.idle_rpm", "the idling speed", 0.03, 0.10,
		func(v book.Vehicle, _ Roads) bool { return quantity.Known(v.Engine.IdleRPM) }),
	byYear: keyed("year", "the year of the engine's design", 0.015, 0.115,
		func(v book.Vehicle, _ Roads) bool { return quantity.Known(v.Year) }),
	byMix: {"trips: road", "the kinds of road", 0, func(_ book.Vehicle, r Roads) float64 { return 0.30 * (1 - r.noted()) }},
	byStarts: keyed("trips: cold_starts", "cold starts", 0.15, 0.40,
		func(_ book.Vehicle, r Roads) bool { return quantity.Known(r.ColdStartsPerKm) }),
	byAir: {"place.monthly_c", "the air temperature", 1, func(v book.Vehicle, r Roads) float64 { // degrees C
		switch {
		case quantity.Known(r.AirC):
			return 1
		case len(v.Place.MonthlyC) == 12:
			return 2
		}
		return 4
	}},
	byCruise: {"trips: cruise_kmh", "the cruising speed", 0.03, func(_ book.Vehicle, r Roads) float64 { return 0.03 + 0.05*r.cruiseUntold() }},
	byTow:    always(0.25),
	byTune:   always(1),
	byReset:  always(1),
	byLevel:  always(1),
}

// widths are the factors' widths as things stand.
func widths(v book.Vehicle, r Roads) (sd [factors]float64) {
	for i, f := range factorTable {
		sd[i] = f.now(v, r)
	}
	return sd
}

// A Missing is something untold that widens the range.
type Missing struct {
	Key, What   string
	NarrowerPct float64 // by how much telling it would narrow the range, a share of its width in percent
}

func (m Missing) String() string {
	where := m.Key
	if after, ok := strings.CutPrefix(where, "trips: "); ok {
		where = after + " in trips.csv"
	}
	if m.NarrowerPct < 0.5 {
		return fmt.Sprintf("%s (%s): hardly matters here", where, m.What)
	}
	return fmt.Sprintf("%s (%s): would narrow the range by %.0f %%", where, m.What, m.NarrowerPct)
}

// usualEngine tells the cycle model what is known of the engine.
func usualEngine(e book.Engine) engine.Engine {
	return engine.Engine{
		DisplacementCC: e.DisplacementCC, Cylinders: e.Cylinders, CompressionRatio: e.CompressionRatio,
		IdleRPM: e.IdleRPM, Injection: e.FuelSystem == "injection", Card: engine.Card(e.Cam),
	}
}

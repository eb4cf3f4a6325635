package expect

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"brimlog/ingest/ahead"
	"brimlog/ingest/book"
	"brimlog/ingest/quantity"
)

// A telling is something that an owner could tell, and where.
type telling struct {
	key, what string
	untold    func(v book.Vehicle, r Roads) bool

	// tell tells it as the middle has it, so that nothing moves but the width. For a word there is none that stands in the
	// middle: there the factor's width alone becomes that of one told.
	tell   func(v *book.Vehicle, r *Roads, c car)
	factor int
	told   float64
}

func unknown(of func(v book.Vehicle, r Roads) float64) func(book.Vehicle, Roads) bool {
	return func(v book.Vehicle, r Roads) bool { return !quantity.Known(of(v, r)) }
}

// middle is the vehicle at the middle of all that is not known.
func (c car) middle(r Roads) figures { return c.figures(r, [factors]float64{}, &[factors]float64{}) }

var tellings = []telling{
	{key: "body.mass_kg", what: "the mass as driven", untold: unknown(func(v book.Vehicle, _ Roads) float64 { return v.Body.MassKg }),
		tell: func(v *book.Vehicle, r *Roads, c car) { v.Body.MassKg = c.middle(*r).mass }},
	{key: "engine.displacement_cc", what: "the engine's displacement", untold: unknown(func(v book.Vehicle, _ Roads) float64 { return v.Engine.DisplacementCC }),
		tell: func(v *book.Vehicle, r *Roads, c car) { v.Engine.DisplacementCC = 1000 * c.middle(*r).litres }},
	{key: "engine.cylinders", what: "the number of cylinders", untold: func(v book.Vehicle, _ Roads) bool {
		return !quantity.Known(v.Engine.Cylinders) && !quantity.Known(v.Engine.DisplacementCC)
	},
		tell: func(v *book.Vehicle, r *Roads, c car) { v.Engine.Cylinders = c.usualCylinders() }},
	{key: "body.shape", what: "the body's shape, or its drag_area_m2", factor: byArea, told: shapeTold,
		untold: func(v book.Vehicle, _ Roads) bool { return v.Body.Shape == "" && !quantity.Known(v.Body.DragAreaM2) }},
	{key: "body.drag_area_m2", what: "the drag area", factor: byArea, told: areaTold,
		untold: func(v book.Vehicle, _ Roads) bool { return v.Body.Shape != "" && !quantity.Known(v.Body.DragAreaM2) }},
	{key: "body.tyres", what: "the kind of tyre", factor: byRolling, told: 0.08,
		untold: func(v book.Vehicle, _ Roads) bool { return !(rolling[v.Body.Tyres] > 0) }},
	{key: "driveline.kmh_per_1000rpm", what: "the speed in top gear at 1000 rev/min", untold: unknown(func(v book.Vehicle, _ Roads) float64 { return v.Driveline.KmhPer1000RPM }),
		tell: func(v *book.Vehicle, r *Roads, c car) { v.Driveline.KmhPer1000RPM = c.middle(*r).gearing }},
	{key: "driveline.gearbox", what: "the gearbox", factor: byGearbox, told: 0.02,
		untold: func(v book.Vehicle, _ Roads) bool { return v.Driveline.Gearbox == "" }},
	{key: "driveline.driven", what: "the driven wheels", factor: byDriven, told: 0.01,
		untold: func(v book.Vehicle, _ Roads) bool { return v.Driveline.Driven == "" }},
	{key: "engine.fuel_system", what: "carburettor or injection", factor: byFuelSystem, told: 0.01,
		untold: func(v book.Vehicle, _ Roads) bool { return v.Engine.FuelSystem == "" }},
	{key: "engine.compression_ratio", what: "the compression ratio", untold: unknown(func(v book.Vehicle, _ Roads) float64 { return v.Engine.CompressionRatio }),
		tell: func(v *book.Vehicle, _ *Roads, _ car) { v.Engine.CompressionRatio = usualRatio }},
	{key: "engine.idle_rpm", what: "the idling speed", untold: unknown(func(v book.Vehicle, _ Roads) float64 { return v.Engine.IdleRPM }),
		tell: func(v *book.Vehicle, _ *Roads, _ car) { v.Engine.IdleRPM = usualIdleRPM }},
	{key: "year", what: "the year of the engine's design", untold: unknown(func(v book.Vehicle, _ Roads) float64 { return v.Year }),
		tell: func(v *book.Vehicle, _ *Roads, _ car) { v.Year = usualYear }},
	{key: "trips: road", what: "the kinds of road", untold: func(_ book.Vehicle, r Roads) bool { return r.noted() < 0.999 },
		tell: func(_ *book.Vehicle, r *Roads, _ car) { r.Share, r.Noted = r.mix(0), 1 }},
	{key: "trips: cold_starts", what: "cold starts", factor: byStarts, told: 0.15,
		untold: unknown(func(_ book.Vehicle, r Roads) float64 { return r.ColdStartsPerKm })},
	{key: "place.monthly_c", what: "the air temperature", factor: byAir, told: 2,
		untold: func(v book.Vehicle, r Roads) bool { return !quantity.Known(r.AirC) && len(v.Place.MonthlyC) != 12 }},
	{key: "trips: air", what: "the air temperature", factor: byAir, told: 1,
		untold: func(v book.Vehicle, r Roads) bool { return !quantity.Known(r.AirC) && len(v.Place.MonthlyC) == 12 }},
	{key: "trips: cruise_kmh", what: "the cruising speed", factor: byCruise, told: 0.03,
		untold: func(_ book.Vehicle, r Roads) bool { return r.cruiseUntold() > 0.001 }},
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

// missing lists what telling would narrow the range most, first: the range is drawn again with each of them told.
func (q Question) missing(c car, as Range) []Missing {
	var open []telling
	for _, t := range tellings {
		if t.untold(c.Vehicle, q.Roads) {
			open = append(open, t)
		}
	}
	out := make([]Missing, len(open))
	var drawing ahead.Group
	for i, t := range open {
		drawing.Go(func() { out[i] = Missing{t.key, t.what, 100 * max(0, 1-q.toldWidth(c, t)/as.width())} })
	}
	drawing.Wait()
	slices.SortStableFunc(out, func(a, b Missing) int {
		switch {
		case a.NarrowerPct > b.NarrowerPct:
			return -1
		case a.NarrowerPct < b.NarrowerPct:
			return 1
		}
		return 0
	})
	return out
}

// toldWidth is the range's width with one thing more told.
func (q Question) toldWidth(c car, t telling) float64 {
	narrow := func(*[factors]float64) {}
	if t.tell == nil {
		narrow = func(sd *[factors]float64) { sd[t.factor] = t.told }
	} else {
		before := c
		t.tell(&c.Vehicle, &q.Roads, before)
		t.tell(&c.Vehicle, &q.HealthyRoads, before)
	}
	d, _ := q.drawn(c, narrow)
	return rangeOf(d.all).width()
}

// width is the logarithm of high over low.
func (r Range) width() float64 { return math.Log(float64(r.High / r.Low)) }

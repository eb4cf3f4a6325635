package stats

import (
	"iter"
	"math"

	"brimlog/ingest/book"
	"brimlog/ingest/quantity"
	"brimlog/ingest/tank"
	"brimlog/stats/model"
)

// Measured is the number of tanks in the log.
func (r *Review) Measured() int { return len(r.log.Tanks) }

// Written writes down the tanks from one index up to another, one after the other, without their levels: those of a million
// fills need not all stand in memory a second time.
func (r *Review) Written(from, to int) iter.Seq[Tank] {
	return func(yield func(Tank) bool) {
		var last *book.Fill // that closed a tank
		date := ""          // of it
		for i := from; i < to; i++ {
			t := &r.log.Tanks[i]
			opened := date
			if t.Opens != last {
				opened = written(t.Opens.Date)
			}
			last, date = t.Closes, written(t.Closes.Date)
			if !yield(shown(t, opened, date)) {
				return
			}
		}
	}
}

// shown is a tank as documents have it.
func shown(t *tank.Tank, from, to string) Tank {
	e, u := quantity.EconomyOf(t.Km, t.Litres), Figure(quantity.Unknown)
	return Tank{
		Number: t.Number, FromDate: from, ToDate: to, FromLine: t.Opens.Line, ToLine: t.Closes.Line,
		DistanceKm: Figure(t.Km), FuelL: Figure(t.Litres), Partials: t.Partials,
		LPer100Km: Figure(e.In(quantity.LPer100Km)), MpgUK: Figure(e.In(quantity.MpgUK)), MpgUS: Figure(e.In(quantity.MpgUS)),
		SdPct: Figure(100 * measurementSd(t)), AirC: Figure(t.AirC()), TownShare: Figure(t.Town()), NotedShare: Figure(t.NotedShare()),
		Cost: Figure(t.Cost), Note: t.Closes.Note,
		LikeForLike: Range{u, u, u}, Level: Range{u, u, u},
	}
}

// z80 is the half width, in standard deviations, of the central 80 %.
const z80 = 1.2815515655446004

// litres turns log L/km into a range in L/100 km.
func litres(low, mid, high float64) Range {
	return Range{Figure(100 * math.Exp(low)), Figure(100 * math.Exp(mid)), Figure(100 * math.Exp(high))}
}

// measurementSd is the relative standard uncertainty of a tank's consumption from measuring alone: two brims,
// the pump's meter, two odometer readings. Variances add with squared sensitivities (GUM, JCGM 100:2008, 5.1.2).
func measurementSd(t *tank.Tank) float64 {
	brims := math.Sqrt2 * model.BrimSd / t.Litres
	reading := t.ReadingKm / t.Km
	return math.Sqrt(brims*brims + model.MeterSd*model.MeterSd + reading*reading)
}

package stats

import (
	"math"

	"brimlog/ingest/quantity"
	"brimlog/ingest/tank"
	"brimlog/stats/model"
)

// tanksOf writes down the tanks.
func tanksOf(l *tank.Log) []Tank {
	out := make([]Tank, 0, len(l.Tanks))
	u := Figure(quantity.Unknown)
	for _, t := range l.Tanks {
		e := quantity.EconomyOf(t.Km, t.Litres)
		out = append(out, Tank{
			Number: t.Number, FromDate: written(t.Opens.Date), ToDate: written(t.Closes.Date), FromLine: t.Opens.Line, ToLine: t.Closes.Line,
			DistanceKm: Figure(t.Km), FuelL: Figure(t.Litres), Partials: t.Partials,
			LPer100Km: Figure(e.In(quantity.LPer100Km)), MpgUK: Figure(e.In(quantity.MpgUK)), MpgUS: Figure(e.In(quantity.MpgUS)),
			SdPct: Figure(100 * measurementSd(t)), AirC: Figure(t.AirC()), TownShare: Figure(t.Town()), NotedShare: Figure(t.NotedShare()),
			Cost: Figure(t.Cost), Note: t.Closes.Note,
			LikeForLike: Range{u, u, u}, Level: Range{u, u, u},
		})
	}
	return out
}

// z80 is the half width, in standard deviations, of the central 80 %.
const z80 = 1.2815515655446004

// litres turns log L/km into a range in L/100 km.
func litres(low, mid, high float64) Range {
	return Range{Figure(100 * math.Exp(low)), Figure(100 * math.Exp(mid)), Figure(100 * math.Exp(high))}
}

// measurementSd is the relative standard uncertainty of a tank's consumption from measuring alone: two brims,
// the pump's meter, two odometer readings. Variances add with squared sensitivities (GUM, JCGM 100:2008, 5.1.2).
func measurementSd(t tank.Tank) float64 {
	brims := math.Sqrt2 * model.BrimSd / t.Litres
	reading := t.ReadingKm / t.Km
	return math.Sqrt(brims*brims + model.MeterSd*model.MeterSd + reading*reading)
}

package expect

import (
	"brimlog/ingest/quantity"
	"brimlog/stats/engine"
)

// Roads is what an owner drives on. Unknown figures take the usual value and widen the answer.
type Roads struct {
	Share           [engine.Kinds]float64 // of the noted distance; all 0 = not noted
	Noted           float64               // the part of the distance that Share speaks for, 0 to 1; Unknown = all of it
	ColdStartsPerKm float64
	AirC            float64               // mean air temperature
	CruiseKmh       [engine.Kinds]float64 // while moving, on open road and motorway; 0 = the usual
	Easy, Brisk     float64               // shares of the distance driven at that pace, 0 to 1
	LoadKg          float64               // on top of the vehicle's mass as driven
	TowKg           float64               // the trailer's mass
	TowShare        float64               // of the distance that it is towed; Unknown = all of it
	MJPerL          float64               // energy of the fuel
}

// UnknownRoads are roads of which nothing is noted.
func UnknownRoads() Roads {
	u := quantity.Unknown
	return Roads{Noted: u, ColdStartsPerKm: u, AirC: u, LoadKg: u, TowKg: u, TowShare: u, MJPerL: u}
}

// usualShare is how an owner who notes nothing drives, by distance (common practice).
var usualShare = [engine.Kinds]float64{engine.Town: 0.35, engine.Mixed: 0.30, engine.Open: 0.25, engine.Motorway: 0.10}

const (
	usualAirC  = 12.0
	petrolMJ   = 32.1 // MJ/L, lower heating value, as the usual tables of fuels have it
	referenceC = 20.0
)

// noted is the part of the distance whose kind of road is known.
func (r Roads) noted() float64 {
	sum := 0.0
	for _, s := range r.Share {
		sum += s
	}
	if !(sum > 0) {
		return 0
	}
	return quantity.Or(r.Noted, 1)
}

// mix is the share of each kind; tilt leans what is not noted towards town (+) or the open road.
func (r Roads) mix(tilt float64) (out [engine.Kinds]float64) {
	known, sum := r.noted(), 0.0
	for _, s := range r.Share {
		sum += s
	}
	lean := between(usualShare[engine.Town]*(1+tilt), 0.02, usualShare[engine.Town]+usualShare[engine.Open]-0.02)
	usual := usualShare
	usual[engine.Open] -= lean - usual[engine.Town]
	usual[engine.Town] = lean
	for k := range out {
		out[k] = (1 - known) * usual[k]
		if known > 0 {
			out[k] += known * r.Share[k] / sum
		}
	}
	return out
}

func between(x, low, high float64) float64 { return min(max(x, low), high) }

// cruiseUntold is the share of the distance at a steady speed whose speed is not noted, 0 to 1.
func (r Roads) cruiseUntold() float64 {
	untold, steady := 0.0, 0.0
	for k, share := range r.mix(0) {
		if demands[k].steady {
			steady += share
			if !(r.CruiseKmh[k] > 0) {
				untold += share
			}
		}
	}
	if steady == 0 {
		return 0
	}
	return untold / steady
}

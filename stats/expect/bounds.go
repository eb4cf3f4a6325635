package expect

import (
	"brimlog/ingest/quantity"
	"brimlog/stats/engine"
)

// A bounded is a figure of the roads with what nobody goes beyond.
type bounded struct {
	key       string // as the files have it
	at        *float64
	low, high float64
	unit      string
}

func (r *Roads) bounded() []bounded {
	all := []bounded{
		{"share noted", &r.Noted, 0, 1, ""},
		{"cold starts a km", &r.ColdStartsPerKm, 0, 5, ""},
		{"air_c", &r.AirC, -50, 60, "degrees C"},
		{"share at an easy pace", &r.Easy, 0, 1, ""},
		{"share at a brisk pace", &r.Brisk, 0, 1, ""},
		{"load_kg", &r.LoadKg, 0, 3000, "kg"},
		{"tow_kg", &r.TowKg, 0, 3500, "kg"},
		{"share towed", &r.TowShare, 0, 1, ""},
		{"mj_per_l", &r.MJPerL, 15, 40, "MJ/L"},
	}
	for k := range r.Share {
		all = append(all, bounded{"share of a kind of road", &r.Share[k], 0, 1e9, ""})
		if r.CruiseKmh[k] != 0 {
			all = append(all, bounded{"cruise_kmh", &r.CruiseKmh[k], 20, 250, "km/h"})
		}
	}
	return all
}

// checkRoads refuses what nobody drives on.
func checkRoads(all ...Roads) error {
	for _, r := range all {
		for _, b := range r.bounded() {
			if err := engine.Within(b.key, *b.at, b.low, b.high, b.unit); err != nil {
				return err
			}
		}
	}
	return nil
}

// Usable is the roads without what nobody drives on, which counts as not noted, and an error for each such figure: one
// slip in the trips need not cost the whole answer.
func (r Roads) Usable() (Roads, []error) {
	var left []error
	for _, b := range r.bounded() {
		if err := engine.Within(b.key, *b.at, b.low, b.high, b.unit); err != nil {
			left = append(left, err)
			*b.at = quantity.Unknown
		}
	}
	return r, left
}

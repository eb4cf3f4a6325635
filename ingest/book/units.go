package book

import (
	"path/filepath"
	"slices"
	"strings"

	"brimlog/ingest/quantity"
)

// Units are the units that the columns of a new file are in.
type Units string

// The three sets of units that owners think in.
const (
	UK     Units = "uk"     // miles, litres, °C
	US     Units = "us"     // miles, US gallons, °F
	Metric Units = "metric" // km, litres, °C
)

// of is the unit for a column of that quantity.
func (u Units) of(base quantity.Unit) quantity.Unit {
	switch {
	case base.Base() == quantity.Km && u != Metric:
		return quantity.Mile
	case base.Base() == quantity.Litre && u == US:
		return quantity.GallonUS
	case base.Base() == quantity.Celsius && u == US:
		return quantity.Fahrenheit
	}
	return base.Base()
}

// header is a file's usual header. What people read off an instrument or a pump is in their units, the rest in the contract's.
func (u Units) header(f form) []string {
	var names []string
	for _, n := range f.columnNames() {
		stem, starred := strings.CutSuffix(n, "_*")
		if starred {
			if n = stem + "_" + u.of(f.lookup(stem).unit).String(); stem == "fuel_lost" {
				n = "fuel_lost_l"
			}
		}
		names = append(names, n)
	}
	return names
}

// unitsOf is the set of units that a logbook is kept in: by the header of its fills, else of its trips, else by the economy that
// vehicle.toml shows.
func unitsOf(d disk, dir string) Units {
	for _, file := range []string{FillsFile, TripsFile} {
		data, _, err := d.read(filepath.Join(dir, file))
		if err != nil {
			continue
		}
		l, err := newLayout(file, data)
		has := func(stem string) bool {
			return slices.ContainsFunc(l.header, func(h string) bool { return strings.HasPrefix(strings.ToLower(strings.TrimSpace(h)), stem) })
		}
		switch {
		case err != nil || has("odometer_km") || has("odometer_start_km"):
			return Metric
		case has("volume_gal_us") || has("air_f"):
			return US
		case has("odometer_mi") || has("odometer_start_mi"):
			return UK
		}
	}
	data, _, err := d.read(filepath.Join(dir, VehicleFile))
	if err != nil {
		return Metric
	}
	v, err := parseVehicle(data)
	for _, u := range []Units{UK, US} {
		if err == nil && v.Show.Economy == u.Economy() {
			return u
		}
	}
	return Metric
}

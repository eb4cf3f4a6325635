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

// unitsOf is the set of units that a logbook is kept in, by the header of its fills.
func unitsOf(d disk, dir string) Units {
	data, _, err := d.read(filepath.Join(dir, FillsFile))
	if err != nil {
		return Metric
	}
	l, err := newLayout(FillsFile, data)
	has := func(name string) bool {
		return slices.ContainsFunc(l.header, func(h string) bool { return strings.EqualFold(strings.TrimSpace(h), name) })
	}
	switch {
	case err != nil || has("odometer_km"):
		return Metric
	case has("volume_gal_us"):
		return US
	case has("odometer_mi"):
		return UK
	}
	return Metric
}

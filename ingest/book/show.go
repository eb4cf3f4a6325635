package book

import "brimlog/ingest/quantity"

// complete fills what [show] leaves open from the units that the owner's fills are written in: miles with US gallons read
// in mpg_us, other miles in mpg_uk, all else in l_100km.
func (s *Show) complete(fills *pass) {
	if s.Distance == "" {
		s.Distance = fills.odometer.String()
	}
	volume := quantity.Litre
	if column := fills.column("volume"); column != "volume" {
		volume = unitOf(column)
	}
	if s.Volume == "" {
		s.Volume = volume.String()
	}
	switch {
	case s.Economy != "":
	case s.Distance == "km":
		s.Economy = "l_100km"
	case s.Volume == "gal_us":
		s.Economy = "mpg_us"
	default:
		s.Economy = "mpg_uk"
	}
}

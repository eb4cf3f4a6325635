package charts

import (
	"brimlog/ingest/book"
	"brimlog/ingest/quantity"
)

// A unit is one choice of the page's switch: how economy is written, and with it distance, volume and temperature.
type unit struct {
	ID          string `json:"id"`
	Name        string `json:"name"` // on the switch
	Economy     scale  `json:"economy"`
	Distance    scale  `json:"distance"`
	Volume      scale  `json:"volume"`
	Temperature scale  `json:"temperature"`
}

// direction says on a chart which way is better: the same way in every unit.
func (u unit) direction() string {
	if u.Economy.Inverse {
		return u.Economy.Label + ": better is up ↑"
	}
	return u.Economy.Label + ": better is up ↑, so the numbers run downwards"
}

// A scale leads from a base unit to what is written: base · Factor + Offset, or Factor / base where Inverse.
type scale struct {
	Label    string  `json:"label"`
	Factor   float64 `json:"factor"`
	Offset   float64 `json:"offset"`
	Inverse  bool    `json:"inverse"`
	Decimals int     `json:"decimals"`
	of       quantity.Unit
}

func scaleOf(u quantity.Unit, decimals int) scale {
	s := scale{Label: u.Label(), Inverse: u.MoreIsBetter(), Decimals: decimals, of: u}
	if s.Inverse {
		s.Factor = u.FromBase(1)
		return s
	}
	s.Offset = u.FromBase(0)
	s.Factor = u.FromBase(1)
	if s.Offset != 0 {
		s.Factor = round(s.Factor-s.Offset, 12) // the difference has lost its last digits
	}
	return s
}

// units are the switch's choices in the order in which it shows them. What goes with the owner's own choice is as the owner has it;
// with the others, what is usual beside them.
func units(show book.Show) (all []unit, own int) {
	choices := []struct {
		name, economy, distance, volume, temperature string
		decimals                                     int
	}{
		{"mpg UK", "mpg_uk", "mi", "l", "c", 1},
		{"mpg US", "mpg_us", "mi", "gal_us", "f", 1},
		{"L/100 km", "l_100km", "km", "l", "c", 1},
		{"km/L", "km_l", "km", "l", "c", 2},
	}
	own = 2 // base units, where the owner has not chosen
	for i, c := range choices {
		if c.economy == show.Economy {
			own = i
			c.distance, c.volume = or(show.Distance, c.distance), or(show.Volume, c.volume)
		}
		all = append(all, unit{
			ID: c.economy, Name: c.name,
			Economy:     scaleOf(named(c.economy), c.decimals),
			Distance:    scaleOf(named(c.distance), 0),
			Volume:      scaleOf(named(c.volume), 1),
			Temperature: scaleOf(named(c.temperature), 0),
		})
	}
	return all, own
}

// named is the unit of that name; the names of a vehicle's file were checked where it was read.
func named(name string) quantity.Unit {
	u, _ := quantity.UnitNamed(name)
	return u
}

func or(a, b string) string {
	if a == "" {
		return b
	}
	return a
}

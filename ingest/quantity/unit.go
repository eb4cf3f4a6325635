package quantity

import "strings"

// String is the unit's name as it stands in the files: gal_uk, l_100km. Number has none.
func (u Unit) String() string { return scales[u].name }

// Label is the unit's name for people: "mpg (UK)", "L/100 km".
func (u Unit) Label() string { return scales[u].label }

// Quantity is what the unit measures: distance, volume, temperature, mass, pressure, speed, time, share, economy, number.
func (u Unit) Quantity() string { return scales[u].what }

// Base is the unit that ToBase leads to.
func (u Unit) Base() Unit { return scales[u].base }

// Decimals is how many decimals of the unit people care to read.
func (u Unit) Decimals() int { return scales[u].decimals }

// Units lists the units of the same quantity as u, its base first.
func (u Unit) Units() []Unit {
	var same []Unit
	for v := range unitCount {
		if scales[v].what == scales[u].what {
			same = append(same, v)
		}
	}
	return same
}

// UnitNamed finds a unit by the name that it has in the files, by its label, or by another common
// spelling (litres, miles, °F), in small or capital letters. A gallon or an mpg that is neither UK nor US is not found.
func UnitNamed(name string) (Unit, bool) {
	if u, ok := unitsByName[name]; ok {
		return u, true
	}
	u, ok := unitsByName[strings.ToLower(name)]
	return u, ok
}

// SplitColumn takes the unit off a column's name: "odometer_mi" is "odometer" in Mile. A name without a unit is whole, in
// Number.
func SplitColumn(column string) (stem string, u Unit) {
	for i := strings.IndexByte(column, '_'); i > 0 && i < len(column)-1; {
		if v, ok := unitsByName[column[i+1:]]; ok && scales[v].name == column[i+1:] {
			return column[:i], v
		}
		next := strings.IndexByte(column[i+1:], '_')
		if next < 0 {
			break
		}
		i += 1 + next
	}
	return column, Number
}

// unitsByName holds names, labels and further spellings, all in small letters.
var unitsByName = func() map[string]Unit {
	names := map[string]Unit{
		"kms": Km, "kilometre": Km, "kilometres": Km, "kilometer": Km, "kilometers": Km,
		"mile": Mile, "litre": Litre, "litres": Litre, "liter": Litre, "liters": Litre, "ltr": Litre,
		"uk gal": GallonUK, "us gal": GallonUS, "uk gallons": GallonUK, "us gallons": GallonUS,
		"imp gal": GallonUK, "imperial gallons": GallonUK,
		"deg c": Celsius, "degc": Celsius, "deg f": Fahrenheit, "degf": Fahrenheit,
		"lbs": Pound, "in hg": InHg, "kph": KmPerHour, "mins": Minute, "minutes": Minute, "hours": Hour, "hour": Hour, "hrs": Hour,
		"l/100km": LPer100Km, "uk mpg": MpgUK, "us mpg": MpgUS,
	}
	for u := Percent; u < unitCount; u++ {
		names[scales[u].name] = u
		names[strings.ToLower(scales[u].label)] = u
	}
	return names
}()

// vague are the names that mean two units; the column's own unit decides, where it is one of the two.
var vague = map[string][2]Unit{
	"gal": {GallonUK, GallonUS}, "gals": {GallonUK, GallonUS}, "gallon": {GallonUK, GallonUS}, "gallons": {GallonUK, GallonUS},
	"mpg": {MpgUK, MpgUS},
}

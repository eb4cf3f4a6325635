package quantity

// A Unit is a scale that a figure can be written in. The zero Unit is Number: no unit at all.
type Unit uint8

// The units of a logbook. The first of each quantity is its base unit.
const (
	Number Unit = iota
	Percent
	Km
	Mile
	Litre
	GallonUK
	GallonUS
	Celsius
	Fahrenheit
	Kilogram
	Pound
	Bar
	PSI
	InHg
	KmPerHour
	MilePerHour
	Minute
	Hour
	LPer100Km
	KmPerL
	MpgUK
	MpgUS
	unitCount
)

// A scale leads to the base unit: base = (x + offset) · factor / divisor, or the reciprocal of x · divisor / factor.
type scale struct {
	name, label string // as in the files, and for people
	what        string // the quantity
	base        Unit
	offset      float64
	factor      float64
	divisor     float64
	reciprocal  bool
	decimals    int // that people care to read
}

// Exact by definition: the international yard and pound agreement of 1959 for mile (1760 yards of 0.9144 m) and
// pound; the UK Units of Measurement Regulations 1995 for the imperial gallon; the US gallon is 231 cubic
// inches of 25.4 mm; standard gravity 9.80665 m/s² is from the 3rd CGPM of 1901. The inch of mercury is the conventional one
// of NIST Special Publication 811, appendix B: a density of 13595.1 kg/m³ (0 °C) at standard gravity.
const (
	kmPerMile      = 1.609344
	litresPerGalUK = 4.54609
	litresPerGalUS = 3.785411784
	kgPerPound     = 0.45359237
	standardG      = 9.80665
	barPerPSI      = kgPerPound * standardG / (0.0254 * 0.0254) / 1e5
	barPerInHg     = 13595.1 * standardG * 0.0254 / 1e5
)

var scales = [unitCount]scale{
	Number:      {"", "", "number", Number, 0, 1, 1, false, 2},
	Percent:     {"pct", "%", "share", Percent, 0, 1, 100, false, 0},
	Km:          {"km", "km", "distance", Km, 0, 1, 1, false, 0},
	Mile:        {"mi", "miles", "distance", Km, 0, kmPerMile, 1, false, 0},
	Litre:       {"l", "L", "volume", Litre, 0, 1, 1, false, 2},
	GallonUK:    {"gal_uk", "gal (UK)", "volume", Litre, 0, litresPerGalUK, 1, false, 2},
	GallonUS:    {"gal_us", "gal (US)", "volume", Litre, 0, litresPerGalUS, 1, false, 2},
	Celsius:     {"c", "°C", "temperature", Celsius, 0, 1, 1, false, 0},
	Fahrenheit:  {"f", "°F", "temperature", Celsius, -32, 5, 9, false, 0},
	Kilogram:    {"kg", "kg", "mass", Kilogram, 0, 1, 1, false, 0},
	Pound:       {"lb", "lb", "mass", Kilogram, 0, kgPerPound, 1, false, 0},
	Bar:         {"bar", "bar", "pressure", Bar, 0, 1, 1, false, 2},
	PSI:         {"psi", "psi", "pressure", Bar, 0, barPerPSI, 1, false, 0},
	InHg:        {"inhg", "inHg", "pressure", Bar, 0, barPerInHg, 1, false, 1},
	KmPerHour:   {"kmh", "km/h", "speed", KmPerHour, 0, 1, 1, false, 0},
	MilePerHour: {"mph", "mph", "speed", KmPerHour, 0, kmPerMile, 1, false, 0},
	Minute:      {"min", "min", "time", Minute, 0, 1, 1, false, 0},
	Hour:        {"h", "h", "time", Minute, 0, 60, 1, false, 1},
	LPer100Km:   {"l_100km", "L/100 km", "economy", LPer100Km, 0, 1, 1, false, 1},
	KmPerL:      {"km_l", "km/L", "economy", LPer100Km, 0, 100, 1, true, 1},
	MpgUK:       {"mpg_uk", "mpg (UK)", "economy", LPer100Km, 0, 100 * litresPerGalUK / kmPerMile, 1, true, 1},
	MpgUS:       {"mpg_us", "mpg (US)", "economy", LPer100Km, 0, 100 * litresPerGalUS / kmPerMile, 1, true, 1},
}

// ToBase turns x of this unit into the base unit of its quantity. An economy that is not above zero is no figure
// in distance per fuel, so it becomes Unknown.
func (u Unit) ToBase(x float64) float64 {
	s := &scales[u]
	if s.reciprocal {
		return s.invert(x)
	}
	return (x + s.offset) * s.factor / s.divisor
}

// FromBase turns x of the base unit into this unit; the inverse of ToBase.
func (u Unit) FromBase(x float64) float64 {
	s := &scales[u]
	if s.reciprocal {
		return s.invert(x)
	}
	return x*s.divisor/s.factor - s.offset
}

// invert leads from distance per fuel to fuel per distance and, being its own inverse, back.
func (s *scale) invert(x float64) float64 {
	if !(x > 0) {
		return Unknown
	}
	return known(s.factor / x)
}

// known is x, or Unknown where arithmetic has left the figures: JSON carries no infinity.
func known(x float64) float64 {
	if Known(x) {
		return x
	}
	return Unknown
}

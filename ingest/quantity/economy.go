package quantity

// An Economy is fuel over distance, in L/100 km: the one of the four scales that may be added and averaged, because its
// distance stands below. Unknown where nothing was driven.
type Economy float64

// EconomyOf is the economy of that much fuel over that distance. A distance that is not above zero, or fuel below it, gives
// Unknown.
func EconomyOf(km, litres float64) Economy {
	if !(km > 0) || !(litres >= 0) {
		return Economy(Unknown)
	}
	return Economy(known(100 * litres / km))
}

// Average is the economy over several tanks: total fuel over total distance, never the mean of the tanks' own
// figures. km and litres go in pairs; an unknown part makes the whole unknown.
func Average(km, litres []float64) Economy {
	var distance, fuel float64
	for i := range km {
		distance += km[i]
		fuel += litres[i]
	}
	return EconomyOf(distance, fuel)
}

// In is the economy in the unit u, one of LPer100Km, KmPerL, MpgUK and MpgUS. No fuel at all has no distance
// per fuel: Unknown.
func (e Economy) In(u Unit) float64 { return u.FromBase(float64(e)) }

// Format writes the economy in the unit u with its label: "18.4 mpg (UK)".
func (e Economy) Format(u Unit) string { return Format(float64(e), u) }

// MoreIsBetter tells whether a higher number in this unit is less fuel.
func (u Unit) MoreIsBetter() bool { return scales[u].reciprocal }

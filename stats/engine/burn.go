package engine

import (
	"math"

	"gonum.org/v1/gonum/interp"
)

// Petrol: lower heating value and the air that burns it, by mass (Heywood, table D.4, from memory; 43.1 MJ/kg is
// 32.1 MJ/L at 0.745 kg/L).
const (
	heatingValue  = 43.1e6 // J/kg
	stoichiometry = 14.6
)

// Wiebe's burn law x = 1 - exp(-a z^(m+1)) with the usual a = 5, m = 2.
const (
	wiebeA    = 5.0
	wiebePow  = 3.0
	wiebeHalf = 0.5176 // z at half burnt: (ln 2 / a)^(1/3)
	wiebeEnd  = 1.4    // z past which nothing is left: x = 0.999999
)

// A wiebe is one burn: from the spark, over so many degrees.
type wiebe struct{ spark, duration float64 }

// rate is the share burnt per degree.
func (w wiebe) rate(deg float64) float64 {
	z := (deg - w.spark) / w.duration
	if z <= 0 || z >= wiebeEnd {
		return 0
	}
	return wiebeA * wiebePow * z * z * math.Exp(-wiebeA*z*z*z) / w.duration
}

// half is the angle at which half is burnt.
func (w wiebe) half() float64 { return w.spark + wiebeHalf*w.duration }

// burnDuration is how long the burn takes in crank degrees: longer with speed, with burnt gas left in the charge,
// and away from the mixture that burns fastest (Heywood, section 9.3, from memory; sizes chosen so that best spark
// falls 24 to 36 degrees before top centre from full to light load, as common practice has it).
func burnDuration(rpm, residual, lambda float64) float64 {
	off := lambda - 0.9
	return 55 * math.Pow(rpm/2000, 0.25) * (1 + 3*residual) * (1 + 2.5*off*off)
}

// burntShare is the share of the fuel's heat set free, against lambda: rich mixtures want for oxygen, lean ones
// begin to miss past 1.2 (Heywood, figure 3-9, from memory).
var burntShare = func() func(float64) float64 {
	var curve interp.FritschButland
	lambda := []float64{0.60, 0.70, 0.75, 0.80, 0.85, 0.90, 0.95, 1.00, 1.05, 1.10, 1.15, 1.20, 1.30, 1.50}
	share := []float64{0.53, 0.670, 0.730, 0.789, 0.843, 0.892, 0.930, 0.957, 0.970, 0.974, 0.970, 0.960, 0.91, 0.60}
	if err := curve.Fit(lambda, share); err != nil {
		panic(err) // the table above is at fault
	}
	return func(l float64) float64 { return curve.Predict(min(max(l, 0.6), 1.5)) }
}()

// fuelShare is the fuel's part of fresh charge, by mass.
func fuelShare(lambda float64) float64 { return 1 / (1 + lambda*stoichiometry) }

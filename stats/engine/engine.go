// Package engine reckons what an old petrol engine does in a given state of tune, and the arithmetic of its cam.
//
// The cycle model follows one cylinder through its four strokes: what flows through the valves, what burns, what
// the walls take. It gives ratios of fuel and torque against the same engine healthy, which hold far better than
// its absolute figures do. It assumes a four-stroke petrol engine without a blower, all cylinders alike but for those that
// do not fire, one cam that carries both sets of lobes, and steady speed; pressure waves in the pipes are left out. It refuses figures
// that no such engine has (BoundError).
//
// Units: crank degrees unless a name says cam; bar, kPa, K, kg, m, rev/min; lambda is air over the air that burns
// the fuel exactly. A figure that nobody knows is quantity.Unknown and takes a common engine's value.
//
// stats/expect turns the ratios into litres.
package engine

import (
	"math"

	"brimlog/ingest/quantity"
)

// An Engine is what the model is told of the engine.
type Engine struct {
	DisplacementCC   float64
	Cylinders        float64
	CompressionRatio float64
	IdleRPM          float64
	Injection        bool // else a carburettor with a power circuit
	Card             Card
}

// A Card is the timing card: crank degrees, and the teeth of the cam's sprocket.
type Card struct {
	IntakeOpensBTDC, IntakeClosesABDC   float64
	ExhaustOpensBBDC, ExhaustClosesATDC float64
	SprocketTeeth                       float64
}

// A Tune is the measured state of the engine. What is Unknown is taken to be as it should be.
type Tune struct {
	CamPhaseDeg     float64 // + = advanced against its card
	IgnitionDeg     float64 // + = advanced against its setting, as the timing light shows it
	Lambda          float64 // at a steady cruise
	LambdaIdle      float64
	CompressionLoss float64 // 0.1 = cranking pressure a tenth lower than it should be, the cam's share left out
	Dead            float64 // share of the cylinders that do not fire, 0 = all do

	// DistributorReset says that the ignition was set again since the cam moved, or does not turn with the cam.
	// It matters only where IgnitionDeg is Unknown: a timing light sees the cam's share too.
	DistributorReset bool
}

// Unmeasured is the tune of which nothing is known: the model takes it for a healthy one.
func Unmeasured() Tune {
	u := quantity.Unknown
	return Tune{CamPhaseDeg: u, IgnitionDeg: u, Lambda: u, LambdaIdle: u, CompressionLoss: u}
}

// Measured tells whether anything is known of the tune.
func (t Tune) Measured() bool {
	for _, x := range []float64{t.CamPhaseDeg, t.IgnitionDeg, t.Lambda, t.LambdaIdle, t.CompressionLoss} {
		if quantity.Known(x) {
			return true
		}
	}
	return t.Dead > 0
}

// IgnitionError is how far the spark stands off its setting, in crank degrees: what the timing light showed, else
// what the cam took along.
func (t Tune) IgnitionError() float64 {
	if t.DistributorReset {
		return quantity.Or(t.IgnitionDeg, 0)
	}
	return quantity.Or(t.IgnitionDeg, quantity.Or(t.CamPhaseDeg, 0))
}

// touring is a mild road cam (common practice), for a card that nobody has.
var touring = Card{IntakeOpensBTDC: 20, IntakeClosesABDC: 60, ExhaustOpensBBDC: 60, ExhaustClosesATDC: 20, SprocketTeeth: quantity.Unknown}

// Known tells whether the card has all four events.
func (c Card) Known() bool {
	return quantity.Known(c.IntakeOpensBTDC + c.IntakeClosesABDC + c.ExhaustOpensBBDC + c.ExhaustClosesATDC)
}

// orCommon fills what is unknown with a common engine's value.
func (e Engine) orCommon() Engine {
	e.Cylinders = quantity.Or(e.Cylinders, 4)
	e.DisplacementCC = quantity.Or(e.DisplacementCC, 450*e.Cylinders)
	e.CompressionRatio = quantity.Or(e.CompressionRatio, 8.8)
	e.IdleRPM = quantity.Or(e.IdleRPM, 800)
	if !e.Card.Known() {
		e.Card = touring
	}
	return e
}

// cruiseLambda is what a healthy mixture stands at on a light, steady throttle (common practice).
func (e Engine) cruiseLambda() float64 {
	if e.Injection {
		return 1.00
	}
	return 1.03
}

// idleLambda is what a healthy idle is set to: about 2 % of carbon monoxide with a carburettor (common practice).
func (e Engine) idleLambda() float64 {
	if e.Injection {
		return 0.98
	}
	return 0.94
}

// MostCO is the carbon monoxide, in percent, past which an exhaust tells no more of the mixture.
const MostCO = 12.0

// LambdaFromCO is lambda from the carbon monoxide in the exhaust, in percent, ahead of any catalyst: 0.95 at 1.9 %,
// 0.90 at 3.6 %, 0.80 at 7.3 % (from memory of the usual exhaust-gas charts, +-0.02). Below 0.5 % carbon monoxide says
// no more than 'not rich' and the answer is Unknown; more than MostCO counts as MostCO.
func LambdaFromCO(pct float64) float64 {
	if !(pct >= 0.5) {
		return quantity.Unknown
	}
	return 1.02 - 0.039*math.Pow(min(pct, MostCO), 0.85)
}

// HealthyLambda is what a sound mixture stands at, cruising and idling (common practice).
func HealthyLambda(injection bool) (cruise, idle float64) {
	e := Engine{Injection: injection}
	return e.cruiseLambda(), e.idleLambda()
}

package engine

import (
	"fmt"

	"brimlog/ingest/quantity"
)

// A BoundError refuses a figure that no vehicle of this kind has, and names the bound.
type BoundError struct {
	Key       string // as vehicle.toml or the reading has it
	Got       float64
	Low, High float64
	Unit      string // may be empty
}

func (e *BoundError) Error() string {
	unit := e.Unit
	if unit != "" {
		unit = " " + unit
	}
	return fmt.Sprintf("%s: want %g to %g%s, got %.6g, correct the entry or leave it out", e.Key, e.Low, e.High, unit, e.Got)
}

// Within is nil where x is unknown or lies within the bounds, else a *BoundError.
func Within(key string, x, low, high float64, unit string) error {
	if quantity.Known(x) && (x < low || x > high) {
		return &BoundError{key, x, low, high, unit}
	}
	return nil
}

// Check refuses engines outside what the model can speak of.
func (e Engine) Check() error {
	each := e.DisplacementCC / e.Cylinders
	return first(
		Within("engine.displacement_cc", e.DisplacementCC, 50, 12000, "cc"),
		Within("engine.cylinders", e.Cylinders, 1, 16, ""),
		Within("engine.displacement_cc of one cylinder", each, 40, 1700, "cc"),
		Within("engine.compression_ratio", e.CompressionRatio, 4, 14, ""),
		Within("engine.idle_rpm", e.IdleRPM, 300, 1800, "rev/min"),
		e.Card.Check(),
	)
}

// Check refuses cards that no road engine has.
func (c Card) Check() error {
	return first(
		Within("engine.cam.intake_opens_btdc", c.IntakeOpensBTDC, -20, 60, "degrees"),
		Within("engine.cam.intake_closes_abdc", c.IntakeClosesABDC, 10, 100, "degrees"),
		Within("engine.cam.exhaust_opens_bbdc", c.ExhaustOpensBBDC, 10, 100, "degrees"),
		Within("engine.cam.exhaust_closes_atdc", c.ExhaustClosesATDC, -20, 60, "degrees"),
		Within("engine.cam.sprocket_teeth", c.SprocketTeeth, 10, 120, "teeth"),
	)
}

// Check refuses readings outside what the model can speak of.
func (t Tune) Check() error {
	return first(
		Within("cam_phase_deg", t.CamPhaseDeg, -50, 50, "crank degrees"),
		Within("ignition_deg", t.IgnitionDeg, -50, 50, "crank degrees"),
		Within("lambda", t.Lambda, 0.6, 1.5, ""),
		Within("lambda_idle", t.LambdaIdle, 0.6, 1.5, ""),
		Within("compression loss", t.CompressionLoss, 0, 0.6, ""),
		Within("share of dead cylinders", t.Dead, 0, 0.95, ""),
	)
}

// first is the first error that is one.
func first(errs ...error) error {
	for _, err := range errs {
		if err != nil {
			return err
		}
	}
	return nil
}

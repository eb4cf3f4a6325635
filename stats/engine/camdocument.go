package engine

import (
	"fmt"

	"brimlog/ingest/quantity"
)

// CamAnswer is the document of cam. Durations, overlap, centrelines, lobe separation and advance are the card's.
type CamAnswer struct {
	DegreesPerToothCam   quantity.Figure `json:"degrees_per_tooth_cam"`
	DegreesPerToothCrank quantity.Figure `json:"degrees_per_tooth_crank"`
	PhaseErrorCrankDeg   quantity.Figure `json:"phase_error_crank_deg"`
	NearestTeeth         quantity.Figure `json:"nearest_teeth"`
	ResidualCrankDeg     quantity.Figure `json:"residual_crank_deg"`
	IntakeDuration       quantity.Figure `json:"intake_duration"`
	ExhaustDuration      quantity.Figure `json:"exhaust_duration"`
	Overlap              quantity.Figure `json:"overlap"`
	IntakeCentreline     quantity.Figure `json:"intake_centreline"`
	ExhaustCentreline    quantity.Figure `json:"exhaust_centreline"`
	LobeSeparation       quantity.Figure `json:"lobe_separation"`

	Advance                   quantity.Figure `json:"advance"`
	MeasuredIntakeCentreline  quantity.Figure `json:"measured_intake_centreline"`
	MeasuredExhaustCentreline quantity.Figure `json:"measured_exhaust_centreline"`
	MeasuredIntakeDuration    quantity.Figure `json:"measured_intake_duration"`
	MeasuredExhaustDuration   quantity.Figure `json:"measured_exhaust_duration"`
	PhaseErrorSd              quantity.Figure `json:"phase_error_sd"`
	ScatterDeg                quantity.Figure `json:"scatter_deg"` // of the repeats
	Repeats                   int             `json:"repeats"`
	IgnitionMovedDeg          quantity.Figure `json:"ignition_moved_deg"` // unless it was set again since
	Ignition                  string          `json:"ignition"`           // moved, reset; empty = not told
	Verdict                   string          `json:"verdict"`            // good, fair, out; empty without a phase
	Turn                      string          `json:"turn"`               // which way, in words
	Events                    *CamEvents      `json:"events"`             // the card as it reads where the cam stands
	Stop                      []string        `json:"stop"`               // why it should not be driven on as it is
	Notes                     []string        `json:"notes"`
	Caution                   []string        `json:"caution"`
}

// CamEvents are four events in crank degrees.
type CamEvents struct {
	IntakeOpensBTDC   float64 `json:"intake_opens_btdc"`
	IntakeClosesABDC  float64 `json:"intake_closes_abdc"`
	ExhaustOpensBBDC  float64 `json:"exhaust_opens_bbdc"`
	ExhaustClosesATDC float64 `json:"exhaust_closes_atdc"`
}

// Check refuses a phase error that work.csv should not carry: no cycle model takes it, and no engine runs with it.
func (a CamAnswer) Check() error {
	return Within("cam_phase_deg", float64(a.PhaseErrorCrankDeg), -50, 50, "crank degrees")
}

// Reading is the phase error as work.csv takes it, with what was told of the ignition; empty where there is none.
func (a CamAnswer) Reading() string {
	phase := float64(a.PhaseErrorCrankDeg)
	if !quantity.Known(phase) {
		return ""
	}
	s := fmt.Sprintf("cam_phase_deg=%.1f", phase)
	if a.Ignition != "" {
		s += ";" + SparkReading + "=" + a.Ignition
	}
	return s
}

package engine

import (
	"fmt"
	"strings"

	"brimlog/ingest/quantity"
)

// Ignition is what has become of the spark since the cam moved.
type Ignition int

// What is known of it. Until somebody says, it may have been either.
const (
	IgnitionUnknown Ignition = iota
	IgnitionMoved            // the distributor turns with the cam, and was not set again
	IgnitionReset            // set again since, or not driven by the cam
)

// SparkReading is the reading of work.csv that has it in a word.
const SparkReading = "ignition_since_cam"

// SparkWords are what an owner may say of it.
var SparkWords = map[string]Ignition{"unknown": IgnitionUnknown, "moved": IgnitionMoved, "reset": IgnitionReset}

// word is what was told, empty where nothing was.
func (i Ignition) word() string {
	for word, known := range SparkWords {
		if known == i && i != IgnitionUnknown {
			return word
		}
	}
	return ""
}

// CamQuestion is what is known of a cam's timing. One way of saying where it stands is enough, and more than one is refused:
// the lobes together, SprocketOffset, Teeth or Phase.
type CamQuestion struct {
	Card            Card // events Unknown where there is no card
	Drive           Drive
	Ignition        Ignition
	Intake, Exhaust Lobe
	LiftMM          float64 // at which the flanks were read; Unknown = the card's own
	SprocketOffset  float64 // cam degrees ahead of its mark
	Teeth           float64 // whole teeth ahead of its mark
	Phase           float64 // crank degrees
}

// UnknownCard is a card of which nothing is known.
func UnknownCard() Card {
	u := quantity.Unknown
	return Card{u, u, u, u, u}
}

// NewCamQuestion asks about a card, with nothing measured yet.
func NewCamQuestion(c Card) CamQuestion {
	u := quantity.Unknown
	return CamQuestion{Card: c, LiftMM: u, SprocketOffset: u, Teeth: u, Phase: u}
}

// Answer reckons what can be reckoned from what is known; the rest is Unknown. The error is a *BoundError, or says that where
// the cam stands was told twice.
func (q CamQuestion) Answer() (CamAnswer, error) {
	if err := q.check(); err != nil {
		return CamAnswer{}, err
	}
	f := func(x float64) quantity.Figure { return quantity.Figure(x) }
	c, teeth := q.Card, q.Card.SprocketTeeth
	in, ex := q.Intake.IntakeCentre(), q.Exhaust.ExhaustCentre()
	phase, sd := q.phase(in, ex)
	whole, left := NearestTeeth(phase, teeth)
	a := CamAnswer{
		DegreesPerToothCam: f(ToothCam(teeth)), DegreesPerToothCrank: f(ToothCrank(teeth)),
		PhaseErrorCrankDeg: f(phase), PhaseErrorSd: f(sd), NearestTeeth: f(whole), ResidualCrankDeg: f(left),
		IntakeDuration: f(c.IntakeDuration()), ExhaustDuration: f(c.ExhaustDuration()), Overlap: f(c.Overlap()),
		IntakeCentreline: f(c.IntakeCentreline()), ExhaustCentreline: f(c.ExhaustCentreline()),
		LobeSeparation: f(c.LobeSeparation()), Advance: f(c.Advance()),
		MeasuredIntakeCentreline: f(in.Deg), MeasuredExhaustCentreline: f(ex.Deg),
		MeasuredIntakeDuration: f(q.Intake.Duration()), MeasuredExhaustDuration: f(q.Exhaust.Duration()),
		ScatterDeg: f(quantity.Or(in.Scatter, ex.Scatter)), Repeats: max(in.Repeats, ex.Repeats),
		IgnitionMovedDeg: f(q.sparkMoved(phase)), Ignition: q.Ignition.word(), Stop: []string{},
		Notes: q.notes(phase, sd, in, ex), Caution: WheelCautions,
	}
	if quantity.Known(phase) {
		a.Stop = append(a.Stop, q.stop(phase)...)
		a.Verdict, a.Turn = verdict(phase), q.turn(phase, whole, left)
		if _, disagree := q.LobesDisagree(a); disagree {
			a.Turn = "leave it: read both lobes again before anything is moved"
		}
		if c.Known() {
			m := c.Moved(phase)
			a.Events = &CamEvents{m.IntakeOpensBTDC, m.IntakeClosesABDC, m.ExhaustOpensBBDC, m.ExhaustClosesATDC}
		}
	}
	return a, nil
}

// sparkMoved is how far the cam has taken the ignition along, as far as nobody says otherwise.
func (q CamQuestion) sparkMoved(phase float64) float64 {
	if q.Ignition == IgnitionReset && quantity.Known(phase) {
		return 0
	}
	return phase
}

// stop is why the engine should not be driven on with the cam so.
func (q CamQuestion) stop(phase float64) []string {
	found := Unmeasured()
	found.CamPhaseDeg, found.DistributorReset = phase, q.Ignition == IgnitionReset
	if q.Ignition == IgnitionMoved {
		found.IgnitionDeg = phase
	}
	return found.Stop()
}

func (q CamQuestion) check() error {
	err := first(q.Card.Check(), q.oneWay(),
		Within("sprocket offset", q.SprocketOffset, -90, 90, "cam degrees"),
		Within("teeth", q.Teeth, -20, 20, "teeth"),
		Within("cam_phase_deg", q.Phase, -180, 180, "crank degrees"),
		Within("lift", q.LiftMM, leastLift, 20, "mm"))
	for _, l := range []Lobe{q.Intake, q.Exhaust} {
		for _, r := range l {
			err = first(err, Within("opening flank", r.Opens, -170, 150, "crank degrees"),
				Within("closing flank", r.Closes, -170, 150, "crank degrees"),
				Within("distance between the flanks", r.Duration(), 20, 400, "crank degrees"))
		}
	}
	return err
}

// leastLift is the lift in mm below which a flank is a ramp that no dial reads twice alike.
const leastLift = 0.02

// oneWay refuses a question that says more than once where the cam stands.
func (q CamQuestion) oneWay() error {
	var ways []string
	for _, w := range []struct {
		name string
		told bool
	}{
		{"readings of the wheel", len(q.Intake)+len(q.Exhaust) > 0}, {"an offset at the sprocket", quantity.Known(q.SprocketOffset)},
		{"teeth", quantity.Known(q.Teeth)}, {"a phase", quantity.Known(q.Phase)},
	} {
		if w.told {
			ways = append(ways, w.name)
		}
	}
	if len(ways) > 1 {
		return fmt.Errorf("where the cam stands: want it told in one way, got %s, leave out all but one", strings.Join(ways, " and "))
	}
	return nil
}

// phase is where the cam stands, with its uncertainty where it was measured. By the contract the intake lobe decides;
// the exhaust lobe, ground on the same shaft, stands in for it.
func (q CamQuestion) phase(in, ex Centreline) (phase, sd float64) {
	switch {
	case in.Repeats > 0 && quantity.Known(q.Card.IntakeCentreline()):
		return q.Card.IntakeCentreline() - in.Deg, in.Sd
	case ex.Repeats > 0 && quantity.Known(q.Card.ExhaustCentreline()):
		return ex.Deg - q.Card.ExhaustCentreline(), ex.Sd
	case quantity.Known(q.SprocketOffset):
		return CrankDegrees(q.SprocketOffset), quantity.Unknown
	case quantity.Known(q.Teeth):
		return q.Teeth * ToothCrank(q.Card.SprocketTeeth), quantity.Unknown
	}
	return q.Phase, quantity.Unknown
}

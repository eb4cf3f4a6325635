package engine

import (
	"encoding/json"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"brimlog/ingest/quantity"
)

func near0(x, want float64) bool { return math.Abs(x-want) < 1e-9 }

// The worked examples are common practice.
func TestCard(t *testing.T) {
	c := Card{20, 60, 60, 20, 40}
	for _, x := range []struct {
		name      string
		got, want float64
	}{
		{"intake duration", c.IntakeDuration(), 260}, {"exhaust duration", c.ExhaustDuration(), 260},
		{"intake centreline", c.IntakeCentreline(), 110}, {"exhaust centreline", c.ExhaustCentreline(), 110},
		{"overlap", c.Overlap(), 40}, {"lobe separation", c.LobeSeparation(), 110}, {"advance", c.Advance(), 0},
		{"a tooth of 40 in cam degrees", ToothCam(40), 9}, {"in crank degrees", ToothCrank(40), 18},
		{"4 degrees at the sprocket", CrankDegrees(4), 8},
	} {
		if !near0(x.got, x.want) {
			t.Errorf("%s: %g, want %g", x.name, x.got, x.want)
		}
	}
	if got, want := c.Moved(5), (Card{25, 55, 65, 15, 40}); got != want {
		t.Errorf("20-60/60-20 advanced 5 reads %v, want %v", got, want)
	}
	advanced := Card{25, 55, 65, 15, 40}
	for _, card := range []struct {
		Card
		phase, advance float64
	}{{c, 5, 0}, {advanced, 0, 5}} {
		q := NewCamQuestion(card.Card)
		q.Intake, q.Exhaust = Lobe{{25, 55}}, Lobe{{65, 15}}
		a, err := q.Answer()
		if err != nil || !near0(float64(a.PhaseErrorCrankDeg), card.phase) || !near0(float64(a.Advance), card.advance) {
			t.Errorf("25-55/65-15 on a card of %v: phase error %v, advance %v, %v", card.Card, a.PhaseErrorCrankDeg, a.Advance, err)
		}
	}
	if whole, left := NearestTeeth(20, 40); whole != 1 || !near0(left, 2) {
		t.Errorf("20 crank degrees on 40 teeth: %g teeth and %g over, want 1 and 2", whole, left)
	}
	if whole, left := NearestTeeth(-20, 40); whole != -1 || !near0(left, -2) {
		t.Errorf("20 late on 40 teeth: %g teeth and %g over", whole, left)
	}
}

// Every way of saying where the cam stands gives the same answer.
func TestFromEverySide(t *testing.T) {
	card := Card{20, 60, 60, 20, 40}
	ways := map[string]func(*CamQuestion){
		"events":  func(q *CamQuestion) { q.Intake = Lobe{{28, 52}} },
		"exhaust": func(q *CamQuestion) { q.Exhaust = Lobe{{68, 12}} },
		"at lift": func(q *CamQuestion) { q.Intake = Lobe{{28 - 15, 52 - 15}} },
		"offset":  func(q *CamQuestion) { q.SprocketOffset = 4 },
		"phase":   func(q *CamQuestion) { q.Phase = 8 },
	}
	for name, set := range ways {
		q := NewCamQuestion(card)
		set(&q)
		a, err := q.Answer()
		if err != nil {
			t.Fatal(err)
		}
		if !near0(float64(a.PhaseErrorCrankDeg), 8) || a.NearestTeeth != 0 || !near0(float64(a.ResidualCrankDeg), 8) || a.IgnitionMovedDeg != 8 {
			t.Errorf("%s: %+v", name, a)
		}
		if *a.Events != (CamEvents{28, 52, 68, 12}) {
			t.Errorf("%s: events %v", name, *a.Events)
		}
		if !strings.Contains(a.Turn, "early") || !strings.Contains(a.Turn, "against the way it runs") || !strings.Contains(a.Turn, "4.0 cam degrees") {
			t.Errorf("%s: %s", name, a.Turn)
		}
	}
	q := NewCamQuestion(card)
	q.Teeth = -1
	a, err := q.Answer()
	if err != nil || a.PhaseErrorCrankDeg != -18 || a.NearestTeeth != -1 || a.ResidualCrankDeg != 0 || a.Verdict != "out" {
		t.Errorf("one tooth late: %+v, %v", a, err)
	}
	if a.Reading() != "cam_phase_deg=-18.0" {
		t.Errorf("one tooth late is noted as %s", a.Reading())
	}
	for said, want := range map[Ignition]string{IgnitionReset: "reset", IgnitionMoved: "moved"} {
		q.Ignition = said
		if a, _ := q.Answer(); a.Reading() != "cam_phase_deg=-18.0;ignition_since_cam="+want || a.Ignition != want {
			t.Errorf("with the ignition %s it is noted as %s", want, a.Reading())
		}
	}
	if !strings.Contains(a.Turn, "late") || !strings.Contains(a.Turn, "1 tooth relative to the crank, which puts it right") {
		t.Errorf("one tooth late: %s", a.Turn)
	}
}

func TestOnlyOneWayOfSayingWhereItStands(t *testing.T) {
	q := NewCamQuestion(Card{20, 60, 60, 20, 40})
	q.Teeth, q.Phase = 1, 18
	if _, err := q.Answer(); err == nil || !strings.Contains(err.Error(), "got teeth and a phase") {
		t.Errorf("told twice: %v", err)
	}
}

func TestVerdict(t *testing.T) {
	for _, c := range []struct {
		phase float64
		want  string
	}{{0, "good"}, {2, "good"}, {-2, "good"}, {2.5, "fair"}, {-4, "fair"}, {5, "out"}, {-18, "out"}} {
		q := NewCamQuestion(Card{20, 60, 60, 20, 40})
		q.Phase = c.phase
		if a, _ := q.Answer(); a.Verdict != c.want {
			t.Errorf("%g degrees: %s, want %s", c.phase, a.Verdict, c.want)
		}
	}
}

// What nobody knows is null in the document, and nothing else of it suffers.
func TestUnknownCard(t *testing.T) {
	q := NewCamQuestion(UnknownCard())
	q.Card.SprocketTeeth = 40
	q.SprocketOffset = -4
	a, err := q.Answer()
	if err != nil {
		t.Fatal(err)
	}
	b, err := json.Marshal(a)
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{`"overlap":null`, `"phase_error_crank_deg":-8`, `"degrees_per_tooth_cam":9`, `"nearest_teeth":0`, `"events":null`} {
		if !strings.Contains(string(b), want) {
			t.Errorf("%s lacks %s", b, want)
		}
	}
	q = NewCamQuestion(Card{500, 60, 60, 20, 40})
	if _, err := q.Answer(); err == nil {
		t.Error("an intake that opens 500 degrees early is accepted")
	}
}

// Repeats sharpen the answer, scatter blunts it, and neither moves it.
func TestRepeats(t *testing.T) {
	sd := func(l Lobe) float64 { return l.IntakeCentre().Sd }
	one, calm, wild := Lobe{{20, 60}}, Lobe{{20, 60}, {21, 61}, {19, 59}}, Lobe{{20, 60}, {26, 54}, {14, 66}}
	if !(sd(calm) < sd(one) && sd(one) < sd(wild)) {
		t.Errorf("uncertainty of one reading %.2f, of three alike %.2f, of three that scatter %.2f", sd(one), sd(calm), sd(wild))
	}
	c := wild.IntakeCentre()
	if !near0(c.Deg, 110) || !near0(c.Scatter, 6) {
		t.Errorf("centre %g, scatter %g, want 110 and 6", c.Deg, c.Scatter)
	}
	// GUM, by hand for one reading: 1 degree, top centre 1/sqrt(3), the wheel 0.5/sqrt(6)
	if want := math.Sqrt(1 + 1./3 + 0.25/6); !near0(sd(one), want) {
		t.Errorf("uncertainty of one reading %g, want %g", sd(one), want)
	}
}

// A reading at any lift, of any card moved by any phase, gives that phase back; whole teeth and rest add up to it.
func TestPhaseRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		card := Card{
			rapid.Float64Range(-10, 60).Draw(t, "io"), rapid.Float64Range(30, 90).Draw(t, "ic"),
			rapid.Float64Range(30, 90).Draw(t, "eo"), rapid.Float64Range(-10, 60).Draw(t, "ec"),
			float64(rapid.IntRange(16, 60).Draw(t, "teeth")),
		}
		phase := rapid.Float64Range(-50, 50).Draw(t, "phase")
		lift := rapid.Float64Range(0, 25).Draw(t, "narrower by")
		m := card.Moved(phase)
		q := NewCamQuestion(card)
		q.Intake = Lobe{{m.IntakeOpensBTDC - lift, m.IntakeClosesABDC - lift}}
		q.Exhaust = Lobe{{m.ExhaustOpensBBDC - lift, m.ExhaustClosesATDC - lift}}
		a, err := q.Answer()
		if err != nil {
			t.Fatal(err)
		}
		got := float64(a.PhaseErrorCrankDeg)
		if math.Abs(got-phase) > 1e-9 {
			t.Errorf("phase %g came back as %g", phase, got)
		}
		back := float64(a.NearestTeeth)*ToothCrank(card.SprocketTeeth) + float64(a.ResidualCrankDeg)
		if math.Abs(back-phase) > 1e-9 || math.Abs(float64(a.ResidualCrankDeg)) > ToothCrank(card.SprocketTeeth)/2+1e-9 {
			t.Errorf("phase %g is %v teeth and %v over", phase, a.NearestTeeth, a.ResidualCrankDeg)
		}
		if len(a.Caution) == 0 {
			t.Error("no caution where an engine is turned")
		}
	})
}

func TestNotes(t *testing.T) {
	q := NewCamQuestion(Card{20, 60, 60, 20, 40})
	q.Intake = Lobe{{12, 68}}
	q.Exhaust = Lobe{{60, 20}}
	a, err := q.Answer()
	if err != nil {
		t.Fatal(err)
	}
	all := strings.Join(a.Notes, "\n")
	for _, want := range []string{"one reading only", "more than 4 degrees out", "worn lobe", "less than half a tooth", "ignition stands 8 crank degrees late"} {
		if !strings.Contains(all, want) {
			t.Errorf("notes lack %q:\n%s", want, all)
		}
	}
	if !strings.Contains(all, "with the timing light: outdoors only") {
		t.Errorf("a timing light is asked for without its cautions:\n%s", all)
	}
	alone := NewCamQuestion(Card{20, 60, 60, 20, 40})
	alone.Exhaust, alone.Ignition = Lobe{{40, 40}, {47, 33}, {33, 47}}, IgnitionReset
	b, err := alone.Answer()
	if all := strings.Join(b.Notes, "\n"); err != nil || !strings.Contains(all, "find top centre again") || !strings.Contains(all, "the repeats scatter by 7.0 degrees") || strings.Contains(all, "timing light") {
		t.Errorf("the exhaust alone: %v\n%s", err, all)
	}
	if quantity.Known(float64(a.ScatterDeg)) {
		t.Errorf("one reading has a scatter of %v", a.ScatterDeg)
	}
}

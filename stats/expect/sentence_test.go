package expect

import (
	"math"
	"strings"
	"testing"

	"brimlog/ingest/quantity"
	"brimlog/stats/engine"
)

func TestSentence(t *testing.T) {
	q := asked(heron(), UnknownRoads())
	plain := ask(t, q)
	say := func() string { t.Helper(); return ask(t, q).Sentence(quantity.MpgUK) }
	holds := func(wants ...string) {
		t.Helper()
		s := say()
		for _, want := range wants {
			if !strings.Contains(s, want) {
				t.Errorf("%q lacks %q", s, want)
			}
		}
		if strings.Contains(s, "L/100") {
			t.Errorf("a British owner is told %q", s)
		}
	}
	holds("should return", quantity.FormatNumber(float64(plain.Healthy.High), quantity.MpgUK)+" to "+quantity.FormatNumber(float64(plain.Healthy.Low), quantity.MpgUK))
	q.Measured = Level{float64(plain.Healthy.Mid) * 1.41, 0.02}
	q.Tune.CamPhaseDeg, q.Tune.IgnitionDeg = -30, 0
	holds("41 % more than this engine should need", "; the cam as measured explains ", "something else is wrong as well")
	q.Tune.CamPhaseDeg, q.Tune.IgnitionDeg = -20, -20
	holds("the ignition and the cam as measured explain ", "41 %")
	q.Measured.LPer100Km /= 1.38
	q.Tune = engine.Unmeasured()
	holds("within what its kind differs by")
	q.Measured.LPer100Km = float64(plain.Healthy.Mid) * 0.7
	holds("30 % less", "doubt the figures")
	q.Measured.LPer100Km = float64(plain.Healthy.Mid)
	holds("As much as")
	q.Measured = Level{}
	q.Roads.Share[engine.Town] = 1
	holds("on these roads in this weather")
	q.Tune.CamPhaseDeg, q.Tune.DistributorReset = -30, true
	holds("the cam as measured should make it")
}

// Whatever the excess and the tune, the sentence never takes a share of what is not there.
func TestSentenceNeverContradictsItself(t *testing.T) {
	for excess := -40.0; excess <= 60; excess += 2.5 {
		for _, tune := range []float64{-12, -3, 0, 0.4, 3, 9, 30} {
			for _, sure := range []float64{0.02, 0.4, 0.97} {
				a := Answer{Healthy: Range{9, 10, 11}, ExcessPct: quantity.Figure(excess), TunePct: quantity.Figure(tune),
					ChanceAboveHealthy: quantity.Figure(sure), ChanceAboveTuned: quantity.Figure(sure), Parts: []Part{{"cam", quantity.Figure(tune)}}}
				s := a.Sentence(quantity.MpgUK)
				ofThat := strings.Contains(s, "of that") || strings.Contains(s, "explain it")
				if ofThat && (excess <= 0 || tune <= 0 || strings.Contains(s, "less than")) {
					t.Errorf("excess %g, tune %g: %q", excess, tune, s)
				}
				if strings.Contains(s, "of that") && tune > excess {
					t.Errorf("%g of %g: %q", tune, excess, s)
				}
				if tune >= 0.5 && !strings.Contains(s, "the cam as measured") {
					t.Errorf("excess %g, tune %g: no word of the cam: %q", excess, tune, s)
				}
			}
		}
	}
	a := Answer{ExcessPct: 20, TunePct: 18, ChanceAboveHealthy: 0.97, Parts: []Part{{"cam", 18}}}
	if s := a.Sentence(quantity.MpgUK); !strings.Contains(s, "would cost 18 %, enough to explain it") {
		t.Error(s)
	}
	a = Answer{ExcessPct: -3, TunePct: 9, ChanceAboveHealthy: 0.4, Parts: []Part{{"cam", 9}}}
	if s := a.Sentence(quantity.MpgUK); !strings.Contains(s, "3 % less") || !strings.Contains(s, "should cost 9 %, which the pump does not show") {
		t.Error(s)
	}
}

// Each part by itself costs about what the model says of it, they come costliest first, and what is in order is none.
func TestParts(t *testing.T) {
	q := asked(heron(), UnknownRoads())
	q.Tune.CamPhaseDeg, q.Tune.IgnitionDeg, q.Tune.Lambda, q.Tune.CompressionLoss = -30, -1, 0.85, 0
	a := ask(t, q)
	if len(a.Parts) != 2 || a.Parts[0].Name != "mixture" || a.Parts[1].Name != "cam" || !(a.Parts[0].FuelPct > a.Parts[1].FuelPct && a.Parts[1].FuelPct > 1) {
		t.Fatalf("parts %v", a.Parts)
	}
	q.Tune.CamPhaseDeg, q.Tune.IgnitionDeg = quantity.Unknown, quantity.Unknown
	if alone := ask(t, q); len(alone.Parts) != 1 || alone.Parts[0].FuelPct != alone.TunePct || math.Abs(float64(alone.TunePct-a.Parts[0].FuelPct)) > 1e-9 {
		t.Errorf("the mixture alone costs %v, as a part %v", alone.Parts, a.Parts[0])
	}
	q.Tune = engine.Unmeasured()
	q.Tune.CamPhaseDeg = -1
	if a := ask(t, q); len(a.Parts) != 0 {
		t.Errorf("a cam within its limit is told as a fault: %v", a.Parts)
	}
}

// Of a vehicle of which neither size nor weight is told the sentence makes nothing, and says what would help.
func TestHardlyKnown(t *testing.T) {
	for _, c := range []struct {
		displacement, mass float64
		vague              bool
	}{{quantity.Unknown, quantity.Unknown, true}, {2600, quantity.Unknown, false}, {quantity.Unknown, 1380, false}, {2600, 1380, false}} {
		v := heron()
		bare := v
		bare.Engine.DisplacementCC, bare.Body.MassKg = c.displacement, c.mass
		bare.Engine.Cylinders, bare.Engine.CompressionRatio, bare.Year = quantity.Unknown, quantity.Unknown, quantity.Unknown
		bare.Body.Shape, bare.Body.DragAreaM2, bare.Driveline.KmhPer1000RPM = "", quantity.Unknown, quantity.Unknown
		q := asked(bare, UnknownRoads())
		q.Measured = Level{15, 0.02}
		a := ask(t, q)
		s := a.Sentence(quantity.LPer100Km)
		if a.Vague() != c.vague || c.vague != strings.Contains(s, "hardly known yet") {
			t.Errorf("%g cc, %g kg: %q, the range is %.2f wide", c.displacement, c.mass, s, float64(a.Healthy.High/a.Healthy.Low))
		}
	}
}

package suspect

import (
	"strings"
	"testing"

	"brimlog/ingest/book"
)

// A fault that was measured stands, even where the owner feels nothing of it: what is not felt is missing all together, and
// that counts once.
func TestMeasuredThoughNotFelt(t *testing.T) {
	for cause, readings := range map[string]string{"ign_retarded": "ignition_deg=-9", "vac_adv_torn": "vacuum_holds=falls", "thermostat_open": "thermostat_c=62"} {
		e := Nothing()
		e.FuelSystem = carburettor
		e.Excess, e.ExcessSD = 0.05, 0.02
		for _, k := range []book.Symptom{book.WeakLow, book.WeakCruise, book.WeakHigh, book.Hesitation, book.HardStart, book.RoughIdle, book.RunOn, book.Overheating, book.Knock} {
			e.Grades[k].Typical = book.None
		}
		e.Readings = readingsOf(t, readings)
		if first := Rank(e).Suspects[0]; first.Cause != cause {
			t.Errorf("%s, and nothing felt: %s stands first (%.2f)", readings, first.Cause, first.Chance)
		}
	}
}

// A cylinder far below the rest is named, and is no chance of a sound engine.
func TestWeakCylinderIsNamed(t *testing.T) {
	e := Nothing()
	e.Readings = readingsOf(t, "compression_bar=11/10.8/6.9/11.1")
	r := Rank(e)
	if !strings.Contains(strings.Join(r.Notes, "; "), "cylinder 3") {
		t.Errorf("notes %q do not name the cylinder", r.Notes)
	}
	e.Readings = readingsOf(t, "compression_bar=11/10.8/9.3/11.1")
	if weak, low := chances(r)[NothingWrong], chances(Rank(e))[NothingWrong]; weak > low/10 {
		t.Errorf("nothing wrong has a chance of %.3f with a cylinder at two thirds, and of %.3f with one a sixth down", weak, low)
	}
}

// What it uses and what a cause makes of it are said as one would.
func TestFuelInPlainWords(t *testing.T) {
	e := Nothing()
	e.Excess, e.ExcessSD = -0.001, 0.02
	for _, s := range Rank(e).Suspects {
		for _, text := range append(s.Because, s.Against...) {
			if strings.Contains(text, "uses 0 %") || strings.Contains(text, "makes -") {
				t.Errorf("%s: %q", s.Cause, text)
			}
		}
	}
}

// It began with work elsewhere: that is the reason against a cause, not how causes of its kind begin.
func TestWorkElsewhereIsTheReason(t *testing.T) {
	e := Nothing()
	e.Onset, e.Jobs = Onset{Form: Sudden, Tanks: 3}, heronLate().Jobs
	for _, s := range Rank(e).Suspects {
		for _, text := range s.Against {
			if strings.HasPrefix(text, "it began at once; this comes mostly at once") {
				t.Errorf("%s: %q", s.Cause, text)
			}
		}
		if s.Cause == "hard_driving" && !strings.Contains(strings.Join(s.Against, "; "), "work on ignition, which does not touch") {
			t.Errorf("against hard driving: %q", s.Against)
		}
	}
}

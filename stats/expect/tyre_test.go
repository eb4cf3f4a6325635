package expect

import (
	"math"
	"testing"

	"brimlog/ingest/quantity"
)

// Diameters of sizes without an aspect: annexes of UN R30 and R54 (from memory); of coded ones: their own arithmetic.
func TestTyreDiameters(t *testing.T) {
	for _, c := range []struct {
		code   string
		mm     float64
		within float64
		radial bool
	}{
		{"7.50R16", 802, 0, true}, {"7.50-16", 808, 0, false}, {"145R13", 566, 0, true}, {"155R13", 578, 0, true},
		{"165R13", 596, 0, true}, {"175R14", 634, 0, true}, {"185R14", 650, 0, true}, {"165R15", 646, 0, true},
		{"185/70R14", 614.6, 0.01, true}, {"185/70 SR 14", 614.6, 0.01, true}, {"P205/75R15 97S", 688.5, 0.01, true},
		{"195/65R15 91H", 634.5, 0.01, true}, {"205R16", 734.4, 0.01, true}, {"165SR13", 596.2, 1, true},
		{"175 hr 14", 635.6, 2, true}, {"6.00-16", 702, 15, false}, {"5.60x15", 657, 15, false}, {"155-13", 578, 2, false},
		{"7.50 R 16 C", 802, 0, true}, {"235/85R16LT", 805.9, 0.01, true},
	} {
		tyre, err := ParseTyre(c.code)
		if err != nil {
			t.Error(err)
			continue
		}
		if math.Abs(tyre.DiameterMM-c.mm) > c.within || tyre.Radial != c.radial || !(tyre.Sd > 0) {
			t.Errorf("%s: %+v, want %g mm, radial %v", c.code, tyre, c.mm, c.radial)
		}
	}
	for _, bad := range []string{"", "R16", "205", "205/55", "9999R16", "205/5R16", "205R99", "big", "205R16; DROP", "30R16"} {
		if tyre, err := ParseTyre(bad); err == nil {
			t.Errorf("%q is read as %+v", bad, tyre)
		}
	}
}

// Common practice, the worked example: 205R16 exchanged for 7.50R16 makes true 1.092 times shown, and uncorrected
// consumption reads 9.2 % too high.
func TestTyreChange(t *testing.T) {
	was, _ := ParseTyre("205R16")
	now, _ := ParseTyre("7.50R16")
	fitted := func(was, now Tyre, before float64) Correction {
		t.Helper()
		c, err := ForTyres(was, now, before)
		if err != nil {
			t.Fatal(err)
		}
		return c
	}
	c := fitted(was, now, quantity.Unknown)
	if math.Abs(c.Factor-1.092) > 0.0005 || math.Abs(c.ReadsTooHighPct()-9.2) > 0.05 {
		t.Errorf("%+v", c)
	}
	if got := c.Reading(); got != "odometer_correction=1.092" {
		t.Error(got)
	}
	if c.Sd < 0.005 || c.Sd > 0.02 {
		t.Errorf("uncertain by %g, want about 1 %%", c.Sd)
	}
	if back := fitted(now, was, c.Factor); math.Abs(back.Factor-1) > 1e-9 {
		t.Errorf("there and back: %g", back.Factor)
	}
	if same := fitted(was, was, 0.98); math.Abs(same.Factor-0.98) > 1e-9 {
		t.Errorf("the same size keeps the instrument's own correction, got %g", same.Factor)
	}
	if now.Circumference() < 2.44 || now.Circumference() > 2.45 {
		t.Errorf("7.50R16 rolls %g m", now.Circumference())
	}
}

func TestMeasuredDistance(t *testing.T) {
	short, err := ForMeasured(1, 0.95)
	if err != nil {
		t.Fatal(err)
	}
	long, err := ForMeasured(20, 19)
	if err != nil {
		t.Fatal(err)
	}
	if math.Abs(short.Factor-long.Factor) > 1e-12 || math.Abs(long.Factor-20.0/19) > 1e-12 {
		t.Errorf("factors %g and %g", short.Factor, long.Factor)
	}
	if !(long.Sd < 0.003 && short.Sd > 10*long.Sd) {
		t.Errorf("20 km is uncertain by %g, one by %g", long.Sd, short.Sd)
	}
	for _, bad := range [][2]float64{{0, 1}, {1, 0}, {10, 1}, {-1, -1}} {
		if c, err := ForMeasured(bad[0], bad[1]); err == nil {
			t.Errorf("%v gives %+v", bad, c)
		}
	}
}

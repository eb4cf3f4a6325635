package stats

import (
	"math"
	"strings"
	"testing"

	"brimlog/ingest/quantity"
)

// What the owner says of the spark counts until cam or ignition is worked on, and a timing light goes before it.
func TestTheOwnersWordOfTheSpark(t *testing.T) {
	u := quantity.Unknown
	late := func(said string) [3]string {
		return [3]string{"measure", "camshaft", "cam_phase_deg=-18;ignition_since_cam=" + said}
	}
	for _, c := range []struct {
		name     string
		jobs     [][3]string
		ignition float64
		reset    bool
		caution  string // how it begins; empty = none
	}{
		{"not said", [][3]string{{"measure", "camshaft", "cam_phase_deg=-18"}}, u, false, "where the distributor turns with the cam"},
		{"reset", [][3]string{late("reset")}, u, true, ""},
		{"moved", [][3]string{late("moved")}, -18, false, "the spark is far too late"},
		{"no longer sure", [][3]string{late("moved"), late("unknown")}, u, false, "where the distributor turns with the cam"},
		{"said otherwise since", [][3]string{late("reset"), onward, late("moved")}, -18, false, "the spark is far too late"},
		{"moved, and read", [][3]string{late("moved"), {"measure", "ignition", "ignition_deg=-3"}}, -3, false, ""},
		{"moved, and set since", [][3]string{late("moved"), onward, {"adjust", "ignition", ""}}, u, true, ""},
		{"reset, and the cam out since", [][3]string{late("reset"), onward, {"fit", "camshaft", "cam_phase_deg=-9"}}, u, false, ""},
		{"reset, and found elsewhere since", [][3]string{late("reset"), onward, {"measure", "camshaft", "cam_phase_deg=-36"}}, u, false, "the cam is so far out"},
	} {
		got, caution, _ := told(t, c.jobs...)
		if quantity.Known(got.IgnitionDeg) != quantity.Known(c.ignition) || math.Abs(got.IgnitionDeg-c.ignition) > 1e-9 || got.DistributorReset != c.reset {
			t.Errorf("%s: the spark is %g off, set again %v; want %g, %v", c.name, got.IgnitionDeg, got.DistributorReset, c.ignition, c.reset)
		}
		if !strings.HasPrefix(caution, c.caution) || (caution == "") != (c.caution == "") {
			t.Errorf("%s: caution %q, want %q", c.name, caution, c.caution)
		}
	}
	reset, moved := expectedOf(t, late("reset")), expectedOf(t, late("moved"))
	if reset.TunePct > moved.TunePct-2 || strings.Contains(strings.Join(reset.Notes, ";"), "is not known") || strings.Contains(strings.Join(moved.Notes, ";"), "is not known") {
		t.Errorf("reset costs %.1f %%, moved %.1f; notes %q, %q", reset.TunePct, moved.TunePct, reset.Notes, moved.Notes)
	}
}

// A cam that was read before the head may have been off is questioned; clearances and readings move no cam.
func TestCamReadBeforeTheHead(t *testing.T) {
	read := [3]string{"measure", "camshaft", "cam_phase_deg=-6"}
	for _, c := range []struct {
		jobs    [][3]string
		doubted bool
	}{
		{[][3]string{read, {"repair", "compression", ""}}, true},
		{[][3]string{read, onward, {"fit", "valves", ""}}, true},
		{[][3]string{{"repair", "compression", ""}, read}, false},
		{[][3]string{read, {"adjust", "valves", ""}}, false},
		{[][3]string{read, {"measure", "compression", "compression_bar=10/10"}}, false},
		{[][3]string{read, {"repair", "camshaft/valves", ""}}, false}, // out of date altogether
	} {
		all := strings.Join(expectedOf(t, c.jobs...).Notes, ";")
		if doubted := strings.Contains(all, "if the head was off for that"); doubted != c.doubted {
			t.Errorf("%v: notes %q", c.jobs, all)
		}
	}
}

// A dead cylinder of two that were read is one of all that there are, and figures that do not match the cylinders are told.
func TestCylindersThatWereNotRead(t *testing.T) {
	for bars, want := range map[string]float64{"11/2": 1.0 / 6, "11/11/2/11/11/11": 1.0 / 6, "11/11/2/11/11/11/11/11": 1.0 / 8, "11/11": 0} {
		tune, _, noted := told(t, [3]string{"measure", "compression", "compression_bar=" + bars})
		if math.Abs(tune.Dead-want) > 1e-9 {
			t.Errorf("%s: %.3f of six are dead, want %.3f", bars, tune.Dead, want)
		}
		matches := strings.Count(bars, "/") == 5
		if strings.Contains(noted, "for 6 cylinders: want one for each") == matches {
			t.Errorf("%s: notes %q", bars, noted)
		}
	}
}

// Timing marks of which nobody knows what they should show are no part of the tune, and are said to be none.
func TestMarksThatTellNothing(t *testing.T) {
	for _, c := range []struct {
		jobs  [][3]string
		mute  bool
		taken string
	}{
		{[][3]string{{"measure", "ignition", "timing_2500_deg=28"}}, true, ""},
		{[][3]string{{"measure", "ignition", "timing_2500_deg=28;ignition_deg=0"}}, false, "ignition_deg timing_2500_deg"},
		{[][3]string{{"adjust", "ignition", "timing_idle_deg=8;ignition_deg=0"}, onward, {"measure", "ignition", "timing_idle_deg=2"}}, false, "timing_idle_deg"},
	} {
		e := expectedOf(t, c.jobs...)
		var names []string
		for _, h := range e.Readings {
			names = append(names, h.Name)
		}
		mute := strings.Contains(strings.Join(e.Notes, ";"), "work.csv:2: timing_2500_deg=28 tells nothing of the tune yet")
		if mute != c.mute || strings.Join(names, " ") != c.taken {
			t.Errorf("%v: taken from %q, notes %q", c.jobs, names, e.Notes)
		}
	}
}

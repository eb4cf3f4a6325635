package stats

import (
	"math"
	"strings"
	"testing"

	"brimlog/ingest/book"
	"brimlog/ingest/quantity"
	"brimlog/ingest/tank"
	"brimlog/stats/engine"
)

// worked is a diary's jobs, each kind, area and readings, with two tanks driven where the kind is "drive".
func worked(t *testing.T, jobs ...[3]string) *book.Book {
	t.Helper()
	d := newDiary()
	d.vehicle.WriteString("[engine.cam]\nintake_opens_btdc = 20\nintake_closes_abdc = 56\nexhaust_opens_bbdc = 56\nexhaust_closes_atdc = 20\nsprocket_teeth = 40\n")
	d.drive(1, 10, mixed)
	for i, j := range jobs {
		if j[0] == "drive" {
			d.drive(2, 10, mixed)
			continue
		}
		d.job("job-"+string(rune('a'+i)), j[0], j[1], j[2])
	}
	return d.read(t)
}

// told is the tune that they leave, what to beware of and what is noted.
func told(t *testing.T, jobs ...[3]string) (tune engine.Tune, caution, noted string) {
	t.Helper()
	b := worked(t, jobs...)
	n := &notes{}
	s := readTune(tank.Build(b))
	tune, all := s.tune(b.Vehicle.Engine, n)
	return tune, strings.Join(all, ";"), strings.Join(*n, ";")
}

func expectedOf(t *testing.T, jobs ...[3]string) *Expected {
	t.Helper()
	return Look(worked(t, jobs...), Options{Expect: true}).Expect
}

var onward = [3]string{"drive", "", ""}

// A timing reading, and an ignition set, from before the cam was found out of phase hides nothing of what the cam took along.
func TestCamOutdatesTheTiming(t *testing.T) {
	u := quantity.Unknown
	for _, c := range []struct {
		name     string
		jobs     [][3]string
		ignition float64
		reset    bool
	}{
		{"read long before", [][3]string{{"measure", "ignition", "ignition_deg=0"}, onward, {"measure", "camshaft", "cam_phase_deg=-18"}}, u, false},
		{"marks read long before", [][3]string{{"adjust", "ignition", "ignition_deg=0;timing_idle_deg=8"}, onward, {"measure", "ignition", "timing_idle_deg=8"}, onward, {"measure", "camshaft", "cam_phase_deg=-18"}}, u, false},
		{"read at one sitting", [][3]string{onward, {"measure", "ignition", "ignition_deg=0"}, {"measure", "camshaft", "cam_phase_deg=-18"}}, 0, false},
		{"read in one job", [][3]string{{"measure", "camshaft/ignition", "ignition_deg=0;cam_phase_deg=-18"}}, 0, false},
		{"read since", [][3]string{{"measure", "camshaft", "cam_phase_deg=-18"}, onward, {"measure", "ignition", "ignition_deg=-18"}}, -18, false},
		{"the light saw it", [][3]string{{"measure", "ignition", "ignition_deg=-17"}, onward, {"measure", "camshaft", "cam_phase_deg=-18"}}, -17, false},
		{"the cam stood so before", [][3]string{{"fit", "camshaft", "cam_phase_deg=-17"}, {"measure", "ignition", "ignition_deg=-3"}, onward, {"measure", "camshaft", "cam_phase_deg=-18"}}, -3, false},
		{"the cam stood otherwise", [][3]string{{"fit", "camshaft", "cam_phase_deg=0"}, {"measure", "ignition", "ignition_deg=-3"}, onward, {"measure", "camshaft", "cam_phase_deg=-18"}}, u, false},
		{"the cam is in order", [][3]string{{"measure", "ignition", "ignition_deg=-7"}, onward, {"measure", "camshaft", "cam_phase_deg=-1"}}, -7, false},
		{"set long before", [][3]string{{"adjust", "ignition", ""}, onward, {"measure", "camshaft", "cam_phase_deg=-18"}}, u, false},
		{"set with the cam, which was not read", [][3]string{{"fit", "camshaft/ignition", ""}, onward, {"measure", "camshaft", "cam_phase_deg=-18"}}, u, false},
		{"set with the cam, which jumped since", [][3]string{{"fit", "camshaft/ignition", "cam_phase_deg=-1;ignition_deg=0"}, onward, {"measure", "camshaft", "cam_phase_deg=-18"}}, u, false},
		{"set after the cam was read", [][3]string{{"measure", "camshaft", "cam_phase_deg=-18"}, onward, {"adjust", "ignition", ""}}, u, true},
		{"set, and read again", [][3]string{{"fit", "camshaft/ignition", "cam_phase_deg=-18"}, onward, {"measure", "camshaft", "cam_phase_deg=-17"}}, u, true},
		{"set at one sitting", [][3]string{onward, {"adjust", "ignition", ""}, {"measure", "camshaft", "cam_phase_deg=-18"}}, u, true},
		{"cam out again since", [][3]string{{"measure", "camshaft", "cam_phase_deg=-18"}, {"adjust", "ignition", "ignition_deg=0"}, onward, {"fit", "camshaft", "cam_phase_deg=-9"}}, u, false},
	} {
		got, _, noted := told(t, c.jobs...)
		if quantity.Known(got.IgnitionDeg) != quantity.Known(c.ignition) || math.Abs(got.IgnitionDeg-c.ignition) > 1e-9 {
			t.Errorf("%s: the ignition is %g off, want %g", c.name, got.IgnitionDeg, c.ignition)
		}
		if got.DistributorReset != c.reset {
			t.Errorf("%s: set with the cam where it stands: %v", c.name, got.DistributorReset)
		}
		if lapsed := strings.Contains(noted, "a timing light must tell anew"); lapsed && (quantity.Known(c.ignition) || c.reset) {
			t.Errorf("%s: notes %q", c.name, noted)
		}
	}
	stale := expectedOf(t, [3]string{"measure", "ignition", "ignition_deg=0"}, onward, [3]string{"measure", "camshaft", "cam_phase_deg=-18"})
	reset := expectedOf(t, [3]string{"measure", "camshaft", "cam_phase_deg=-18"}, onward, [3]string{"adjust", "ignition", "ignition_deg=0"})
	if stale.TunePct < reset.TunePct+2 {
		t.Errorf("with a stale reading the tune costs %.1f %%, with the ignition set since %.1f", stale.TunePct, reset.TunePct)
	}
	if all := strings.Join(stale.Notes, ";"); !strings.Contains(all, "whether the ignition was set again") || !strings.Contains(all, "work.csv:2: ignition_deg of job-a is older than job-c, which finds the cam 18 crank degrees off") {
		t.Errorf("notes %q", stale.Notes)
	}
}

// What a late cam takes off the gauge is the cam's, and only the rest a leak. All six down by a ninth is what a tooth does.
func TestCompressionLostToTheCamCountsOnce(t *testing.T) {
	before := [3]string{"measure", "compression", "compression_bar=10/10/10/10/10/10"}
	cam := [3]string{"measure", "camshaft", "cam_phase_deg=-18"}
	low := [3]string{"measure", "compression", "compression_bar=8.8/8.8/8.8/8.8/8.8/8.8"}
	lower := [3]string{"measure", "compression", "compression_bar=7/7/7/7/7/7"}
	loss := func(jobs ...[3]string) (float64, string) {
		tune, _, noted := told(t, jobs...)
		return tune.CompressionLoss, noted
	}
	share, err := engine.Engine{DisplacementCC: 2600, Cylinders: 6, CompressionRatio: quantity.Unknown, IdleRPM: quantity.Unknown, Card: engine.Card{
		IntakeOpensBTDC: 20, IntakeClosesABDC: 56, ExhaustOpensBBDC: 56, ExhaustClosesATDC: 20, SprocketTeeth: 40}}.CrankingBar(-18)
	if err != nil {
		t.Fatal(err)
	}
	sound, _ := engine.Engine{DisplacementCC: 2600, Cylinders: 6, CompressionRatio: quantity.Unknown, IdleRPM: quantity.Unknown, Card: engine.Card{
		IntakeOpensBTDC: 20, IntakeClosesABDC: 56, ExhaustOpensBBDC: 56, ExhaustClosesATDC: 20, SprocketTeeth: 40}}.CrankingBar(0)
	share /= sound
	alone, _ := loss(before, onward, low)
	byCam, _ := loss(before, onward, low, cam)
	if alone < 0.09 || byCam > 0.01 {
		t.Errorf("down by 12 %%: a leak of %.3f by itself, of %.3f beside a tooth late, which takes %.0f %%", alone, byCam, 100*(1-share))
	}
	for _, p := range expectedOf(t, before, onward, low, cam).Parts {
		if p.Name == "compression" {
			t.Errorf("the compression is a part of its own: %v", p)
		}
	}
	both, noted := loss(before, onward, lower, cam)
	if want := 1 - 7/(10*share) - 0.02; math.Abs(both-want) > 1e-6 || both < 0.1 {
		t.Errorf("down by 30 %% with the cam a tooth late: a leak of %.4f, want %.4f", both, want)
	}
	if !strings.Contains(noted, "only what is missing beyond that counts as leak") {
		t.Errorf("notes %q", noted)
	}
	asBefore, _ := loss(cam, before, onward, lower)
	if want := 1 - 0.7 - 0.02; math.Abs(asBefore-want) > 1e-6 {
		t.Errorf("the cam stood so at both: a leak of %.4f, want %.4f", asBefore, want)
	}
}

// A reading that no model can take warns all the same, and before all else.
func TestCautionSurvivesTheBounds(t *testing.T) {
	for readings, want := range map[string]string{
		"ignition_deg=60":                  "far too early",
		"ignition_deg=-70":                 "far too late",
		"cam_phase_deg=-150":               "valves may meet pistons",
		"co_pct=16":                        "carbon monoxide",
		"co_pct=12":                        "carbon monoxide",
		"co_pct=10":                        "carbon monoxide",
		"lambda_idle=0.4":                  "carbon monoxide",
		"lambda=0.5":                       "carbon monoxide",
		"lambda_cruise=1.7":                "so weak a mixture",
		"compression_bar=11/11/11/2/11/11": "cylinder 4 (2 bar of 11) is all but dead",
	} {
		_, caution, _ := told(t, [3]string{"measure", "other", readings})
		if !strings.Contains(caution, want) {
			t.Errorf("%s: caution %q, want %q", readings, caution, want)
		}
	}
	if e := expectedOf(t, [3]string{"measure", "ignition", "ignition_deg=60"}); len(e.Caution) != 1 || !strings.Contains(strings.Join(e.Notes, ";"), "left out of the tune") {
		t.Errorf("caution %q, notes %q", e.Caution, e.Notes)
	}
	d := newDiary()
	d.drive(1, 10, mixed)
	d.vehicle.WriteString("[place]\naltitude_m = 5900\n")
	d.job("light", "measure", "ignition", "ignition_deg=14")
	if e := d.expected(t); e.Refused == nil || len(e.Caution) != 1 {
		t.Errorf("of a vehicle that is refused: %v, caution %q", e.Refused, e.Caution)
	}
}

// A cylinder far below the others is named, and so is what it is a sign of.
func TestOneLowCylinderIsNamed(t *testing.T) {
	for bars, wants := range map[string][2]string{
		"10/10/10/6":         {"cylinder 4 (6 bar of 10) is far below the rest", ""},
		"11/11/3/11/11/11":   {"cylinder 3 (3 bar of 11) is far below the rest", "cylinder 3 (3 bar of 11) is all but dead"},
		"11/7/7.5/11":        {"two neighbours: the head gasket between them first", ""},
		"11/5/11/0":          {"cylinders 2 (5 bar of 11) and 4 (0 bar of 11) are far below the rest", "cylinders 2 (5 bar of 11) and 4 (0 bar of 11) are all but dead"},
		"11.2/10.9/11.1/8.6": {"", ""},
	} {
		_, caution, all := told(t, [3]string{"measure", "compression", "compression_bar=" + bars})
		if asks := strings.Contains(all, "oil in the plug hole"); asks && !strings.Contains(all, "with the compression gauge: ignition disabled") {
			t.Errorf("%s: a reading is asked for without its cautions: %q", bars, all)
		}
		if !strings.Contains(all, wants[0]) || wants[0] == "" && strings.Contains(all, "far below") || !strings.Contains(caution, wants[1]) || (wants[1] == "") != (caution == "") {
			t.Errorf("%s: notes %q, caution %q", bars, all, caution)
		}
	}
}

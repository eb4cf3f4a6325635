package stats

import (
	"math"
	"strings"
	"testing"

	"brimlog/ingest/quantity"
	"brimlog/ingest/tank"
	"brimlog/stats/engine"
)

// tuneAfter is the tune that jobs leave: each is kind, area, readings.
func tuneAfter(t *testing.T, jobs ...[3]string) (engine.Tune, *Expected) {
	t.Helper()
	d := newDiary()
	d.drive(1, 10, mixed)
	for i, j := range jobs {
		d.job("job-"+string(rune('a'+i)), j[0], j[1], j[2])
		d.day = d.day.AddDate(0, 0, 1)
	}
	b := d.read(t)
	r := Look(b, Options{Expect: true})
	s := readTune(tank.Build(b))
	tune, _ := s.tune(b.Vehicle.Engine, &notes{})
	return tune, r.Expect
}

func TestReadingsThatStillHold(t *testing.T) {
	u := quantity.Unknown
	for _, c := range []struct {
		name string
		jobs [][3]string
		want engine.Tune
	}{
		{"none", nil, engine.Tune{CamPhaseDeg: u, IgnitionDeg: u, Lambda: u, LambdaIdle: u, CompressionLoss: u}},
		{"a measure", [][3]string{{"measure", "camshaft", "cam_phase_deg=-18"}}, engine.Tune{CamPhaseDeg: -18, IgnitionDeg: u, Lambda: u, LambdaIdle: u, CompressionLoss: u}},
		{"the newest", [][3]string{{"measure", "ignition", "ignition_deg=-9"}, {"measure", "ignition", "ignition_deg=-7"}},
			engine.Tune{CamPhaseDeg: u, IgnitionDeg: -7, Lambda: u, LambdaIdle: u, CompressionLoss: u}},
		{"put right since", [][3]string{{"measure", "ignition", "ignition_deg=-9"}, {"adjust", "ignition", ""}},
			engine.Tune{CamPhaseDeg: u, IgnitionDeg: u, Lambda: u, LambdaIdle: u, CompressionLoss: u}},
		{"read with the job itself", [][3]string{{"measure", "ignition", "ignition_deg=-9"}, {"adjust", "ignition", "ignition_deg=0"}},
			engine.Tune{CamPhaseDeg: u, IgnitionDeg: 0, Lambda: u, LambdaIdle: u, CompressionLoss: u}},
		{"work elsewhere", [][3]string{{"measure", "ignition", "ignition_deg=-9"}, {"repair", "brakes", ""}},
			engine.Tune{CamPhaseDeg: u, IgnitionDeg: -9, Lambda: u, LambdaIdle: u, CompressionLoss: u}},
		{"a cam takes the distributor along", [][3]string{{"measure", "ignition", "ignition_deg=-9"}, {"fit", "camshaft", ""}},
			engine.Tune{CamPhaseDeg: u, IgnitionDeg: u, Lambda: u, LambdaIdle: u, CompressionLoss: u}},
		{"set again since the cam", [][3]string{{"fit", "camshaft", "cam_phase_deg=-18"}, {"adjust", "ignition", ""}},
			engine.Tune{CamPhaseDeg: -18, IgnitionDeg: u, Lambda: u, LambdaIdle: u, CompressionLoss: u, DistributorReset: true}},
		{"set with the cam", [][3]string{{"fit", "camshaft/ignition", "cam_phase_deg=-18"}},
			engine.Tune{CamPhaseDeg: -18, IgnitionDeg: u, Lambda: u, LambdaIdle: u, CompressionLoss: u, DistributorReset: true}},
		{"set before the cam", [][3]string{{"adjust", "ignition", ""}, {"fit", "camshaft", "cam_phase_deg=-18"}},
			engine.Tune{CamPhaseDeg: -18, IgnitionDeg: u, Lambda: u, LambdaIdle: u, CompressionLoss: u}},
		{"marks that were once right", [][3]string{{"adjust", "ignition", "ignition_deg=0;timing_idle_deg=8"}, {"service", "ignition", "timing_idle_deg=3"}},
			engine.Tune{CamPhaseDeg: u, IgnitionDeg: -5, Lambda: u, LambdaIdle: u, CompressionLoss: u}},
		{"off the idle first", [][3]string{{"adjust", "ignition", "ignition_deg=0;timing_idle_deg=8;timing_2500_deg=26"}, {"service", "ignition", "timing_idle_deg=8;timing_2500_deg=15"}},
			engine.Tune{CamPhaseDeg: u, IgnitionDeg: -11, Lambda: u, LambdaIdle: u, CompressionLoss: u}},
		{"a newer mixture of either name", [][3]string{{"measure", "fuel", "lambda_cruise=0.85"}, {"measure", "fuel", "lambda=0.95"}},
			engine.Tune{CamPhaseDeg: u, IgnitionDeg: u, Lambda: 0.95, LambdaIdle: u, CompressionLoss: u}},
		{"another cam idles otherwise", [][3]string{{"measure", "fuel", "co_pct=3.6;lambda_cruise=0.95"}, {"fit", "camshaft", ""}},
			engine.Tune{CamPhaseDeg: u, IgnitionDeg: u, Lambda: 0.95, LambdaIdle: u, CompressionLoss: u}},
		{"one low cylinder", [][3]string{{"measure", "compression", "compression_bar=10/10/10/6"}},
			engine.Tune{CamPhaseDeg: u, IgnitionDeg: u, Lambda: u, LambdaIdle: u, CompressionLoss: 0.05}},
		{"all of them lower than they were", [][3]string{{"measure", "compression", "compression_bar=10/10"}, {"measure", "compression", "compression_bar=9/9"}},
			engine.Tune{CamPhaseDeg: u, IgnitionDeg: u, Lambda: u, LambdaIdle: u, CompressionLoss: 0.08}},
		{"higher than they were", [][3]string{{"measure", "compression", "compression_bar=9/9"}, {"measure", "compression", "compression_bar=10/10"}},
			engine.Tune{CamPhaseDeg: u, IgnitionDeg: u, Lambda: u, LambdaIdle: u, CompressionLoss: 0}},
		{"another cam fills them otherwise", [][3]string{{"measure", "compression", "compression_bar=10/10"}, {"fit", "camshaft", ""}, {"measure", "compression", "compression_bar=9/9"}},
			engine.Tune{CamPhaseDeg: u, IgnitionDeg: u, Lambda: u, LambdaIdle: u, CompressionLoss: 0}},
		{"beyond any engine", [][3]string{{"measure", "camshaft/ignition", "cam_phase_deg=150;ignition_deg=-4"}},
			engine.Tune{CamPhaseDeg: u, IgnitionDeg: -4, Lambda: u, LambdaIdle: u, CompressionLoss: u}},
	} {
		got, e := tuneAfter(t, c.jobs...)
		for i, pair := range [][2]float64{{got.CamPhaseDeg, c.want.CamPhaseDeg}, {got.IgnitionDeg, c.want.IgnitionDeg}, {got.Lambda, c.want.Lambda},
			{got.LambdaIdle, c.want.LambdaIdle}, {got.CompressionLoss, c.want.CompressionLoss}} {
			if quantity.Known(pair[0]) != quantity.Known(pair[1]) || math.Abs(pair[0]-pair[1]) > 1e-9 {
				t.Errorf("%s: figure %d of the tune is %g, want %g", c.name, i, pair[0], pair[1])
			}
		}
		if got.DistributorReset != c.want.DistributorReset {
			t.Errorf("%s: set again since the cam moved: %v", c.name, got.DistributorReset)
		}
		if e.Refused != nil {
			t.Errorf("%s: %v", c.name, e.Refused)
		}
	}
}

// A reading that no engine gives is left out and told, with its line.
func TestReadingLeftOutIsTold(t *testing.T) {
	_, e := tuneAfter(t, [3]string{"measure", "camshaft", "cam_phase_deg=150"})
	if all := strings.Join(e.Notes, ";"); !strings.Contains(all, "work.csv:2: left out of the tune: cam_phase_deg: want -50 to 50 crank degrees, got 150") {
		t.Errorf("notes %q", all)
	}
}

func TestTimedRuns(t *testing.T) {
	d := newDiary()
	d.vehicle.WriteString("[log]\nhealthy_from = 2024-04-01\nhealthy_to = 2024-05-01\n")
	d.drive(3, 10, mixed)
	d.job("first", "measure", "driveline", "coast_s=21.6@80-60;pull_s=6.5@50-80")
	d.drive(3, 10, mixed)
	d.job("brakes", "repair", "brakes", "")
	e := d.expected(t)
	if c := e.Timed.Coast; quantity.Known(float64(c.Taken)) || c.FromKmh != 80 || math.Abs(float64(c.Healthy.Mid)-21.6) > 0.3 || e.Timed.Verdict != "" {
		t.Errorf("out of date since the brakes: %+v", c)
	}
	d.drive(1, 10, mixed)
	d.job("second", "measure", "driveline", "coast_s=18.0@80-60;pull_s=6.7@50-80")
	e = d.expected(t)
	if c := e.Timed.Coast; c.Taken != 18 || e.Timed.Verdict != "chassis" || len(e.Timed.Caution) == 0 {
		t.Errorf("a brake that drags: %+v, %s", c, e.Timed.Verdict)
	}
	d.job("third", "measure", "driveline", "coast_s=12@80-60;pull_s=900@50-80")
	if e = d.expected(t); e.Refused != nil || !strings.Contains(strings.Join(e.Notes, ";"), "pull_s left out: seconds: want 0.5 to 600 s, got 900") {
		t.Errorf("an absurd time: %v, %q", e.Refused, e.Notes)
	}
	d.job("fourth", "measure", "driveline", "coast_s=500@80-60;pull_s=0.6@50-80")
	if e = d.expected(t); e.Refused != nil || e.Timed.Coast.Doubt == "" || e.Timed.Pull.Doubt == "" || e.Timed.Verdict != "undecided" {
		t.Errorf("impossible times: %v, %+v", e.Refused, e.Timed)
	}
	blank := newDiary()
	blank.vehicle.WriteString("[show]\ndistance = \"mi\"\n")
	if c := blank.expected(t).Timed.Coast; math.Abs(c.FromKmh-50*1.609344) > 1e-9 || quantity.Known(float64(c.Taken)) {
		t.Errorf("nothing timed, in miles: %+v", c)
	}
}

func TestRepeatability(t *testing.T) {
	run := func(seconds float64, state int) timed { return timed{seconds: seconds, from: 80, to: 60, state: state} }
	usual := repeatability([]timed{run(20, 0)})
	calm := repeatability([]timed{run(20, 0), run(20.1, 0), run(20, 0), run(19.9, 0)})
	wild := repeatability([]timed{run(20, 0), run(24, 0), run(19, 0)})
	apart := repeatability([]timed{run(20, 0), run(15, 1)})
	if slip := repeatability([]timed{run(20, 0), run(500, 0), run(20.1, 0)}); slip != usual {
		t.Errorf("a slip of the watch makes the owner's scatter %g", slip)
	}
	if usual != 0.03 || apart != usual || !(calm < usual && usual < wild) {
		t.Errorf("usual %g, calm %g, wild %g, with a job between %g", usual, calm, wild, apart)
	}
}

// A shift that no job accounts for begins the measured tanks, and makes old readings and runs doubtful.
func TestShiftPutsRunsOutOfDate(t *testing.T) {
	d := newDiary()
	d.drive(10, 10, mixed)
	d.job("baseline", "measure", "driveline/ignition", "coast_s=21.6@80-60;ignition_deg=0")
	d.drive(4, 10, mixed)
	d.drive(10, 12.5, mixed)
	e := d.expected(t)
	if !e.Since.Shift || *e.Since.FromTank != 15 || math.Abs(float64(e.Measured.Mid)-12.5) > 0.1 {
		t.Errorf("measured %v since %+v, want 12.5 from tank 15 on", e.Measured, e.Since)
	}
	if quantity.Known(float64(e.Timed.Coast.Taken)) || e.Timed.Coast.FromKmh != 80 {
		t.Errorf("timed before the shift: %+v", e.Timed.Coast)
	}
	if !strings.Contains(strings.Join(e.Notes, ";"), "older than the shift") {
		t.Errorf("notes %q", e.Notes)
	}
	d.job("again", "measure", "driveline", "coast_s=17.0@80-60")
	if e := d.expected(t); e.Timed.Coast.Taken != 17 {
		t.Errorf("timed since the shift: %+v", e.Timed.Coast)
	}
}

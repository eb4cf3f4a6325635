package expect

import (
	"math"
	"strings"
	"testing"

	"brimlog/ingest/quantity"
	"brimlog/stats/engine"
)

// The project's table of causes has, by calculation for a 1,380 kg estate: coasting 80 to 60 km/h 21.6 s, with 50 N more
// 19.0 s; pulling 50 to 80 km/h 6.5 s, with 14 % less torque 7.8 s. They come of 0.85 m2, rolling resistance 0.013, 4 %
// of turning mass out of gear and 5 % in top, 32.5 km/h at 1000 rev/min, an efficiency of 0.92, and a mean effective
// pressure of 10 bar at full load (more than most engines of 1974 give).
func TestPublishedTimes(t *testing.T) {
	const mass = 1380
	f := figures{litres: 2.6, area: 0.85, rolling: 0.013, gearing: 32.5, driveline: 0.92, airC: 20}
	free := f.resistance(mass)
	dragging := free
	dragging.plain += 50
	pull := func(bmep float64) float64 {
		return free.pull(mass, 50/3.6, 80/3.6, func(float64) float64 { return f.push(bmep) })
	}
	for _, c := range []struct {
		what      string
		got, want float64
	}{
		{"coast", free.coast(mass, 80/3.6, 60/3.6), 21.6}, {"coast with 50 N more", dragging.coast(mass, 80/3.6, 60/3.6), 19.0},
		{"pull", pull(10), 6.5}, {"pull with 14 % less", pull(8.6), 7.8},
	} {
		if math.Abs(c.got-c.want) > 0.1 {
			t.Errorf("%s: %.2f s, want %.1f", c.what, c.got, c.want)
		}
	}
	// against the closed form of the coast-down
	a, b := free.square, free.plain
	closed := mass * (1 + coastInertia) / math.Sqrt(a*b) * (math.Atan(80/3.6*math.Sqrt(a/b)) - math.Atan(60/3.6*math.Sqrt(a/b)))
	if got := free.coast(mass, 80/3.6, 60/3.6); math.Abs(got-closed) > 1e-6 {
		t.Errorf("coast %.8f s, in closed form %.8f", got, closed)
	}
	if got := pull(1); !math.IsInf(got, 1) {
		t.Errorf("an engine that can't pull gets there in %g s", got)
	}
}

func timedRuns(t *testing.T, tune engine.Tune, coast, pull *Timing) TimedAnswer {
	t.Helper()
	q := asked(heron(), UnknownRoads())
	q.Tune, q.Coast, q.Pull = tune, coast, pull
	a := ask(t, q)
	if a.Timed == nil {
		return TimedAnswer{}
	}
	return *a.Timed
}

func timing(from, to, seconds, healthy float64) *Timing {
	r := NewTiming(from, to, seconds)
	r.Repeat, r.Healthy = 0.02, healthy
	return &r
}

func TestHealthyTimes(t *testing.T) {
	u := quantity.Unknown
	a := timedRuns(t, engine.Unmeasured(), timing(80, 60, 21.6, u), timing(50, 80, 7.0, u))
	if a.Coast.Healthy.Low > 21.6 || a.Coast.Healthy.High < 21.6 {
		t.Errorf("coast %v, want it to hold 21.6", a.Coast.Healthy)
	}
	if a.Pull.Healthy.Low < 5 || a.Pull.Healthy.High > 11 {
		t.Errorf("pull %v", a.Pull.Healthy)
	}
	if a.Verdict != "neither" || len(a.Caution) == 0 {
		t.Errorf("%s: %s", a.Verdict, a.Reason)
	}
	late := engine.Unmeasured()
	late.CamPhaseDeg, late.DistributorReset = -18, true
	b := timedRuns(t, late, timing(80, 60, 21.6, u), timing(50, 80, 7.0, u))
	if b.Pull.AsTuned.Mid < b.Pull.Healthy.Mid*1.08 {
		t.Errorf("a tooth late pulls in %v, healthy %v", b.Pull.AsTuned, b.Pull.Healthy)
	}
	if b.Coast.AsTuned != b.Coast.Healthy {
		t.Error("the tune has changed the coast-down")
	}
}

// The owner's own healthy times tell chassis from engine at the sizes that the table of causes has.
func TestTellApart(t *testing.T) {
	u := quantity.Unknown
	for _, c := range []struct {
		name        string
		coast, pull *Timing
		want        string
	}{
		{"as ever", timing(80, 60, 21.5, 21.6), timing(50, 80, 6.5, 6.5), "neither"},
		{"dragging brake", timing(80, 60, 19.0, 21.6), timing(50, 80, 6.7, 6.5), "chassis"},
		{"weak engine", timing(80, 60, 21.7, 21.6), timing(50, 80, 7.8, 6.5), "engine"},
		{"both", timing(80, 60, 19.0, 21.6), timing(50, 80, 8.2, 6.5), "both"},
		{"heavy drag without a baseline", timing(80, 60, 11, u), timing(50, 80, 8.5, u), "chassis"},
		{"one run only", timing(80, 60, 19.0, 21.6), nil, "undecided"},
		{"none", nil, nil, ""},
	} {
		a := timedRuns(t, engine.Unmeasured(), c.coast, c.pull)
		if a.Verdict != c.want {
			t.Errorf("%s: %s (%s), want %s; coast %+v, pull %+v", c.name, a.Verdict, a.Reason, c.want, a.Coast, a.Pull)
		}
	}
	a := timedRuns(t, engine.Unmeasured(), timing(80, 60, 19.0, 21.6), timing(50, 80, 6.7, 6.5))
	if got := float64(a.Coast.ExtraForce); math.Abs(got-50) > 4 {
		t.Errorf("19.0 s for 21.6 is %.0f N more, want about 50", got)
	}
	if !strings.Contains(a.Reason, "brakes") {
		t.Error(a.Reason)
	}
	if alone := timedRuns(t, engine.Unmeasured(), timing(80, 60, 19.0, 21.6), nil); !strings.Contains(alone.Reason, "N more to drag along): something drags, whatever the engine does; feel for heat at the hubs") {
		t.Errorf("a coast-down alone finds what drags, and says %q", alone.Reason)
	}
	if alone := timedRuns(t, engine.Unmeasured(), timing(80, 60, 21.5, 21.6), nil); !strings.Contains(alone.Reason, "it takes both runs") {
		t.Errorf("a coast-down in order says %q", alone.Reason)
	}
}

// Times that no such vehicle can take are questioned, not called healthy; those that a sick or a good one can are not.
func TestImpossibleTimesAreQuestioned(t *testing.T) {
	u := quantity.Unknown
	for _, c := range []struct {
		name                 string
		coast, pull          *Timing
		coastWants, pullWant string // in the doubt
	}{
		{"as it should", timing(80, 60, 21.6, u), timing(50, 80, 7.0, u), "", ""},
		{"half the drag gone", timing(80, 60, 45, u), timing(50, 80, 7.0, u), "longer than any such vehicle rolls", ""},
		{"it never slows", timing(80, 60, 500, u), timing(50, 80, 7.0, u), "longer than any such vehicle rolls", ""},
		{"against its own time", timing(80, 60, 26, 21.6), timing(50, 80, 6.5, 6.5), "longer than any such vehicle rolls", ""},
		{"braked", timing(80, 60, 2, u), timing(50, 80, 7.0, u), "with the brakes on", ""},
		{"against a time that can't be", timing(80, 60, 21.6, 300), timing(50, 80, 7.0, 0.7), "", ""},
		{"dragging badly", timing(80, 60, 11, u), timing(50, 80, 7.0, u), "", ""},
		{"a rocket", timing(80, 60, 21.6, u), timing(50, 80, 0.6, u), "", "faster than such an engine can"},
		{"twice the engine", timing(80, 60, 21.6, u), timing(50, 80, 3.5, u), "", "faster than such an engine can"},
		{"a snail", timing(80, 60, 21.6, u), timing(50, 80, 60, u), "", "slower than any engine"},
		{"weak", timing(80, 60, 21.6, u), timing(50, 80, 14, u), "", ""},
	} {
		a := timedRuns(t, engine.Unmeasured(), c.coast, c.pull)
		doubted := false
		for _, run := range []struct {
			*TimedRun
			want string
		}{{a.Coast, c.coastWants}, {a.Pull, c.pullWant}} {
			doubted = doubted || run.want != ""
			if (run.Doubt != "") != (run.want != "") || !strings.Contains(run.Doubt, run.want) {
				t.Errorf("%s: doubt %q, want %q", c.name, run.Doubt, run.want)
			}
			if known := quantity.Known(float64(run.Chance)); known == (run.Doubt != "") {
				t.Errorf("%s: chance %v with doubt %q", c.name, run.Chance, run.Doubt)
			}
		}
		if doubted && (a.Verdict != "undecided" || !strings.Contains(a.Reason, "again")) {
			t.Errorf("%s: %s: %s", c.name, a.Verdict, a.Reason)
		}
	}
}

func TestAbsurdTimesAreRefused(t *testing.T) {
	for _, bad := range []*Timing{timing(80, 80, 20, 20), timing(80, 60, 0, 20), timing(800, 60, 20, 20), timing(80, 60, 20, -3)} {
		q := asked(heron(), UnknownRoads())
		q.Coast = bad
		if _, err := q.Answer(); err == nil {
			t.Errorf("%+v is accepted", *bad)
		}
	}
}

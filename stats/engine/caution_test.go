package engine

import (
	"strings"
	"testing"
)

func TestStop(t *testing.T) {
	if why := Unmeasured().Stop(); why != nil {
		t.Errorf("nothing measured: %v", why)
	}
	for name, set := range map[string]func(*Tune){
		"early spark": func(u *Tune) { u.IgnitionDeg = 12 },
		"cam":         func(u *Tune) { u.CamPhaseDeg = -36 },
		"weak":        func(u *Tune) { u.Lambda = 1.25 },
	} {
		tune := Unmeasured()
		set(&tune)
		if tune.Stop() == nil {
			t.Errorf("%s: no word of stopping", name)
		}
	}
}

// A cam out of phase warns of the spark as far as it is known to have gone along, and of meeting valves before that.
func TestStopOfACamOutOfPhase(t *testing.T) {
	for _, c := range []struct {
		name  string
		set   func(*Tune)
		wants []string
	}{
		{"not known", func(u *Tune) { u.CamPhaseDeg = -18 }, []string{"where the distributor turns with the cam and was not set again since, the spark is far too late"}},
		{"reset", func(u *Tune) { u.CamPhaseDeg, u.DistributorReset = -18, true }, nil},
		{"read", func(u *Tune) { u.CamPhaseDeg, u.IgnitionDeg = -18, -18 }, []string{"the spark is far too late"}},
		{"read right", func(u *Tune) { u.CamPhaseDeg, u.IgnitionDeg = -18, 0 }, nil},
		{"two teeth, of which no word of driving may follow", func(u *Tune) { u.CamPhaseDeg = 36 }, []string{"the cam is so far out"}},
	} {
		tune := Unmeasured()
		c.set(&tune)
		why := tune.Stop()
		if len(why) != len(c.wants) {
			t.Errorf("%s: %q, want %q", c.name, why, c.wants)
			continue
		}
		for i, want := range c.wants {
			if !strings.HasPrefix(why[i], want) {
				t.Errorf("%s: %q, want %q", c.name, why[i], want)
			}
		}
	}
}

package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// A tooth out: what the cam took along is warned of as far as it is known.
func TestCamWarnsOfTheSpark(t *testing.T) {
	for _, c := range []struct {
		ignition, phase string
		wants           []string
		moved           float64
	}{
		{"unknown", "-18", []string{"CAUTION: where the distributor turns with the cam and was not set again since, the spark is far too late", "a timing light tells"}, -18},
		{"moved", "-18", []string{"CAUTION: the spark is far too late", "set it once more"}, -18},
		{"moved", "18", []string{"CAUTION: the spark is far too early", "stands 18 crank degrees early too"}, 18},
		{"reset", "18", []string{"the ignition was set with the cam as it stands"}, 0},
	} {
		args := []string{"cam", "--teeth", "40", "--phase", c.phase, "--ignition", c.ignition}
		out, _, _ := called(t, args...)
		flat := strings.Join(strings.Fields(out), " ")
		for _, want := range c.wants {
			if !strings.Contains(flat, want) {
				t.Errorf("%s, %s: lacks %q:\n%s", c.phase, c.ignition, want, out)
			}
		}
		if warned := strings.Contains(out, "CAUTION"); warned == (c.ignition == "reset") {
			t.Errorf("%s, %s: cautions:\n%s", c.phase, c.ignition, out)
		}
		if doc := document(t, args...); doc["ignition_moved_deg"] != c.moved || (len(doc["stop"].([]any)) > 0) == (c.ignition == "reset") {
			t.Errorf("%s, %s: %v", c.phase, c.ignition, doc)
		}
	}
}

// What is told of the ignition is written as a reading, so that expect knows it.
func TestCamWritesTheIgnitionToo(t *testing.T) {
	for said, warned := range map[string]bool{"reset": false, "moved": true} {
		dir := logbook(t, map[string]string{"vehicle.toml": cammed, "work.csv": "id,date,kind,area,readings,note\n"})
		doc := document(t, "cam", "-b", dir, "--measured", "2-74", "--ignition", said, "--write", "--date", "2025-07-02")
		if doc["ignition"] != said {
			t.Errorf("%s: the answer has %v", said, doc["ignition"])
		}
		text, err := os.ReadFile(filepath.Join(dir, "work.csv"))
		if want := "cam_phase_deg=-18.0;ignition_since_cam=" + said; err != nil || !strings.Contains(string(text), want) {
			t.Errorf("%s: %v, work.csv lacks %q:\n%s", said, err, want, text)
		}
		out, _, _ := called(t, "expect", "-b", dir)
		flat := strings.Join(strings.Fields(out), " ")
		if strings.Contains(flat, "CAUTION: the spark is far too late") != warned || strings.Contains(flat, "is not known: the cam as measured") {
			t.Errorf("%s: expect has not learnt it:\n%s", said, out)
		}
		if check, _, status := called(t, "check", "-b", dir); status != statusDone || strings.Contains(check, "ignition_since_cam") {
			t.Errorf("%s: check stumbles over it:\n%s", said, check)
		}
	}
}

// Lobes that say different things are told first, before any advice that rests on one of them.
func TestLobesThatDisagreeAreToldFirst(t *testing.T) {
	for _, c := range []struct {
		measured string
		disagree bool
	}{{"26-46/41-31", true}, {"30-50/70-10", false}, {"20-60/50-30", true}, {"25-55", false}} {
		got := sound(t, "cam", "--card", "20-60/60-20", "--teeth", "40", "--measured", c.measured)
		if first, _, _ := strings.Cut(got, "."); strings.HasPrefix(first, "The lobes disagree") != c.disagree {
			t.Errorf("%s: %s", c.measured, got)
		}
	}
}

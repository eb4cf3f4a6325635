package stats

import (
	"errors"
	"math"
	"testing"

	"brimlog/ingest/quantity"
	"brimlog/stats/expect"
)

// The healthy range stands to the newest level as expect's stands to what was measured, whatever roads that was on.
func TestHealthyLevelStandsBesideTheLevel(t *testing.T) {
	around := func(mid float64) Range {
		return Range{Low: Figure(mid * 0.95), Mid: Figure(mid), High: Figure(mid * 1.06)}
	}
	r := &Review{Tanks: []Tank{{Level: around(13)}, {Level: around(12)}}, Expect: &Expected{}}
	r.Expect.Healthy = expect.Range{Low: 9, Mid: 10, High: 11}
	r.Expect.Measured = expect.Range{Low: 10.7, Mid: 11, High: 11.3}
	h := r.HealthyLevel()
	for _, c := range []struct{ got, measured, healthy Figure }{{h.Low, 11, 9}, {h.Mid, 11, 10}, {h.High, 11, 11}} {
		if want := 12 / float64(c.measured) * float64(c.healthy); math.Abs(float64(c.got)-want) > 1e-12 {
			t.Errorf("%v, want %v", c.got, want)
		}
	}
	r.Expect.Measured.Mid = Figure(quantity.Unknown)
	if h = r.HealthyLevel(); h.Mid != 10 {
		t.Errorf("with nothing measured the middle is %v, want expect's own 10", h.Mid)
	}
	r.Expect.Refused = errors.New("no such vehicle")
	if h = r.HealthyLevel(); quantity.Known(float64(h.Mid)) {
		t.Errorf("a refused vehicle has the healthy level %v", h.Mid)
	}
}

package expect

import (
	"math"
	"testing"

	"brimlog/ingest/quantity"
)

// By linear blending by volume: E5 31.555, E10 31.010, E85 22.835 MJ/L.
func TestEnergyOf(t *testing.T) {
	own := map[string]float64{"LPG": 24.5, "E10": 30.9}
	for label, want := range map[string]float64{"E0": 32.1, "E5": 31.555, "": 31.555, "E85": 22.835, "LPG": 24.5, "E10": 30.9} {
		if got := EnergyOf(label, own); math.Abs(got-want) > 1e-9 {
			t.Errorf("%q: %g, want %g", label, got, want)
		}
	}
	if got := EnergyOf("E10", nil); math.Abs(got-31.010) > 1e-9 {
		t.Errorf("E10: %g", got)
	}
	if quantity.Known(EnergyOf("brew", nil)) {
		t.Error("the energy of a label that nobody knows")
	}
}

// One slip in the trips costs its own figure, and nothing else.
func TestUsableRoads(t *testing.T) {
	r := onlyOn(0)
	r.AirC, r.LoadKg, r.CruiseKmh[2] = 400, 50, 9
	got, left := r.Usable()
	if len(left) != 2 || quantity.Known(got.AirC) || got.LoadKg != 50 || got.faster(2) != 1 || got.Share[0] != 1 {
		t.Errorf("%+v, %v", got, left)
	}
	if _, err := asked(heron(), got).Answer(); err != nil {
		t.Error(err)
	}
}

// A level that the owner vouches for and that lies far off is taken, but doubted aloud.
func TestDoubts(t *testing.T) {
	q := asked(heron(), UnknownRoads())
	plain := ask(t, q)
	for times, want := range map[float64]int{1: 0, 1.5: 1, 0.6: 1} {
		q.Healthy = Level{float64(plain.Healthy.Mid) * times, 0.02}
		if got := ask(t, q).Notes; len(got) != want {
			t.Errorf("a healthy level %g times the middle: %q", times, got)
		}
	}
}

func TestCruiseUntold(t *testing.T) {
	r := UnknownRoads()
	r.Share = [5]float64{0, 0, 3, 1, 0}
	for i, want := range []float64{1, 0.25, 0} {
		if got := r.cruiseUntold(); math.Abs(got-want) > 1e-9 {
			t.Errorf("with %d of two speeds noted %g of the distance is untold, want %g", i, got, want)
		}
		r.CruiseKmh[2+i%2] = 90
	}
	if r.Share = [5]float64{1}; r.cruiseUntold() != 0 {
		t.Error("in town no cruising speed is wanting")
	}
}

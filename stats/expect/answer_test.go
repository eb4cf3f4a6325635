package expect

import (
	"encoding/json"
	"errors"
	"math"
	"strings"
	"testing"

	"brimlog/ingest/book"
	"brimlog/ingest/quantity"
	"brimlog/stats/engine"
)

// heron is the demo's vehicle.
func heron() book.Vehicle {
	v := blank()
	v.Year = 1974
	v.Engine = book.Engine{DisplacementCC: 2600, Cylinders: 6, CompressionRatio: 8.8, FuelSystem: "carburettor", IdleRPM: 750,
		Cam: book.Cam{IntakeOpensBTDC: 20, IntakeClosesABDC: 56, ExhaustOpensBBDC: 56, ExhaustClosesATDC: 20, SprocketTeeth: 40}}
	v.Body.MassKg, v.Body.Shape, v.Body.DragAreaM2 = 1380, "estate", 0.85
	v.Driveline = book.Driveline{Driven: "rear", Gearbox: "manual", KmhPer1000RPM: 32.5}
	v.Place.MonthlyC = []float64{4, 4, 6, 9, 12, 15, 17, 17, 14, 11, 7, 5}
	return v
}

// onlyOn are roads of one kind, of which nothing else is noted.
func onlyOn(kind engine.Driving) Roads {
	r := UnknownRoads()
	r.Share[kind] = 1
	return r
}

// healthy is the healthy range alone, without the cycle model.
func healthy(t testing.TB, v book.Vehicle, r Roads) Range {
	t.Helper()
	c, err := newCar(v)
	if err != nil {
		t.Fatal(err)
	}
	return rangeOf(c.draw(r, asTold).all)
}

func ask(t testing.TB, q Question) Answer {
	t.Helper()
	a, err := q.Answer()
	if err != nil {
		t.Fatal(err)
	}
	return a
}

// asked is a question with nothing measured.
func asked(v book.Vehicle, r Roads) Question {
	return Question{Vehicle: v, Roads: r, Tune: engine.Unmeasured(), HealthyRoads: UnknownRoads()}
}

func TestMeasured(t *testing.T) {
	q := asked(heron(), UnknownRoads())
	a := ask(t, q)
	if quantity.Known(float64(a.ExcessPct)) || quantity.Known(float64(a.Measured.Mid)) || quantity.Known(float64(a.ChanceAboveHealthy)) {
		t.Errorf("nothing measured: %+v", a)
	}
	mid := float64(a.Healthy.Mid)
	last := -1.0
	for _, c := range []struct{ times, low, high float64 }{{0.8, 0, 0.1}, {1, 0.4, 0.6}, {1.1, 0.6, 0.95}, {1.41, 0.98, 1}} {
		q.Measured = Level{mid * c.times, 0.02}
		a := ask(t, q)
		chance := float64(a.ChanceAboveHealthy)
		if chance < c.low || chance > c.high || chance < last {
			t.Errorf("%g times the middle: chance %.3f, want %g to %g", c.times, chance, c.low, c.high)
		}
		if math.Abs(float64(a.ExcessPct)-100*(c.times-1)) > 1e-6 {
			t.Errorf("%g times the middle: excess %.3f %%", c.times, a.ExcessPct)
		}
		last = chance
	}
}

// A level that was kept while healthy narrows the range about it, the more the better it is known, on other roads too.
func TestHealthyTanksSharpen(t *testing.T) {
	plain := ask(t, asked(heron(), UnknownRoads()))
	width := func(r Range) float64 { return math.Log(float64(r.High / r.Low)) }
	last := width(plain.Healthy)
	for _, sd := range []float64{0.2, 0.05, 0.02, 0.01} {
		q := asked(heron(), UnknownRoads())
		q.Healthy = Level{float64(plain.Healthy.Mid) * 1.1, sd}
		a := ask(t, q)
		if w := width(a.Healthy); w > last {
			t.Errorf("known to %g the range is %v, no narrower than before", sd, a.Healthy)
		} else {
			last = w
		}
		moved := math.Log(float64(a.Healthy.Mid/plain.Healthy.Mid)) / math.Log(1.1)
		if moved < 0 || moved > 1.05 || sd <= 0.02 && moved < 0.9 {
			t.Errorf("known to %g the middle moves %.2f of the way", sd, moved)
		}
	}
	q := asked(heron(), onlyOn(engine.Motorway))
	before := ask(t, q).Healthy
	q.Healthy = Level{float64(plain.Healthy.Mid) * 1.1, 0.02}
	after := ask(t, q).Healthy
	if after.Mid < before.Mid*1.05 || width(after) > 0.8*width(before) {
		t.Errorf("a level on usual roads moves the motorway's range from %v to %v", before, after)
	}
}

func TestAsTuned(t *testing.T) {
	q := asked(heron(), UnknownRoads())
	a := ask(t, q)
	if a.AsTuned != a.Healthy || a.TunePct != 0 {
		t.Errorf("nothing measured: healthy %v, as tuned %v", a.Healthy, a.AsTuned)
	}
	q.Tune.CamPhaseDeg = -18
	unknown := ask(t, q)
	q.Tune.DistributorReset = true
	reset := ask(t, q)
	q.Tune.DistributorReset = false
	q.Tune.IgnitionDeg = -18
	moved := ask(t, q)
	if !(reset.AsTuned.Mid < unknown.AsTuned.Mid && unknown.AsTuned.Mid < moved.AsTuned.Mid) {
		t.Errorf("as tuned: reset %v, not known %v, moved %v", reset.AsTuned, unknown.AsTuned, moved.AsTuned)
	}
	if len(unknown.Notes) == 0 || !strings.Contains(unknown.Notes[0], "timing light") {
		t.Errorf("no word of what is not known: %q", unknown.Notes)
	}
	if all := strings.Join(unknown.Notes, ";"); !strings.Contains(all, "with the timing light: outdoors only") || strings.Contains(strings.Join(reset.Notes, ";"), "with the timing light") {
		t.Errorf("a light is asked for without its cautions, or they without it: %q, %q", unknown.Notes, reset.Notes)
	}
	if len(moved.Caution) == 0 {
		t.Error("a spark 18 degrees late calls for no caution")
	}
	for i, road := range moved.ByRoad {
		if road.AsTuned.Mid <= road.Healthy.Mid {
			t.Errorf("%s: healthy %v, as tuned %v", road.Road, road.Healthy, road.AsTuned)
		}
		if road.Road != engine.Driving(i).String() {
			t.Errorf("road %d is called %s", i, road.Road)
		}
	}
}

func TestByRoadAddsUp(t *testing.T) {
	r := UnknownRoads()
	r.Share = [engine.Kinds]float64{3, 1, 0, 0, 0}
	a := ask(t, asked(heron(), r))
	if a.ByRoad[0].Share != 0.75 || a.ByRoad[1].Share != 0.25 {
		t.Errorf("shares %v", a.ByRoad)
	}
	if a.Healthy.Mid > a.ByRoad[0].Healthy.Mid || a.Healthy.Mid < a.ByRoad[1].Healthy.Mid {
		t.Errorf("the whole %v lies outside its parts %v and %v", a.Healthy, a.ByRoad[0].Healthy, a.ByRoad[1].Healthy)
	}
}

func TestAbsurdVehiclesAreRefused(t *testing.T) {
	for _, c := range []struct {
		key string
		set func(*Question)
	}{
		{"engine.displacement_cc", func(q *Question) { q.Vehicle.Engine.DisplacementCC = 0 }},
		{"body.mass_kg", func(q *Question) { q.Vehicle.Body.MassKg = 40000 }},
		{"body.mass_kg", func(q *Question) { q.Vehicle.Body.MassKg = -1 }},
		{"engine.compression_ratio", func(q *Question) { q.Vehicle.Engine.CompressionRatio = 2 }},
		{"engine.cylinders", func(q *Question) { q.Vehicle.Engine.Cylinders = 0 }},
		{"body.drag_area_m2", func(q *Question) { q.Vehicle.Body.DragAreaM2 = 0 }},
		{"driveline.kmh_per_1000rpm", func(q *Question) { q.Vehicle.Driveline.KmhPer1000RPM = 0 }},
		{"year", func(q *Question) { q.Vehicle.Year = 74 }},
		{"engine.displacement_cc for each tonne of body.mass_kg", func(q *Question) {
			q.Vehicle.Engine.DisplacementCC, q.Vehicle.Body.MassKg, q.Vehicle.Engine.Cylinders = 500, 6000, 2
		}},
		{"cold starts a km", func(q *Question) { q.Roads.ColdStartsPerKm = 50 }},
		{"air_c", func(q *Question) { q.Roads.AirC = 200 }},
	} {
		q := asked(heron(), UnknownRoads())
		c.set(&q)
		_, err := q.Answer()
		var bound *engine.BoundError
		if !errors.As(err, &bound) || bound.Key != c.key {
			t.Errorf("want %s refused, got %v", c.key, err)
		}
	}
	if _, err := asked(blank(), UnknownRoads()).Answer(); err != nil {
		t.Errorf("a vehicle with nothing but a name: %v", err)
	}
}

func TestDocument(t *testing.T) {
	b, err := json.Marshal(ask(t, asked(heron(), UnknownRoads())))
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{`"healthy":{"low":`, `"as_tuned":{`, `"measured":{"low":null,"mid":null,"high":null}`, `"excess_pct":null`, `"chance_above_healthy":null`, `"wider_because":["`} {
		if !strings.Contains(string(b), want) {
			t.Errorf("%s lacks %s", b, want)
		}
	}
	c, _ := json.Marshal(ask(t, asked(heron(), UnknownRoads())))
	if string(b) != string(c) {
		t.Error("the same question, another answer")
	}
}

func TestTuneFrom(t *testing.T) {
	tune := TuneFrom(map[string][]float64{"cam_phase_deg": {-18}, "co_pct": {3.6}, "compression_bar": {10, 10, 10, 6}, "plug": nil}, quantity.Unknown, true)
	if tune.CamPhaseDeg != -18 || !tune.DistributorReset || quantity.Known(tune.Lambda) || math.Abs(tune.LambdaIdle-0.90) > 0.01 || math.Abs(tune.CompressionLoss-0.05) > 1e-9 {
		t.Errorf("%+v", tune)
	}
	if tune := TuneFrom(nil, quantity.Unknown, false); quantity.Known(tune.CamPhaseDeg) || quantity.Known(tune.CompressionLoss) {
		t.Errorf("no readings: %+v", tune)
	}
}

func BenchmarkHealthyRange(b *testing.B) {
	v := heron()
	standard()
	for b.Loop() {
		healthy(b, v, UnknownRoads())
	}
}

func BenchmarkAnswer(b *testing.B) {
	q := asked(heron(), UnknownRoads())
	q.Tune.CamPhaseDeg, q.Tune.Lambda = -18, 0.95
	q.Measured = Level{17, 0.02}
	for b.Loop() {
		ask(b, q)
	}
}

package expect

import "brimlog/stats/engine"

// A demand is what a kind of road asks of any vehicle, per metre driven: drag area times air A/2, weight times R, and
// mass times K make the work at the wheels; revs are those in top gear times what lower gears add; and it stands.
type demand struct {
	a          float64 // m2/s2
	r          float64
	k          float64 // m/s2
	gears      float64
	standing   float64 // s idling per m
	kmh        float64 // while moving
	steady     bool    // the owner's cruising speed sets it
	kmPerStart float64 // cold, where the owner notes none (common practice)
}

// Town is the US EPA urban schedule (testdata/udds_mph.csv), reckoned over its pulling seconds for a car of 1,300 kg;
// mixed is the European cycle as the literature has it (Guzzella and Sciarretta, from memory); open road takes the
// share of its work that the schedule's fast stretch shows, at a steady 80 km/h; motorway and track are common
// practice.
var demands = [engine.Kinds]demand{
	engine.Town:     {a: 187, r: 0.776, k: 0.154, gears: 1.50, standing: 0.0218, kmh: 31, kmPerStart: 9},
	engine.Mixed:    {a: 314, r: 0.850, k: 0.111, gears: 1.18, standing: 0.0120, kmh: 45, kmPerStart: 18},
	engine.Open:     {a: 0.975 * square(80/3.6), r: 0.907, k: 0.089, gears: 1.06, standing: 0.0030, kmh: 80, steady: true, kmPerStart: 45},
	engine.Motorway: {a: 0.97 * square(105/3.6), r: 0.97, k: 0.035, gears: 1.00, standing: 0.0010, kmh: 105, steady: true, kmPerStart: 110},
	engine.Track:    {a: 700, r: 0.70, k: 0.450, gears: 1.60, standing: 0.0020, kmh: 100, kmPerStart: 40},
}

func square(x float64) float64 { return x * x }

// at is the demand with the cruising speed so many times the usual.
func (d demand) at(faster float64) demand {
	if d.steady {
		d.kmh *= faster
		d.a *= square(faster)
	}
	return d
}

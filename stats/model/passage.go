package model

import "math"

// A passage is an observation as all histories meet it: what it asks of them, and what fades along it.
type passage struct {
	*Obs
	role
	wander                 float64 // of the wander before it, what is left
	gapRelax, gapRunIn     float64 // of the transients, once the gap before it is past
	after, ranIn           float64 // share of it that a transient of its own work takes
	relaxSlope, runInSlope float64 // of the transients in it
	relaxLeft, runInLeft   float64 // of the transients, once it is past
	stepped, none          float64 // log chances of an unnamed step and of none
}

func pass(o *Obs, as role) *passage {
	hazard := (o.Km + o.Gap) / OnsetKm
	t := &passage{
		Obs: o, role: as, after: 1, ranIn: 1,
		wander: math.Exp(-(o.Km + o.Gap) / wanderKm), gapRelax: math.Exp(-o.Gap / relaxKm), gapRunIn: math.Exp(-o.Gap / runInKm),
		stepped: math.Log(-math.Expm1(-hazard)), none: -hazard,
	}
	if w := o.Work; w != nil && !w.Pretended {
		t.after = w.After
		if w.RunInVar > 0 {
			t.ranIn = w.After
		}
	}
	t.relaxSlope, t.runInSlope = fading(o.Km, t.after, relaxKm), fading(o.Km, t.ranIn, runInKm)
	t.relaxLeft, t.runInLeft = math.Exp(-t.after*o.Km/relaxKm), math.Exp(-t.ranIn*o.Km/runInKm)
	return t
}

// fading is the mean, over a length, of what begins at 1 where the share after is still to go and fades.
func fading(km, after, fade float64) float64 {
	return fade / km * -math.Expm1(-after*km/fade)
}

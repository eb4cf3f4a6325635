package engine

import "math"

// Temperatures that the charge meets, of the walls and in a warmed manifold (common practice).
const (
	wallK     = 430.0
	manifoldK = 313.0
	heatSize  = 3.75 // Woschni's own is 3.26; by a seventh more the best spark puts half burnt at 8 to 12 degrees, as it should
)

// A woschni is Woschni's heat transfer (SAE 670931; Heywood, section 12.4.3, from memory), referred to the state at
// which the intake valve closed.
type woschni struct {
	size                  float64 // heatSize bore^-0.2, bore in m
	piston, swept         float64 // mean piston speed m/s, m3
	refP, refV, refT      float64
	compressing, breathes bool
}

func newWoschni(g geometry, rpm float64) woschni {
	return woschni{size: heatSize * math.Pow(g.bore, -0.2), piston: 2 * g.stroke * rpm / 60, swept: g.swept}
}

// coefficient is the heat that a square metre of wall takes per degree, W/(m2 K), at pressure p (Pa), volume and
// temperature.
func (w woschni) coefficient(p, v, t float64) float64 {
	speed := 2.28 * w.piston
	switch {
	case w.breathes:
		speed = 6.18 * w.piston
	case !w.compressing && w.refP > 0:
		motored := w.refP * math.Pow(w.refV/v, 1.3)
		speed += 3.24e-3 * w.swept * w.refT / (w.refP * w.refV) * max(0, p-motored)
	}
	// p^0.8 speed^0.8 T^-0.55, by one exponential
	return w.size * math.Exp(0.8*math.Log(p/1000*speed)-0.55*math.Log(t))
}

package engine

import "math"

// Proportions of a common road engine, for what no vehicle file asks: a square bore and stroke and a rod of 1.75
// strokes (common practice). Ratios against the same engine healthy hardly depend on them.
const (
	strokeToBore = 1.0
	rodToStroke  = 1.75
	headArea     = 1.15 // of the chamber's roof against the bore's
)

// A geometry is one cylinder's slider and crank. Lengths in m.
type geometry struct {
	bore, stroke float64
	swept, clear float64 // m3
}

func newGeometry(sweptM3, ratio float64) geometry {
	bore := math.Cbrt(4 * sweptM3 / (math.Pi * strokeToBore))
	return geometry{bore, bore * strokeToBore, sweptM3, sweptM3 / (ratio - 1)}
}

// volume is the cylinder's volume and its change per degree at a crank angle in degrees after top centre.
func (g geometry) volume(deg float64) (v, dv float64) {
	sin, cos := math.Sincos(deg * math.Pi / 180)
	r := 2 * rodToStroke
	root := math.Sqrt(r*r - sin*sin)
	v = g.clear + g.swept/2*(1+r-cos-root)
	dv = g.swept / 2 * sin * (1 + cos/root) * math.Pi / 180
	return v, dv
}

// walls is the area that gas of that volume touches, m2.
func (g geometry) walls(v float64) float64 {
	return math.Pi*g.bore*g.bore/4*(1+headArea) + 4*(v-g.clear)/g.bore
}

package engine

import (
	"math"

	"brimlog/ingest/quantity"
)

// Flanks is one pair of degree-wheel readings of a lobe, taken at the same lift going up and coming down, the crank
// turned in its running direction throughout. The numbers are the card's events at that lift: intake BTDC and ABDC,
// exhaust BBDC and ATDC; on the other side of the dead centre they are negative.
type Flanks struct{ Opens, Closes float64 }

// A Lobe is repeated readings of one lobe.
type Lobe []Flanks

// intakeCentreline is halfway between the flanks, after top centre.
func (f Flanks) intakeCentreline() float64 { return (180 + f.Closes - f.Opens) / 2 }

// exhaustCentreline is the same before top centre.
func (f Flanks) exhaustCentreline() float64 { return (180 + f.Opens - f.Closes) / 2 }

// What a centreline is uncertain by, in crank degrees (common practice).
const (
	usualScatter = 1.0 // of one reading of a centreline, by somebody who has done it before
	usualWeight  = 4.0 // readings that this is worth
	topCentre    = 1.0 // half-width of what a piston stop finds top centre to
	wheelMark    = 0.5 // half-width of reading the wheel
)

// A Centreline is a lobe's centre as measured.
type Centreline struct {
	Deg     float64
	Sd      float64 // with the wheel's and the top centre's share
	Scatter float64 // of the repeats themselves; Unknown with fewer than two
	Repeats int
}

// IntakeCentre is the intake lobe's centre, after top centre.
func (l Lobe) IntakeCentre() Centreline { return l.centre(Flanks.intakeCentreline) }

// ExhaustCentre is the exhaust lobe's centre, before top centre.
func (l Lobe) ExhaustCentre() Centreline { return l.centre(Flanks.exhaustCentreline) }

// centre takes the mean. Its uncertainty adds up variances (JCGM 100:2008): the owner's own scatter, which few
// repeats tell badly and so leans on the usual one, top centre, and the wheel's marks; rectangular half-widths
// count as a/sqrt(3), and the wheel is read twice for each centre.
func (l Lobe) centre(of func(Flanks) float64) Centreline {
	n := float64(len(l))
	c := Centreline{Deg: quantity.Unknown, Sd: quantity.Unknown, Scatter: quantity.Unknown, Repeats: len(l)}
	if n == 0 {
		return c
	}
	sum := 0.0
	for _, f := range l {
		sum += of(f)
	}
	c.Deg = sum / n
	squares := 0.0
	for _, f := range l {
		squares += sq(of(f) - c.Deg)
	}
	if n > 1 {
		c.Scatter = math.Sqrt(squares / (n - 1))
	}
	one := (usualWeight*sq(usualScatter) + squares) / (usualWeight + n - 1)
	c.Sd = math.Sqrt(one/n + sq(topCentre)/3 + sq(wheelMark)/3/2)
	return c
}

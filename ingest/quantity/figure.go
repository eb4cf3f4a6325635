package quantity

import (
	"encoding/json"
	"math"
	"strconv"
)

// Unknown is a figure that nobody wrote down. It is never zero: sums and means that meet it become unknown
// too, and a page that meets it says nothing rather than nought.
var Unknown = math.NaN()

// Known tells whether x is a figure at all.
func Known(x float64) bool { return !math.IsNaN(x) && !math.IsInf(x, 0) }

// Or is x where it is known, else y.
func Or(x, y float64) float64 {
	if Known(x) {
		return x
	}
	return y
}

// A Figure is a number as the program's documents carry it: base units, null where it is not known.
type Figure float64

// MarshalJSON writes null for what is not known.
func (f Figure) MarshalJSON() ([]byte, error) { return f.AppendJSON(nil), nil }

// AppendJSON is MarshalJSON for documents of a great many figures.
func (f Figure) AppendJSON(b []byte) []byte {
	if !Known(float64(f)) {
		return append(b, "null"...)
	}
	form := byte('f') // as encoding/json writes numbers
	if a := math.Abs(float64(f)); a != 0 && (a < 1e-6 || a >= 1e21) {
		form = 'e'
	}
	return strconv.AppendFloat(b, float64(f), form, -1, 64)
}

// UnmarshalJSON reads null as not known.
func (f *Figure) UnmarshalJSON(b []byte) error {
	if string(b) == "null" {
		*f = Figure(Unknown)
		return nil
	}
	return json.Unmarshal(b, (*float64)(f))
}

package charts

import (
	"fmt"
	"regexp"
	"testing"
)

// A scale ends on round numbers around what it has to show, with four to nine labels and never more than a third of it empty.
func TestScalesAreRoundAndFull(t *testing.T) {
	s := visit(t, empty(), desk)
	nice := regexp.MustCompile(`(?s)function nice\(.*?\n}`).FindString(script())
	for _, c := range [][2]float64{{7.9, 13.1}, {17.5, 26.9}, {-4, 4}, {-13.7, 10.9}, {21.5, 25.4}, {7.31, 9.02}, {0.3, 999}, {98.2, 101.1}, {11.39, 12.41}} {
		got := ask[struct{ Min, Max, Interval float64 }](s, fmt.Sprintf(`(() => { %s; return nice(%g, %g, 5); })()`, nice, c[0], c[1]))
		labels := int((got.Max-got.Min)/got.Interval+0.5) + 1
		if got.Min > c[0] || got.Max < c[1] || labels < 4 || labels > 9 || (got.Max-got.Min)*2/3 > c[1]-c[0] {
			t.Errorf("from %g to %g the scale runs from %g to %g with %d labels", c[0], c[1], got.Min, got.Max, labels)
		}
	}
	s.quiet()
}

package watch

import (
	"math"

	"brimlog/stats/model"
)

// Next says what the next tank, if driven like the recent ones, is expected to use, and what it would have to use
// to raise the alarm or to clear it. All are ln(fuel/distance); NaN where no plausible tank would.
type Next struct {
	Low, Mid, High float64
	Raises, Clears float64
}

const (
	mostPlausible = 0.5 // log scale: two thirds more
	stride        = 0.04
)

// Ahead looks one tank ahead. alarmed tells whether the alarm is up now.
func Ahead(d *model.Design, c model.Course, alarmed bool) Next {
	o := d.Next()
	mean, sd, _ := c.Suppose(o, 1)
	n := Next{Low: mean - band*sd, Mid: mean, High: mean + band*sd, Raises: math.NaN(), Clears: math.NaN()}
	up := func(y float64) bool {
		o.Y = y
		_, _, steps := c.Suppose(o, widest)
		return around(steps).chance >= told
	}
	now := up(mean)
	for y := mean + stride; !alarmed && !now && y <= mean+mostPlausible; y += stride {
		// Step by step: far enough off, a tank is rather a slip of the pen.
		if up(y) {
			n.Raises = border(y-stride, y, up)
			break
		}
	}
	if low := mean - 2*sd; alarmed && now && !up(low) {
		n.Clears = border(low, mean, up)
	}
	return n
}

// border finds where a test turns from false at low to true at high.
func border(low, high float64, test func(float64) bool) float64 {
	for range 9 {
		if mid := (low + high) / 2; test(mid) {
			high = mid
		} else {
			low = mid
		}
	}
	return high
}

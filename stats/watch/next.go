package watch

import (
	"math"
	"slices"

	"brimlog/ingest/tank"
	"brimlog/stats/model"
)

// Next says what the next tank, if driven like the recent ones, is expected to use, and what it would have to use
// to raise the alarm or to clear it. All are ln(fuel/distance); NaN where no plausible tank would.
type Next struct {
	Low, Mid, High float64
	Raises, Clears float64
}

const (
	mostPlausible = 0.5 // log scale: two thirds more, or two fifths less
	stride        = 0.04
)

// Ahead looks one tank ahead. alarmed tells whether the alarm is up now; shifts are those told now.
func Ahead(l *tank.Log, d *model.Design, c model.Course, shifts []Shift, alarmed bool) Next {
	a := ahead{l: l, c: c, o: d.Next(), shifts: shifts, alarmed: alarmed}
	narrow, _ := windows(c.Step)
	a.untold = slices.DeleteFunc(narrow, func(w window) bool { return slices.ContainsFunc(shifts, w.touches) })
	mean, sd, _ := c.Suppose(a.o, 1)
	n := Next{Low: mean - band*sd, Mid: mean, High: mean + band*sd, Raises: math.NaN(), Clears: math.NaN()}
	// Stride by stride: far enough off, a tank is rather a slip of the pen. A usual tank may itself be enough.
	towards := stride
	if alarmed != a.slipped(mean) {
		towards = -stride
	}
	if alarmed {
		n.Clears = a.border(mean, -towards)
	} else {
		n.Raises = a.border(mean, towards)
	}
	return n
}

// ahead is a log with one more tank supposed.
type ahead struct {
	l       *tank.Log
	c       model.Course
	o       model.Obs
	shifts  []Shift
	untold  []window // of steps that the log does not speak for
	alarmed bool
}

// border finds, from the mean in strides, what the tank must use for the alarm to change; NaN where it does not.
func (a *ahead) border(mean, stride float64) float64 {
	now := a.slipped(mean)
	for off := stride; math.Abs(off) <= mostPlausible; off += stride {
		if a.slipped(mean+off) == now {
			continue
		}
		same, other := mean+off-stride, mean+off
		for range 10 {
			if mid := (same + other) / 2; a.slipped(mid) == now {
				same = mid
			} else {
				other = mid
			}
		}
		return (same + other) / 2
	}
	return math.NaN()
}

// slipped tells whether the alarm would be up if the next tank came out at y: by the newest step that would then be told, which
// is towards more fuel where it is so now, or where it is new and the tank thirsty.
func (a *ahead) slipped(y float64) bool {
	a.o.Y = y
	mean, _, newest := a.c.Suppose(a.o, len(a.c.Step)+1)
	settled := len(a.c.Step) + 1 - len(newest)
	narrow, _ := windows(append(slices.Clone(a.c.Step[:settled]), newest...))
	narrow = slices.DeleteFunc(narrow, func(w window) bool { return slices.ContainsFunc(a.untold, w.meets) })
	if len(narrow) == 0 {
		return false
	}
	w := narrow[len(narrow)-1]
	for k, s := range slices.Backward(a.shifts) {
		if w.touches(s) {
			return Slipped(a.shifts[:k+1]) && (a.alarmed || k+1 < len(a.shifts)) // else work has taken it back
		}
	}
	w.last = min(w.last, len(a.l.Tanks)-1)
	from, to := dates(a.l, w)
	return y > mean && len(jobsWithin(a.l, from, to)) == 0
}

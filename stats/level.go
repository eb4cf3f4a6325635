package stats

import (
	"math"
	"slices"

	"brimlog/ingest/tank"
	"brimlog/stats/model"
)

// levels says what each tank would have used in the log's usual driving, and draws the vehicle's own level over each stretch between two pieces of work: the mean of
// its tanks, each weighed by how sure it is, and by the chance that its figures are no slip of the pen.
func (r *Review) levels(l *tank.Log, d *model.Design, c model.Course) {
	if len(l.Tanks) == 0 {
		return
	}
	y, sd := d.LikeForLike(c.Settled)
	for i := range y {
		r.Tanks[i].LikeForLike = litres(y[i]-z80*sd[i], y[i], y[i]+z80*sd[i])
	}
	from := 0
	for i := 1; i <= len(y); i++ {
		if i < len(y) && len(l.Tanks[i].Work) == 0 && !r.shiftsAt(i) {
			continue
		}
		mean, width := weighed(y[from:i], sd[from:i], c.Lost[from:i])
		for k := from; k < i; k++ {
			r.Tanks[k].Level = litres(mean-z80*width, mean, mean+z80*width)
		}
		from = i
	}
}

// weighed is the mean by inverse variance, with its standard deviation. Lost is the chance of each that it says nothing.
func weighed(y, sd, lost []float64) (mean, width float64) {
	sum := 0.0
	for i := range y {
		w := max(1-lost[i], 1e-6) / (sd[i] * sd[i])
		mean += w * y[i]
		sum += w
	}
	return mean / sum, math.Sqrt(1 / sum)
}

// shiftsAt tells whether a step without a job begins with the tank of that index.
func (r *Review) shiftsAt(tank int) bool {
	return r.Watch != nil && slices.ContainsFunc(r.Watch.Shifts, func(s Shift) bool { return s.SinceTank == tank+1 })
}

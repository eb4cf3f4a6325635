package stats

import (
	"math"

	"brimlog/ingest/tank"
	"brimlog/stats/model"
)

// levels draws the vehicle's own level, like for like, over each stretch between two pieces of work: the mean of
// its tanks, each weighed by how sure it is.
func (r *Review) levels(l *tank.Log, d *model.Design, s model.Settled) {
	if len(l.Tanks) == 0 {
		return
	}
	y, sd := d.LikeForLike(s)
	from := 0
	for i := 1; i <= len(y); i++ {
		if i < len(y) && len(l.Tanks[i].Work) == 0 {
			continue
		}
		mean, width := weighed(y[from:i], sd[from:i])
		for k := from; k < i; k++ {
			r.Tanks[k].Level = litres(mean-z80*width, mean, mean+z80*width)
		}
		from = i
	}
}

// weighed is the mean by inverse variance, with its standard deviation.
func weighed(y, sd []float64) (mean, width float64) {
	sum := 0.0
	for i := range y {
		w := 1 / (sd[i] * sd[i])
		mean += w * y[i]
		sum += w
	}
	return mean / sum, math.Sqrt(1 / sum)
}

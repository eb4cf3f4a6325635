package expect

import (
	"fmt"
	"math"
	"slices"
	"sync"

	"gonum.org/v1/gonum/stat"
	"gonum.org/v1/gonum/stat/distuv"

	"brimlog/ingest/quantity"
	"brimlog/stats/engine"
)

const draws = 2048

// standard is the table of draws: rows of standard normals, one for each factor, spread by the additive recurrence of
// the generalised golden ratio (Roberts 2018, from memory) and centred, so that a factor's mean draw is nought and its
// width one. The same in every run.
var standard = sync.OnceValue(func() [][factors]float64 {
	root := 2.0 // of x^(factors+1) = x + 1
	for range 60 {
		root = math.Pow(1+root, 1/float64(factors+1))
	}
	z := make([][factors]float64, draws)
	column := make([]float64, draws)
	for j := range factors {
		step := math.Pow(root, -float64(j+1))
		for i := range z {
			_, u := math.Modf(0.5 + step*float64(i+1))
			column[i] = distuv.UnitNormal.Quantile(u)
		}
		mean, sd := stat.MeanStdDev(column, nil)
		for i := range z {
			z[i][j] = (column[i] - mean) / sd
		}
	}
	return z
})

// A draw is what every row of the table gives, as logarithms of L/100 km.
type draw struct {
	z     [][factors]float64
	kinds [engine.Kinds][]float64
	mix   [engine.Kinds][]float64
	all   []float64 // over the mix
}

// drawn lays the vehicle on its roads, once for each row, and sharpens that by what it did while healthy, if that is known;
// narrow may change the widths. then is the unsharpened draw on the roads of that time, nil without them.
func (q Question) drawn(c car, narrow func(sd *[factors]float64)) (d, then *draw) {
	d = c.draw(q.Roads, narrow)
	if !q.Healthy.Known() {
		return d, nil
	}
	if fmt.Sprint(q.HealthyRoads) == fmt.Sprint(q.Roads) { // by their digits, since what is unknown equals nothing
		then = &draw{all: slices.Clone(d.all)}
	} else {
		then = c.draw(q.HealthyRoads, narrow)
	}
	d.sharpen(then, q.Healthy)
	return d, then
}

// asTold leaves the widths as they are.
func asTold(*[factors]float64) {}

// draw lays the vehicle on the roads, once for each row.
func (c car) draw(r Roads, narrow func(sd *[factors]float64)) *draw {
	d := &draw{z: standard(), all: make([]float64, draws)}
	for k := range engine.Kinds {
		d.kinds[k], d.mix[k] = make([]float64, draws), make([]float64, draws)
	}
	sd := widths(c.Vehicle, r)
	narrow(&sd)
	for i := range d.z {
		f := c.figures(r, sd, &d.z[i])
		sum := 0.0
		for k := range engine.Kinds {
			litres := f.litresPer100(k, r)
			d.kinds[k][i], d.mix[k][i] = math.Log(litres), f.mix[k]
			sum += f.mix[k] * litres
		}
		d.all[i] = math.Log(sum)
	}
	return d
}

// total fills a column with the mix of the kinds, each times a factor (as a logarithm; nil = 1).
func (d *draw) total(out []float64, factor [engine.Kinds][]float64) {
	for i := range out {
		sum := 0.0
		for k := range d.kinds {
			x := d.kinds[k][i]
			if factor[k] != nil {
				x += factor[k][i]
			}
			sum += d.mix[k][i] * math.Exp(x)
		}
		out[i] = math.Log(sum)
	}
}

// rangeOf is the middle and the 80 % between.
func rangeOf(logs []float64) Range {
	sorted := slices.Clone(logs)
	slices.Sort(sorted)
	at := func(p float64) quantity.Figure {
		return quantity.Figure(math.Exp(stat.Quantile(p, stat.LinInterp, sorted, nil)))
	}
	return Range{at(0.1), at(0.5), at(0.9)}
}

// rangeOf is a level's own 80 %.
func (l Level) rangeOf() Range {
	if !l.Known() {
		return unknownRange
	}
	z := distuv.UnitNormal.Quantile(0.9) * max(0, quantity.Or(l.Sd, 0))
	f := func(z float64) quantity.Figure { return quantity.Figure(l.LPer100Km * math.Exp(z)) }
	return Range{f(-z), f(0), f(z)}
}

// chanceAbove is the chance that a level lies above what was drawn.
func chanceAbove(l Level, logs []float64) quantity.Figure {
	if !l.Known() {
		return quantity.Figure(quantity.Unknown)
	}
	n := distuv.Normal{Mu: math.Log(l.LPer100Km), Sigma: max(0.001, quantity.Or(l.Sd, 0))}
	sum := 0.0
	for _, x := range logs {
		sum += 1 - n.CDF(x)
	}
	return quantity.Figure(sum / draws)
}

// sharpen moves the draws to agree with a level that the vehicle kept while healthy, then draws what the level leaves
// open: each draw gives way by the share of its departure that the level explains (the linear update of a normal prior,
// with the level's own noise drawn in its column).
func (d *draw) sharpen(then *draw, l Level) {
	sd := max(0.005, quantity.Or(l.Sd, 0.05))
	level := math.Log(l.LPer100Km)
	spread := stat.Variance(then.all, nil) + sd*sd
	move := func(column []float64) {
		gain := stat.Covariance(column, then.all, nil) / spread
		for i := range column {
			column[i] += gain * (level + sd*d.z[i][byLevel] - then.all[i])
		}
	}
	for k := range d.kinds {
		move(d.kinds[k])
	}
	move(d.all)
}

// doubts says that a level which the vehicle is said to have kept while healthy lies far from what its kind needs.
func (d *draw) doubts(l Level) []string {
	r := rangeOf(d.all)
	switch x := quantity.Figure(l.LPer100Km); {
	case x > r.High:
		return []string{fmt.Sprintf("the tanks taken as healthy used %.0f %% more than its kind needs in the middle: a second fault may have been there all along", pctOver(x, r.Mid))}
	case x < r.Low:
		return []string{fmt.Sprintf("the tanks taken as healthy used %.0f %% less than its kind needs in the middle: doubt vehicle.toml or the odometer", -pctOver(x, r.Mid))}
	}
	return nil
}

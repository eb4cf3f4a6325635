package model

import (
	"math"
	"time"

	"gonum.org/v1/gonum/mat"

	"brimlog/ingest/tank"
)

// A climate is what is expected of the air on a date nobody noted: by vehicle.toml's monthly means, else a
// yearly wave fitted to the owner's own notes so far, from a wide prior.
type climate struct {
	monthly []float64
	mean    *mat.VecDense // yearly mean, cosine, sine
	cov     *mat.SymDense
}

const (
	weatherSd = 3.0 // of a tank's mean air about the month's mean: common practice
	noteSd    = 4.0 // of one drive's
)

// newClimate starts from a winter in January, as most readers have it, and wide enough for one in July.
func newClimate(monthly []float64) *climate {
	return &climate{
		monthly: monthly,
		mean:    mat.NewVecDense(3, []float64{11, -5, 0}),
		cov:     mat.NewSymDense(3, []float64{36, 0, 0, 0, 64, 0, 0, 0, 9}),
	}
}

// note takes one of the owner's temperatures in.
func (c *climate) note(a tank.Air) {
	h := wave(a.Date.Time)
	var ph mat.VecDense
	ph.MulVec(c.cov, h)
	s := mat.Dot(h, &ph) + noteSd*noteSd
	c.mean.AddScaledVec(c.mean, (a.C-mat.Dot(h, c.mean))/s, &ph)
	c.cov.SymRankOne(c.cov, -1/s, &ph)
}

func wave(t time.Time) *mat.VecDense {
	a := 2 * math.Pi * (float64(t.YearDay()) - 20) / 365.25
	return mat.NewVecDense(3, []float64{1, math.Cos(a), math.Sin(a)})
}

// on gives the air expected on a date, its standard deviation, and how far below the year's mean it lies.
func (c *climate) on(t time.Time) (mean, sd, below float64) {
	if len(c.monthly) == 12 {
		mean = monthly(c.monthly, t)
		year := 0.0
		for _, m := range c.monthly {
			year += m / 12
		}
		return mean, weatherSd, year - mean
	}
	h := wave(t)
	var ph mat.VecDense
	ph.MulVec(c.cov, h)
	mean = mat.Dot(h, c.mean)
	return mean, math.Sqrt(mat.Dot(h, &ph) + weatherSd*weatherSd), c.mean.AtVec(0) - mean
}

// monthly reads the mean of a date off the middles of the months.
func monthly(m []float64, t time.Time) float64 {
	x := (float64(t.YearDay())-15.5)/30.4375 + 12
	i := int(math.Floor(x))
	f := x - float64(i)
	return m[i%12]*(1-f) + m[(i+1)%12]*f
}

// below20 gives the mean and standard deviation of max(0, 20-T) where T is normal.
func below20(mean, sd float64) (float64, float64) {
	d := tank.WarmC - mean
	z := d / sd
	pdf, cdf := math.Exp(-z*z/2)/math.Sqrt(2*math.Pi), 0.5*math.Erfc(-z/math.Sqrt2)
	first := d*cdf + sd*pdf
	second := (d*d+sd*sd)*cdf + d*sd*pdf
	return first, math.Sqrt(max(0, second-first*first))
}

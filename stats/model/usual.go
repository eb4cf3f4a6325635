package model

import "math"

// Usual is the log's usual driving, as a slope in the coefficients: the mean of its conditions, the small
// allowance for starts and idling taken as it adds up.
func (d *Design) Usual() []float64 {
	usual := make([]float64, len(d.Priors))
	km := 0.0
	for _, o := range d.Obs {
		km += o.Km
		for k := range usual {
			usual[k] += o.Km * (o.X[k] + o.E[k])
		}
	}
	for k := range usual {
		usual[k] /= km
	}
	return usual
}

// LikeForLike gives each tank's log consumption as it would have been in the log's usual driving, with its
// standard deviation from scatter, brim and reading.
func (d *Design) LikeForLike(s Settled) (y, sd []float64) {
	usual := d.Usual()
	at := 0.0
	for k, u := range usual {
		at += u * s.Mean[k]
	}
	for _, o := range d.Obs {
		expected, extra := 0.0, 0.0
		for k, b := range s.Mean {
			expected += o.X[k] * b
			extra += o.E[k] * b
		}
		expected += math.Log1p(max(extra, -0.5))
		y = append(y, o.Y-expected+at)
		brim := s.Brim / (o.Km * math.Exp(expected))
		sd = append(sd, math.Sqrt(s.Driving*s.Driving*(wholeShare+(1-wholeShare)*o.Clump/typicalClump)+s.Unnoted*s.Unnoted*o.Unnoted+2*brim*brim+o.Var))
	}
	return y, sd
}

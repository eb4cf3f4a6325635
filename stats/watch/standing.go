package watch

import (
	"math"

	"gonum.org/v1/gonum/stat/distuv"

	"brimlog/stats/model"
)

// Readings of a tank that stands out.
const (
	Thirsty   = "thirsty"
	Frugal    = "frugal"
	ShortFill = "short_fill"
	OverFill  = "over_fill"
	EntrySlip = "entry_slip"
)

const (
	falseFlags  = 0.1  // of whole logs in which an ordinary tank is flagged
	tailFreedom = 12.0 // of the scores' Student t: heavier than normal, as tanks are
	slipRatio   = 1.7  // beyond which a tank's consumption is likelier a slip than driving
	likelier    = 0.5
	band        = 1.6448536269514722
)

// A Tank is one tank held against what was expected of it before it was seen.
type Tank struct {
	Low, High float64 // of ln(fuel/distance): 90 %
	Score     float64 // standard deviations
	Reading   string  // empty when ordinary
}

// Standing judges every tank of a log.
func Standing(d *model.Design, c model.Course) []Tank {
	out := make([]Tank, len(d.Obs))
	limit := threshold(len(d.Obs))
	for i, o := range d.Obs {
		t := Tank{Low: c.Expected[i] - band*c.Sd[i], High: c.Expected[i] + band*c.Sd[i], Score: (o.Y - c.Expected[i]) / c.Sd[i]}
		t.Reading = reading(c, i, o.Y-c.Expected[i], t.Score, limit)
		out[i] = t
	}
	pair(out, d, c)
	return out
}

// threshold is the score that one ordinary log of ten exceeds somewhere.
func threshold(tanks int) float64 {
	t := distuv.StudentsT{Mu: 0, Sigma: math.Sqrt((tailFreedom - 2) / tailFreedom), Nu: tailFreedom}
	return -t.Quantile(falseFlags / 2 / float64(max(1, tanks)))
}

func reading(c model.Course, i int, residual, score, limit float64) string {
	switch {
	case c.Lost[i] > likelier || (math.Abs(residual) > math.Log(slipRatio) && math.Abs(score) > limit):
		return EntrySlip
	case c.Missed[i] > likelier && residual < 0:
		return ShortFill
	case c.Missed[i] > likelier:
		return OverFill
	case score > limit:
		return Thirsty
	case score < -limit:
		return Frugal
	}
	return ""
}

// pair takes back the reading of the tank that only makes good for its neighbour's brim.
func pair(out []Tank, d *model.Design, c model.Course) {
	for i := 1; i < len(out); i++ {
		was, is := out[i-1].Reading, out[i].Reading
		if d.Obs[i].Chained && (was == ShortFill && is == Thirsty || was == OverFill && is == Frugal) {
			out[i].Reading = ""
		}
	}
}

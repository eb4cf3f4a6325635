package tank

import (
	"math"

	"brimlog/ingest/book"
	"brimlog/ingest/quantity"
)

// rollsOverAt is the distance, in km as shown, after which the instrument starts again from zero.
func rollsOverAt(o book.Odometer) float64 {
	if !quantity.Known(o.Digits) || o.Digits <= 0 {
		return quantity.Unknown
	}
	wrap := math.Pow(10, o.Digits) // in the instrument's own unit
	if u, ok := quantity.UnitNamed(o.Unit); ok {
		return u.ToBase(wrap)
	}
	return wrap
}

// resetTo is the reading, in km as shown, that a replaced instrument started from.
func resetTo(j book.Job) (km float64, ok bool) {
	r, ok := j.Reading("odometer_reset_to")
	if !ok || len(r.Values) != 1 {
		return 0, false
	}
	return r.Values[0], true
}

func hasCorrection(j book.Job) bool {
	r, ok := j.Reading("odometer_correction")
	return ok && len(r.Values) == 1 && r.Values[0] > 0
}

// corrections are the factors true distance / shown distance that hold after each job.
type corrections struct {
	first  float64
	behind []float64
}

// after is the factor that holds after the job with that index; -1 for before all.
func (c corrections) after(job int) float64 {
	if job < 0 {
		return c.first
	}
	return c.behind[job]
}

// correctionsOf collects the factors. A measured one reaches back to the last work on tyres, driveline or
// odometer (to the log's start when there was none); one that comes with such work holds from it on.
func correctionsOf(v book.Vehicle, jobs []book.Job) corrections {
	c := corrections{first: quantity.Or(v.Odometer.Correction, 1), behind: make([]float64, len(jobs))}
	since := -1 // the last job that may have changed the factor
	for i, j := range jobs {
		c.behind[i] = c.after(i - 1)
		if o := v.After(func(id string) bool { return id == j.ID }).Odometer.Correction; quantity.Known(o) && o != v.Odometer.Correction {
			c.behind[i] = o // as vehicle.toml has it from this job on
		}
		if touchesOdometer(j) {
			since = i
		}
		if !hasCorrection(j) {
			continue
		}
		r, _ := j.Reading("odometer_correction")
		c.behind[i] = r.Values[0]
		if !j.Measure() {
			since = i
			continue
		}
		for k := i - 1; k >= since && k >= 0; k-- {
			c.behind[k] = r.Values[0]
		}
		if since < 0 {
			c.first = r.Values[0]
		}
	}
	return c
}

func touchesOdometer(j book.Job) bool {
	if j.Measure() {
		return false
	}
	for _, a := range j.Areas {
		if a == "tyres" || a == "driveline" || a == "odometer" {
			return true
		}
	}
	return false
}

package charts

import (
	"math"
	"time"

	"brimlog/ingest/quantity"
)

// A winter is the span of days from the first day of its first month to the last of its third.
type winter struct{ from, to float64 }

// winters are the cold quarters that fall within the days from low to high: December to February, or June to August where the log's own
// temperatures say that those are the colder.
func winters(tanks []tank, low, high float64) (all []winter, months string) {
	first, months := time.December, "December to February"
	if southern(tanks) {
		first, months = time.June, "June to August"
	}
	if !quantity.Known(low) || !quantity.Known(high) {
		return nil, months
	}
	for year := dated(low).Year() - 1; year <= dated(high).Year(); year++ {
		start := time.Date(year, first, 1, 0, 0, 0, 0, time.UTC)
		w := winter{days(start), days(start.AddDate(0, 3, 0))}
		if w.to > low && w.from < high {
			all = append(all, winter{math.Max(w.from, low), math.Min(w.to, high)})
		}
	}
	return all, months
}

// southern tells whether the tanks around the new year were clearly warmer than those around midsummer.
func southern(tanks []tank) bool {
	var sum, n [12]float64
	for _, t := range tanks {
		if quantity.Known(float64(t.AirC)) && quantity.Known(t.middle()) {
			m := dated(t.middle()).Month() - 1
			sum[m], n[m] = sum[m]+float64(t.AirC), n[m]+1
		}
	}
	newYear := (sum[11] + sum[0] + sum[1]) / (n[11] + n[0] + n[1])
	midYear := (sum[5] + sum[6] + sum[7]) / (n[5] + n[6] + n[7])
	return newYear > midYear+2
}

func dated(day float64) time.Time { return time.Unix(int64(day*86400), 0).UTC() }
func days(t time.Time) float64    { return float64(t.Unix()) / 86400 }

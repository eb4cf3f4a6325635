package slip

import (
	"math"
	"sort"

	"brimlog/ingest/quantity"
)

// What a tank may be asked by its conditions: a fraction of its fuel for each unit of them.
const (
	warmth = iota // degrees C below 20, noted or by the month
	town          // share of the distance, as far as it is noted
	winter        // cosine of the season, 1 in the middle of January
	spring        // sine of it
	asks
)

// usually is what each unit asks, and how far that may differ from vehicle to vehicle, on the log scale. Rough middles of what is
// published for cars of the carburettor age: a log soon overrules them. Seasons are open either way, so that either
// hemisphere will do.
var usually = [asks]struct{ mean, sd float64 }{warmth: {0.004, 0.003}, town: {0.2, 0.12}, winter: {0, 0.1}, spring: {0, 0.1}}

// A condition is a tank's figures for what may be asked of it.
type condition [asks]float64

// lean sets what roads, cold and season make each tank use against the log's usual, and measures the scatter that is left.
func (l *log) lean() {
	l.tanks, l.farthest = l.spans(), 0
	conditions := l.conditions()
	ask := l.fitAsks(conditions)
	for i, t := range l.tanks {
		for k := t.open + 1; k <= t.close; k++ {
			l.visits[k].lean = ask.of(conditions[i])
		}
	}
	l.tanks, l.farthest = l.spans(), 0
	l.measureScatter()
}

func (c condition) of(x condition) (sum float64) {
	for j := range asks {
		sum += c[j] * x[j]
	}
	return sum
}

// A road is what the drives noted within a tank say of it, all in km.
type road struct{ graded, town, aired, cold float64 }

// roads sums the drives up by the tank that they lie in, by their dates.
func (l *log) roads() []road {
	all := make([]road, len(l.tanks))
	for _, t := range l.book.Trips {
		day := int(dayOf(t.Date))
		k := sort.Search(len(l.visits), func(i int) bool { return int(l.visits[i].day) >= day })
		i := sort.Search(len(l.tanks), func(i int) bool { return l.tanks[i].close >= k })
		if i == len(l.tanks) || l.tanks[i].open >= k || !(t.Km > 0) {
			continue
		}
		r := &all[i]
		if t.Road != "" {
			r.graded += t.Km
		}
		if t.Road == "town" {
			r.town += t.Km
		}
		if quantity.Known(t.AirC) {
			r.aired += t.Km
			r.cold += t.Km * max(0, warmC-t.AirC)
		}
	}
	return all
}

const warmC = 20 // from here on cold costs nothing more

// conditions are those of l.tanks, less their means over the log. What is not known of a tank is taken for the mean.
func (l *log) conditions() []condition {
	all := make([]condition, len(l.tanks))
	var mean, n condition
	for i, r := range l.roads() {
		all[i] = l.conditionOf(&l.visits[l.tanks[i].close], r)
		for j, x := range all[i] {
			if quantity.Known(x) {
				mean[j] += x
				n[j]++
			}
		}
	}
	for i := range all {
		for j := range asks {
			if all[i][j] -= mean[j] / max(1, n[j]); !quantity.Known(all[i][j]) {
				all[i][j] = 0
			}
		}
	}
	return all
}

// conditionOf is what is known of the tank that ends at a visit: by its drives, the pump's note and the month.
func (l *log) conditionOf(v *visit, r road) (c condition) {
	year := 2 * math.Pi * (float64(v.date.YearDay()) - 15) / 365.25
	c[winter], c[spring] = math.Cos(year), math.Sin(year)
	c[town] = l.book.Fills[v.row].TownShare
	if r.graded > 0 {
		c[town] = r.town / r.graded
	}
	c[warmth] = quantity.Unknown
	if m := l.book.Vehicle.Place.MonthlyC; len(m) == 12 {
		c[warmth] = max(0, warmC-m[v.date.Month()-1])
	}
	if r.aired > 0 {
		c[warmth] = r.cold / r.aired
	}
	return c
}

// fitAsks fits what each unit asks to how far tanks lie from their neighbours; those that lie far count less.
func (l *log) fitAsks(conditions []condition) (ask condition) {
	y := make([]float64, len(l.tanks))
	x := make([]condition, len(l.tanks))
	for i := range l.tanks {
		m, n := l.beside(i)
		if n < 2 {
			continue
		}
		y[i] = l.tanks[i].y - m
		x[i] = conditions[i]
		from, to := max(0, i-reach), min(len(l.tanks), i+reach+1)
		for k := from; k < to; k++ {
			for j := range asks {
				if k != i {
					x[i][j] -= conditions[k][j] / float64(to-from-1)
				}
			}
		}
	}
	for j := range asks {
		ask[j] = usually[j].mean
	}
	weight := make([]float64, len(y))
	for range 4 {
		away := make([]float64, len(y))
		for i := range y {
			away[i] = abs(y[i] - ask.of(x[i]))
		}
		sd := clamp(medianOf(append([]float64(nil), away...))/0.6745, 0.02, 0.3)
		if len(y) == 0 {
			sd = 0.1
		}
		for i := range y {
			weight[i] = min(1, 1.5*sd/max(away[i], 1e-9)) / (sd * sd)
		}
		ask = settle(ask, y, x, weight)
	}
	return ask
}

// settle improves one coefficient after the other: weighted least squares with each one's usual size as a further observation.
func settle(ask condition, y []float64, x []condition, weight []float64) condition {
	var xx [asks][asks]float64
	var xy [asks]float64
	for i := range y {
		for j := range asks {
			xy[j] += weight[i] * x[i][j] * y[i]
			for k := range asks {
				xx[j][k] += weight[i] * x[i][j] * x[i][k]
			}
		}
	}
	for range 60 {
		for j := range asks {
			tie := 1 / (usually[j].sd * usually[j].sd)
			sum, own := xy[j]+tie*usually[j].mean, xx[j][j]+tie
			for k := range asks {
				if k != j {
					sum -= xx[j][k] * ask[k]
				}
			}
			ask[j] = sum / own
		}
	}
	return ask
}

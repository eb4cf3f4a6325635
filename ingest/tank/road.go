package tank

import (
	"cmp"
	"math"
	"slices"
	"sort"
	"time"

	"brimlog/ingest/book"
	"brimlog/ingest/quantity"
)

// A road maps what the odometer showed to true kilometres since the log's first reading. It is laid along
// the readings of fills and jobs: roll-overs and replaced instruments are unrolled into one growing count,
// and each stretch is multiplied by the correction that held on it.
type road struct {
	date   []time.Time
	count  []float64 // shown km, unrolled
	offset []float64 // count less shown
	km     []float64 // true
	wrap   float64
	last   float64      // correction after the last reading
	adrift map[int]bool // jobs whose reading contradicts the fills
}

// A reading is one odometer reading that the road may be laid along.
type reading struct {
	date  book.Moment
	shown float64
	fill  int // index in the sorted fills, or -1
	job   int // index in the sorted jobs, or -1
}

// layRoad lays the road along fills and jobs, both sorted, and returns the true kilometres of each fill: unknown
// where it has no reading, or one that is out of line with the rest. Cut are the fills
// before which the distance is not known: the instrument was replaced since the last one, and nobody read the old one.
func layRoad(v book.Vehicle, fills []book.Fill, jobs []book.Job) (r *road, km []float64, cut map[int]bool) {
	r = &road{wrap: rollsOverAt(v.Odometer), adrift: map[int]bool{}}
	chain := readings(fills, jobs, r.wrap)
	count := unroll(chain, jobs, r.wrap)
	corrections := correctionsOf(v, jobs)
	km, cut = make([]float64, len(fills)), map[int]bool{}
	for i := range km {
		km[i] = quantity.Unknown
	}
	r.last = corrections.after(-1)
	job, unread := -1, false
	for k, keep := range standing(chain, count) {
		if keep {
			at := 0.0
			if n := len(r.km); n > 0 {
				at = r.km[n-1] + (count[k]-r.count[n-1])*r.last
			}
			r.add(chain[k].date.Time, count[k], count[k]-chain[k].shown, at)
			if fill := chain[k].fill; fill >= 0 {
				km[fill] = at
				cut[fill], unread = unread, false
			}
		}
		if job = max(job, chain[k].job); keep || chain[k].job >= 0 {
			r.last = corrections.after(job)
		}
		if chain[k].job >= 0 && !keep {
			r.adrift[chain[k].job] = true
		}
		if chain[k].job >= 0 && len(r.offset) > 0 {
			if to, ok := resetTo(jobs[chain[k].job]); ok {
				r.offset[len(r.offset)-1] = r.count[len(r.count)-1] - to
				unread = unread || !keep
			}
		}
	}
	return r, km, cut
}

func (r *road) add(date time.Time, count, offset, km float64) {
	r.date, r.count, r.offset, r.km = append(r.date, date), append(r.count, count), append(r.offset, offset), append(r.km, km)
}

// at gives the true kilometres at a reading of that date.
func (r *road) at(date book.Moment, shown float64) float64 {
	if len(r.date) == 0 || !quantity.Known(shown) {
		return quantity.Unknown
	}
	// The offset that held at that date, and its neighbours: a drive may share its day with a roll-over.
	k := max(0, sort.Search(len(r.date), func(i int) bool { return r.date[i].After(endOf(date)) })-1)
	best, apart := quantity.Unknown, math.Inf(1)
	for _, j := range []int{k, k - 1, k + 1} {
		if j < 0 || j >= len(r.offset) {
			continue
		}
		count := shown + r.offset[j]
		if d := math.Abs(count - r.count[k]); d < apart {
			best, apart = count, d
		}
	}
	return r.interpolate(r.count, best)
}

// on gives the true kilometres on a date, as if the distance between two readings were driven evenly.
func (r *road) on(date book.Moment) float64 {
	if len(r.date) == 0 || date.Before(r.date[0]) || endOf(date).After(endOf(book.Moment{Time: r.date[len(r.date)-1]})) {
		return quantity.Unknown
	}
	days := make([]float64, len(r.date))
	for i, d := range r.date {
		days[i] = d.Sub(r.date[0]).Hours()
	}
	return r.interpolate(days, min(date.Sub(r.date[0]).Hours(), days[len(days)-1]))
}

// interpolate reads r.km off where x stands among the growing xs.
func (r *road) interpolate(xs []float64, x float64) float64 {
	n := len(xs)
	if x < xs[0] {
		return (x - xs[0]) * r.slope(0)
	}
	i := sort.SearchFloat64s(xs, x)
	switch {
	case i == n:
		return r.km[n-1] + (x-xs[n-1])*r.last
	case xs[i] == x || i == 0:
		return r.km[i]
	}
	share := (x - xs[i-1]) / (xs[i] - xs[i-1])
	return r.km[i-1] + share*(r.km[i]-r.km[i-1])
}

// slope is the correction on the stretch after the k-th reading.
func (r *road) slope(k int) float64 {
	if k+1 >= len(r.km) || r.count[k+1] == r.count[k] {
		return r.last
	}
	return (r.km[k+1] - r.km[k]) / (r.count[k+1] - r.count[k])
}

// factor is the correction, true distance over shown, where the road is at km.
func (r *road) factor(km float64) float64 {
	if len(r.km) == 0 || !quantity.Known(km) {
		return r.last
	}
	return r.slope(max(0, sort.SearchFloat64s(r.km, km)-1))
}

func readings(fills []book.Fill, jobs []book.Job, wrap float64) []reading {
	chain := make([]reading, 0, len(fills))
	for i := range fills {
		if f := &fills[i]; quantity.Known(f.Odometer) {
			chain = append(chain, reading{f.Date, f.Odometer, i, -1})
		}
	}
	for i, j := range jobs {
		_, reset := resetTo(j)
		if quantity.Known(j.Odometer) || reset || hasCorrection(j) {
			chain = append(chain, reading{j.Date, j.Odometer, -1, i})
		}
	}
	order := inOrder(wrap)
	slices.SortStableFunc(chain, func(a, b reading) int { return order(a.date, b.date, a.shown, b.shown) })
	return chain
}

// unroll turns readings into one count that grows through roll-overs and replaced instruments. A job without
// a reading of its own has an unknown count. A reading far below the last is a roll-over, unless the one before the
// last stands below it too: then the last was a slip. One that leads back up takes a supposed roll-over back.
func unroll(chain []reading, jobs []book.Job, wrap float64) []float64 {
	count := make([]float64, len(chain))
	offset, rolled := 0.0, 0
	before, last := quantity.Unknown, quantity.Unknown
	for k, c := range chain {
		switch {
		case last-c.shown > wrap/2 && !(before <= c.shown):
			offset += wrap
			rolled++
		case c.shown-last > wrap/2 && rolled > 0:
			offset -= wrap
			rolled--
		}
		count[k] = c.shown + offset
		if quantity.Known(c.shown) {
			before, last = last, c.shown
		}
		if c.job >= 0 {
			if to, ok := resetTo(jobs[c.job]); ok {
				offset += quantity.Or(last, to) - to
				before, last, rolled = quantity.Unknown, to, 0
			}
		}
	}
	return count
}

// inOrder sorts by date, then, on a day that one of the two gives without a time, by odometer: upwards, but for an instrument
// that rolls over at wrap on that very day.
func inOrder(wrap float64) func(a, b book.Moment, shownA, shownB float64) int {
	return func(a, b book.Moment, shownA, shownB float64) int {
		if a.Timed && b.Timed || !sameDay(a, b) || !quantity.Known(shownA) || !quantity.Known(shownB) {
			return a.Compare(b.Time)
		}
		if math.Abs(shownA-shownB) > wrap/2 {
			return cmp.Compare(shownB, shownA)
		}
		return cmp.Compare(shownA, shownB)
	}
}

// endOf is the last moment that m may mean.
func endOf(m book.Moment) time.Time {
	if m.Timed {
		return m.Time
	}
	return m.AddDate(0, 0, 1).Add(-time.Second)
}

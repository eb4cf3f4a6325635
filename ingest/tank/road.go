package tank

import (
	"cmp"
	"math"
	"sort"
	"time"

	"brimlog/ingest/book"
	"brimlog/ingest/quantity"
)

// A road maps what the odometer showed to true kilometres since the log's first reading. It is laid along
// the readings of fills and jobs: roll-overs and replaced instruments are unrolled into one growing count,
// and each stretch is multiplied by the correction that held on it.
type road struct {
	stones []reading // that it is laid along
	wrap   float64
	last   float64      // correction after the last reading
	adrift map[int]bool // jobs whose reading contradicts the fills
}

// A reading is one odometer reading that the road may be laid along.
type reading struct {
	date      *book.Moment
	shown     float64 // km; where the instrument was replaced after it, what the new one started from
	count     float64 // shown, unrolled
	km        float64 // true
	fill, job int32   // index in the sorted fills or in the sorted jobs, -1 in the other
}

// offset leads from shown to count.
func (c *reading) offset() float64 { return c.count - c.shown }

// layRoad lays the road along fills and jobs, both sorted, and returns the true kilometres of each fill: unknown
// where it has no reading, or one that is out of line with the rest. Cut are the fills
// before which the distance is not known: the instrument was replaced since the last one, and nobody read the old one.
func layRoad(v book.Vehicle, fills []book.Fill, jobs []book.Job) (r *road, km []float64, cut []bool) {
	r = &road{wrap: rollsOverAt(v.Odometer), adrift: map[int]bool{}}
	chain := readings(fills, jobs, r.wrap)
	unroll(chain, jobs, r.wrap)
	corrections := correctionsOf(v, jobs)
	km, cut = make([]float64, len(fills)), make([]bool, len(fills))
	for i := range km {
		km[i] = quantity.Unknown
	}
	r.last = corrections.after(-1)
	r.stones = chain[:0] // never ahead of what is read of the chain
	job, unread := -1, false
	for k, keep := range standing(chain) {
		c := chain[k]
		if keep {
			if n := len(r.stones); n > 0 {
				c.km = r.stones[n-1].km + (c.count-r.stones[n-1].count)*r.last
			}
			r.stones = append(r.stones, c)
			if c.fill >= 0 {
				km[c.fill] = c.km
				cut[c.fill], unread = unread, false
			}
		}
		if job = max(job, int(c.job)); keep || c.job >= 0 {
			r.last = corrections.after(job)
		}
		if c.job >= 0 && !keep {
			r.adrift[int(c.job)] = true
		}
		if c.job >= 0 && len(r.stones) > 0 {
			if to, ok := resetTo(jobs[c.job]); ok {
				r.stones[len(r.stones)-1].shown = to
				unread = unread || !keep
			}
		}
	}
	return r, km, cut
}

// at gives the true kilometres at a reading of that date.
func (r *road) at(date book.Moment, shown float64) float64 {
	if len(r.stones) == 0 || !quantity.Known(shown) {
		return quantity.Unknown
	}
	// The offset that held at that date, and its neighbours: a drive may share its day with a roll-over.
	end := endOf(date)
	k := max(0, sort.Search(len(r.stones), func(i int) bool { return r.stones[i].date.After(end) })-1)
	best, apart := quantity.Unknown, math.Inf(1)
	for _, j := range []int{k, k - 1, k + 1} {
		if j < 0 || j >= len(r.stones) {
			continue
		}
		count := shown + r.stones[j].offset()
		if d := math.Abs(count - r.stones[k].count); d < apart {
			best, apart = count, d
		}
	}
	return r.interpolate(func(c *reading) float64 { return c.count }, best)
}

// on gives the true kilometres on a date, as if the distance between two readings were driven evenly.
func (r *road) on(date book.Moment) float64 {
	n := len(r.stones)
	if n == 0 || date.Before(r.stones[0].date.Time) || endOf(date).After(endOf(book.Moment{Time: r.stones[n-1].date.Time})) {
		return quantity.Unknown
	}
	hours := func(m *book.Moment) float64 { return m.Sub(r.stones[0].date.Time).Hours() }
	return r.interpolate(func(c *reading) float64 { return hours(c.date) }, min(hours(&date), hours(r.stones[n-1].date)))
}

// interpolate reads the true kilometres off where x stands among what of grows along the road.
func (r *road) interpolate(of func(*reading) float64, x float64) float64 {
	n := len(r.stones)
	i := sort.Search(n, func(i int) bool { return of(&r.stones[i]) >= x })
	switch {
	case i == n:
		last := &r.stones[n-1]
		return last.km + (x-of(last))*r.last
	case of(&r.stones[i]) == x:
		return r.stones[i].km
	case i == 0:
		return (x - of(&r.stones[0])) * r.slope(0)
	}
	a, b := &r.stones[i-1], &r.stones[i]
	share := (x - of(a)) / (of(b) - of(a))
	return a.km + share*(b.km-a.km)
}

// slope is the correction on the stretch after the k-th reading.
func (r *road) slope(k int) float64 {
	if k+1 >= len(r.stones) || r.stones[k+1].count == r.stones[k].count {
		return r.last
	}
	a, b := &r.stones[k], &r.stones[k+1]
	return (b.km - a.km) / (b.count - a.count)
}

// factor is the correction, true distance over shown, where the road is at km.
func (r *road) factor(km float64) float64 {
	if len(r.stones) == 0 || !quantity.Known(km) {
		return r.last
	}
	return r.slope(max(0, sort.Search(len(r.stones), func(i int) bool { return r.stones[i].km >= km })-1))
}

func readings(fills []book.Fill, jobs []book.Job, wrap float64) []reading {
	chain := make([]reading, 0, len(fills))
	for i := range fills {
		if f := &fills[i]; quantity.Known(f.Odometer) {
			chain = append(chain, reading{date: &f.Date, shown: f.Odometer, fill: int32(i), job: -1})
		}
	}
	for i, j := range jobs {
		_, reset := resetTo(j)
		if quantity.Known(j.Odometer) || reset || hasCorrection(j) {
			chain = append(chain, reading{date: &jobs[i].Date, shown: j.Odometer, fill: -1, job: int32(i)})
		}
	}
	order := inOrder(wrap)
	return sorted(chain, func(a, b *reading) int { return order(*a.date, *b.date, a.shown, b.shown) })
}

// unroll turns readings into one count that grows through roll-overs and replaced instruments. A job without
// a reading of its own has an unknown count. A reading far below the last is a roll-over, unless the one before the
// last stands below it too: then the last was a slip. One that leads back up takes a supposed roll-over back.
func unroll(chain []reading, jobs []book.Job, wrap float64) {
	offset, rolled := 0.0, 0
	before, last := quantity.Unknown, quantity.Unknown
	for k := range chain {
		c := &chain[k]
		switch {
		case last-c.shown > wrap/2 && !(before <= c.shown):
			offset += wrap
			rolled++
		case c.shown-last > wrap/2 && rolled > 0:
			offset -= wrap
			rolled--
		}
		c.count = c.shown + offset
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

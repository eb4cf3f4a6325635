package watch

import (
	"math"
	"slices"

	"brimlog/ingest/tank"
	"brimlog/stats/model"
)

// A chain wears and a brake drags more and more: no step, and what looks for steps takes it for one in the middle or for a
// staircase. So every step told, or several of one sign in a row, or a step too vague to be dated, is held against a
// climb: the likeliest beginning and end are read off the tanks like for like, and the model itself then says whether such
// a climb explains the log better than its steps do.

const (
	shortest = 6    // tanks of a climb: what comes within fewer is a step
	quietest = 3    // tanks of a level before it
	aside    = 24   // tanks on either side that it is looked for in: as long as the model remembers a step
	longest  = 96   // tanks of one staircase
	clearer  = 10.0 // how many times better than steps it must explain the log: it is rarer than one, and has a beginning and an end to choose
)

// A staircase is what may be one climb: steps of one sign on end, or a stretch that no step can be dated in.
type staircase struct {
	steps       []Shift
	first, last int     // tanks
	lo, hi      int     // tanks lo to hi-1 hold nothing else
	spread      float64 // log scale: what not knowing its ends adds to its size
}

// climbs puts a climb in the place of the steps that it explains better.
func climbs(l *tank.Log, d *model.Design, c model.Course, steps []Shift, wide []window) []Shift {
	stairs := staircases(d, steps, wide)
	if len(stairs) == 0 {
		return steps
	}
	y, sd := d.LikeForLike(c.Settled)
	var asked []model.Climb
	var of []staircase
	for _, s := range stairs {
		best, spread, ok := steepest(y, sd, s)
		if s.spread = spread; ok {
			asked, of = append(asked, best), append(of, s)
		}
	}
	for k, e := range d.Climbs(asked) {
		if s, ok := crept(l, asked[k], of[k], e); ok {
			steps = slices.DeleteFunc(steps, func(t Shift) bool { return t.Tank >= of[k].first && t.Tank <= of[k].last })
			steps = append(steps, s)
		}
	}
	slices.SortFunc(steps, func(a, b Shift) int { return a.Tank - b.Tank })
	return steps
}

// staircases lists what may be climbs, in order. None reaches past work, nor past what else shifted.
func staircases(d *model.Design, steps []Shift, wide []window) []staircase {
	var all []staircase
	for _, s := range steps {
		all = append(all, staircase{steps: []Shift{s}, first: s.First, last: s.Last})
	}
	for _, w := range wide {
		all = append(all, staircase{first: w.first, last: w.last})
	}
	slices.SortStableFunc(all, func(a, b staircase) int { return a.first - b.first })
	out := all[:0]
	for _, s := range all {
		if n := len(out); n > 0 && out[n-1].leadsTo(s, d) {
			out[n-1].steps, out[n-1].last = append(out[n-1].steps, s.steps...), max(s.last, out[n-1].last)
		} else {
			out = append(out, s)
		}
	}
	bound(d, out)
	return slices.DeleteFunc(out, func(s staircase) bool { return worked(d, s.first, s.last) })
}

// bound sets how far each staircase may reach to either side.
func bound(d *model.Design, out []staircase) {
	for k := range out {
		s := &out[k]
		s.lo, s.hi = max(0, s.first-aside), min(len(d.Obs), s.last+1+aside)
		if k > 0 {
			s.lo = max(s.lo, out[k-1].last+1)
		}
		if k+1 < len(out) {
			s.hi = min(s.hi, out[k+1].first)
		}
		for s.lo < s.first && worked(d, s.lo, s.first-1) {
			s.lo++
		}
		for s.hi > s.last+1 && worked(d, s.last+1, s.hi-1) {
			s.hi--
		}
	}
}

// leadsTo tells whether the next stair may belong to the same climb.
func (s staircase) leadsTo(next staircase, d *model.Design) bool {
	if next.first-s.last > aside || next.last-s.first >= longest || worked(d, s.first, next.last) {
		return false
	}
	return len(s.steps) == 0 || len(next.steps) == 0 || s.steps[0].Change > 0 == (next.steps[0].Change > 0)
}

func worked(d *model.Design, first, last int) bool {
	return slices.ContainsFunc(d.Obs[first:last+1], func(o model.Obs) bool { return o.Work != nil })
}

// crept reads the model's answer to a climb; not ok where steps explain the log as well.
func crept(l *tank.Log, c model.Climb, of staircase, e model.Evidence) (s Shift, ok bool) {
	s = Shift{Tank: of.last, First: c.First, Last: c.Last, Gradual: true, Odds: min(1e6, math.Exp(e.LogOdds)/model.LookBack)}
	for _, t := range of.steps {
		s.Tank, s.Odds = t.Tank, max(s.Odds, t.Odds)
	}
	s.From, s.To = l.Tanks[c.First].Opens.Date, l.Tanks[c.Last].Closes.Date
	s.Jobs = jobsWithin(l, s.From, s.To)
	effect := slices.Clone(e.Effect)
	for i := range effect {
		effect[i].Sd = math.Hypot(effect[i].Sd, of.spread)
	}
	s.Change, s.Low, s.High = percent(effect, 0.5), percent(effect, 0.05), percent(effect, 0.95)
	km := (l.Tanks[c.Last].To - l.Tanks[c.First].From) / float64(c.Last-c.First+1)
	sign := len(of.steps) == 0 || of.steps[0].Change > 0 == (s.Change > 0)
	return s, sign && s.Low*s.High > 0 && e.LogOdds > math.Log(clearer*model.OnsetKm/km)
}

// steepest finds the climb that fits the like-for-like tanks of a staircase best, and how much its size would differ if it began and
// ended elsewhere, as a deviation over all that fit; not ok where the best does not touch the staircase.
func steepest(y, sd []float64, s staircase) (best model.Climb, spread float64, ok bool) {
	type fit struct{ rise, misfit float64 }
	var fits []fit
	least := math.Inf(1)
	for first := s.lo + quietest; first+shortest <= s.hi; first++ {
		for last := first + shortest - 1; last < s.hi; last++ {
			c := model.Climb{First: first, Last: last}
			rise, x := fitted(y, sd, s.lo, s.hi, c)
			if x < least {
				best, least = c, x
			}
			fits = append(fits, fit{rise, x})
		}
	}
	var w, mean, square float64
	for _, f := range fits {
		likely := math.Exp((least - f.misfit) / 2)
		w, mean, square = w+likely, mean+likely*f.rise, square+likely*f.rise*f.rise
	}
	return best, math.Sqrt(max(0, square/w-mean*mean/(w*w))), len(fits) > 0 && best.First <= s.last && best.Last >= s.first
}

// fitted takes a level and a climb out of tanks lo to hi-1: how much it rises, and what is left, in squared deviations.
func fitted(y, sd []float64, lo, hi int, c model.Climb) (rise, misfit float64) {
	var w, x, z, xx, xz, zz float64
	for i := lo; i < hi; i++ {
		v, s := 1/(sd[i]*sd[i]), c.Share(i)
		w += v
		x += v * s
		z += v * y[i]
		xx += v * s * s
		xz += v * s * y[i]
		zz += v * y[i] * y[i]
	}
	along, cross := xx-x*x/w, xz-x*z/w
	return cross / along, zz - z*z/w - cross*cross/along
}

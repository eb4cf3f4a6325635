package model

// A Climb is a change that nobody made at once: it came in evenly from the beginning of tank First to the end of tank Last.
type Climb struct{ First, Last int }

// Share is how much of it a tank shows, 0 to 1.
func (c Climb) Share(tank int) float64 {
	return max(0, min(1, (float64(tank-c.First)+0.5)/float64(c.Last-c.First+1)))
}

// climbTanks is how many tanks past its end a climb is followed.
const climbTanks = 16

// Climbs holds each climb against what explains the log without it: steps at whatever tanks, as rare as the priors have them,
// or nothing at all. Climbs are in the order of their first tanks, in which nobody worked. One pass over the log, and a branch each.
func (d *Design) Climbs(climbs []Climb) []Evidence {
	out := make([]Evidence, 0, len(climbs))
	main := newLanes(d)
	for i := 0; len(out) < len(climbs); i++ {
		for len(out) < len(climbs) && climbs[len(out)].First == i {
			out = append(out, d.climb(main.fork(), climbs[len(out)]))
		}
		main.suspect(d.Obs[i].Work)
		main, _ = main.step(&d.Obs[i], role{fold: true, whole: true})
	}
	return out
}

func (d *Design) climb(from lanes, c Climb) Evidence {
	for _, p := range from {
		p.branched()
	}
	b := rivals{from, from.clone()}
	last := min(len(d.Obs)-1, c.Last+climbTanks)
	for i := c.First; i <= last; i++ {
		o, shown := d.Obs[i], c.Share(i)
		if i == c.First {
			o.Work = &Work{After: shown, Scale: 1, Pretended: true}
		} else {
			b.suspect(o.Work)
		}
		b = b.step(&o, shown, i == c.First)
	}
	e := b.evidence(true)
	e.Tank = last
	return e
}

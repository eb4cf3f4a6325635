package stats

import (
	"math"

	"brimlog/stats/expect"
	"brimlog/stats/prove"
)

// How far tanks that stand for the healthy vehicle can be trusted, as widths of a logarithm (judged).
const (
	byOwner      = 0.01 // the owner's word
	byProof      = 0.05 // a proved cure: one fault is gone, another may be left
	byChange     = 0.04 // a job since has changed the vehicle for good
	byConditions = 0.25 // share of the difference in roads and weather
)

// stillUnwell is by how many percent a cured vehicle may be above its last healthy level before it counts as half cured.
const stillUnwell = 3

// healthyTanks are the tanks that stand for the healthy vehicle, and how far that can be doubted: those that the owner
// vouches for, else those between the newest job that was proved to save fuel and the one after, before since. Tanks
// that are measured prove nothing of themselves: without the owner's word none of them counts.
func (r *Review) healthyTanks(g ground, since int, n *notes) (tanks []int, doubt float64) {
	for i, o := range g.design.Obs {
		if o.Healthy {
			tanks = append(tanks, i)
		}
	}
	doubt = byOwner
	if len(tanks) > 0 {
		n.say("the range is narrowed by %s for which you vouch", plural(len(tanks), "tank", "tanks"))
	} else {
		var job string
		if tanks, job = r.provedTanks(g, since); len(tanks) == 0 {
			return nil, 0
		}
		doubt = byProof
		n.say("the range is narrowed by %s after %s, which was proved to save fuel", plural(len(tanks), "tank", "tanks"), job)
	}
	for range g.changesAfter(tanks[len(tanks)-1]) {
		doubt = math.Hypot(doubt, byChange)
	}
	return tanks, doubt
}

func (r *Review) provedTanks(g ground, since int) (tanks []int, job string) {
	jobs := g.log.Jobs
	verdict := map[string]Job{}
	for _, j := range r.Jobs {
		verdict[j.ID] = j
	}
	for i, j := range jobs {
		v := verdict[j.ID]
		if j.Measure() || v.Verdict == nil || *v.Verdict != prove.LessFuel || v.AgainstHealthyPct > stillUnwell {
			continue
		}
		first, end := g.firstAfter(i), since
		for _, k := range jobs[i+1:] {
			if !k.Measure() && k.Tank >= first {
				end = min(end, k.Tank)
			}
		}
		for _, s := range r.Watch.Shifts {
			if s.SinceTank > first {
				end = min(end, s.SinceTank-1)
			}
		}
		if first < end {
			tanks, job = from(first, end), j.ID
		}
	}
	return tanks, job
}

// changesAfter counts the jobs after a tank that changed the vehicle for good.
func (g ground) changesAfter(tank int) int {
	n := 0
	for _, o := range g.log.Vehicle.From {
		for _, j := range g.log.Jobs {
			if j.ID == o.Job && j.Tank > tank {
				n++
			}
		}
	}
	return n
}

// vouchedLevel is the level of healthy tanks, carried over to the roads of others.
func (g ground) vouchedLevel(vouched, on []int, doubt float64) expect.Level {
	if len(vouched) == 0 {
		return expect.Level{}
	}
	l := g.level(vouched, on)
	y, _ := g.design.LikeForLike(g.course.Settled)
	apart := byConditions * (g.harder(y, on) - g.harder(y, vouched))
	l.Sd = math.Sqrt(l.Sd*l.Sd + doubt*doubt + apart*apart)
	return l
}

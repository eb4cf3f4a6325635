package heron

import (
	"math/rand/v2"
	"time"
)

// A notes is the owner's stock of remarks. Each is used once, in order; when a pool is dry, nothing is remarked.
type notes map[string][]string

func newNotes() notes {
	n := notes{}
	for pool, lines := range remarks {
		n[pool] = lines
	}
	return n
}

// take is the next remark of the pool, in that share of the cases.
func (n notes) take(pool string, share float64, rng *rand.Rand) string {
	x := rng.Float64()
	left := n[pool]
	if x >= share || len(left) == 0 {
		return ""
	}
	n[pool] = left[1:]
	return left[0]
}

// A moment is a pool that a drive may call for, and how often the owner then writes.
type moment struct {
	pool  string
	fits  bool
	share float64
}

// trip is what is remarked about a drive: the most particular thing first.
func (n notes) trip(l leg, rng *rand.Rand) string {
	if l.day.Equal(hotSmell) && l.use == pass {
		return "smelt something hot after the pass; gone by the time we had parked"
	}
	for _, m := range moments(l) {
		if !m.fits {
			continue
		}
		if line := n.take(m.pool, m.share, rng); line != "" {
			return line
		}
	}
	return ""
}

func moments(l leg) []moment {
	state := tuneOn(l.day)
	within := func(from string, days float64) bool {
		passed := l.day.Sub(date(from)).Hours() / 24
		return passed >= 0 && passed < days
	}
	away, towing := "", l.tow > 0
	if l.trip != nil {
		away = l.trip.name + l.trip.part(l.day)
	}
	return []moment{
		{"test " + l.day.Format(time.DateOnly), l.use == test, 1},
		{away, l.trip != nil, 0.6},
		{"trailer", towing, 1},
		{"queue", l.idle > 0, 0.6},
		{"late", state == late && l.starts > 0, 0.16},
		{"retimed", within("2025-01-12", 30), 0.22},
		{"cam", within("2025-05-18", 80) && l.trip == nil, 0.17},
		{"carb", within("2025-10-18", 25), 0.22},
		{"binding", state == binding && l.trip == nil, 0.1},
		{"frost", l.air < 1, 0.3},
		{"hot", l.air > 23, 0.3},
		{"wet", l.wet && !towing && l.trip == nil, 0.07},
		{uses[l.use] + l.day.Format(" January"), uses[l.use] != "", 2 * chatty[l.use]},
		{uses[l.use] + quarter(l.day), uses[l.use] != "", chatty[l.use]},
		{uses[l.use], uses[l.use] != "", chatty[l.use] / 2},
		{"commute", l.use == commute, 0.05},
	}
}

var uses = map[use]string{errand: "errand", choir: "choir", outing: "outing", pass: "pass"}
var chatty = map[use]float64{errand: 0.12, choir: 0.14, outing: 0.3, pass: 0.5}

// quarter is the time of year that a remark may give away.
func quarter(day time.Time) string {
	switch (day.Month() % 12) / 3 {
	case 0:
		return " winter"
	case 1:
		return " spring"
	case 2:
		return " summer"
	}
	return " autumn"
}

// fill is what is remarked at the pump.
func (n notes) fill(v visit, forgotten bool, rng *rand.Rand) string {
	switch {
	case v.day.Equal(first):
		return "new book, new mark: first click, pump three, nose to the road"
	case forgotten:
		return "the receipt before this one went through the wash, so mark it missed"
	case !v.full:
		return n.take("partial", 1, rng)
	case v.station == "services":
		return n.take("services", 0.7, rng)
	case tuneOn(v.day) == late:
		return n.take("fill late", 0.3, rng)
	case tuneOn(v.day) == binding:
		return n.take("fill binding", 0.35, rng)
	}
	return n.take("fill", 0.2, rng)
}

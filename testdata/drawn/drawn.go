// Package drawn makes logbooks with a known truth for the tests: one car, weekly tanks, drives of four kinds through the
// seasons, and jobs whose effect is chosen. It knows nothing of the model that is tested with it: its car burns what
// its roads, its weather and its starts ask for, times a scatter of each drive and each tank.
package drawn

import (
	"fmt"
	"math"
	"math/rand/v2"
	"time"
)

// A Plan says what is drawn.
type Plan struct {
	Seed   uint64
	Tanks  int
	Drives float64 // noted drives a tank, on average; 0 for 6.4
	Noted  float64 // share of the drives that are written down; 0 for all
	Jobs   []Job
	Part   float64 // chance of a part fill within a tank
	Calm   bool    // no scatter but the pump's: for tests that want to see one thing alone
	Plain  bool    // one kind of road, no cold, no starts: the textbook\'s case of one level and its scatter
	Days   int     // from fill to fill; 0 for 7
}

// A Job changes fuel per distance by Pct percent, halfway through the tank after so many tanks.
type Job struct {
	ID, Kind, Area string
	After          int
	Pct            float64
}

// A Row is one row of a file: column names, without their units, to figures or words.
type Row map[string]any

// A Log is a logbook as drawn: distances in km, volumes in litres.
type Log struct {
	Vehicle            string
	Fills, Trips, Work []Row
}

var roads = []struct {
	name       string
	thirst, km float64
}{{"town", 1.17, 18}, {"mixed", 1, 45}, {"open", 0.88, 80}, {"motorway", 0.97, 130}}

const (
	perKm      = 0.105 // litres, warm, on a mixed road
	coldPerC   = 0.004
	startKm    = 1.2 // km's worth of fuel of a start at 5 C
	tripNoise  = 0.05
	tankNoise  = 0.02
	brimL      = 0.6
	firstKm    = 20000
	firstDay   = 40
	daysATank  = 7
	pricePerL  = 1.5
	usualTrips = 6.4
)

var began = time.Date(1994, 1, 1, 0, 0, 0, 0, time.UTC)

// Draw makes a logbook.
func (p Plan) Draw() *Log {
	d := &driver{plan: p, rng: rand.New(rand.NewPCG(p.Seed, 1974)), km: firstKm, log: &Log{Vehicle: vehicle}}
	d.brim = d.scatter(brimL)
	d.fill(began.AddDate(0, 0, firstDay), 40, true)
	for i := range p.Tanks {
		d.tank(i)
	}
	return d.log
}

const vehicle = `name = "Drawn"

[tank]
capacity_l = 60

[odometer]
unit = "km"

[place]
monthly_c = [4, 4, 6, 9, 12, 15, 17, 17, 14, 11, 7, 5]
`

type driver struct {
	plan  Plan
	rng   *rand.Rand
	log   *Log
	km    float64
	state float64 // log scale: what the jobs so far have done
	brim  float64 // litres above the mark
	left  float64 // litres burnt since the last brim and not yet bought again
}

func (d *driver) scatter(sd float64) float64 {
	if z := d.rng.NormFloat64(); !d.plan.Calm {
		return sd * z
	}
	return 0
}

// tank drives until the fuel is down, and fills up.
func (d *driver) tank(i int) {
	days := d.plan.Days
	if days == 0 {
		days = daysATank
	}
	opened := began.AddDate(0, 0, firstDay+days*i)
	noise, part := d.scatter(tankNoise), d.rng.Float64() < d.plan.Part
	trips := d.plan.Drives
	if trips == 0 {
		trips = usualTrips
	}
	n := int(trips)
	if d.rng.Float64() < trips-float64(n) {
		n++
	}
	job := 0
	for k := range n {
		on := opened.AddDate(0, 0, 1+k*(days-1)/n)
		d.drive(on, noise, usualTrips/trips)
		if 2*(k+1) < n || job > 0 {
			continue
		}
		job++
		d.jobs(i, on)
		if part {
			d.fill(on, math.Round(100*d.left*0.6)/100, false)
		}
	}
	closing := d.scatter(brimL)
	d.left += closing - d.brim
	d.brim = closing
	d.fill(opened.AddDate(0, 0, days), math.Round(100*d.left)/100, true)
}

// drive makes one drive, as long as a tank of the usual number of drives would have it.
func (d *driver) drive(on time.Time, noise, stretch float64) {
	air := 10 - 7*math.Cos(2*math.Pi*float64(on.YearDay()-20)/365.25) + d.scatter(3)
	r := roads[d.rng.IntN(len(roads))]
	if d.plan.Plain {
		air, r = 22, roads[1]
	}
	km := math.Max(3, math.Round(stretch*r.km*math.Exp(d.scatter(0.3))))
	cold := math.Max(0, 20-air)
	burn := perKm * math.Exp(d.state+noise+d.scatter(tripNoise)) * (km*r.thirst*(1+coldPerC*cold) + startKm*cold/15)
	if d.plan.Noted == 0 || d.rng.Float64() < d.plan.Noted {
		d.log.Trips = append(d.log.Trips, Row{
			"date": on.Format(time.DateOnly), "odometer_start": d.km, "odometer_end": d.km + km, "road": r.name, "air": math.Round(air), "cold_starts": 1,
		})
	}
	d.km += km
	d.left += burn
}

func (d *driver) jobs(tank int, on time.Time) {
	for _, j := range d.plan.Jobs {
		if j.After == tank {
			d.state += math.Log1p(j.Pct / 100)
			d.log.Work = append(d.log.Work, Row{
				"id": j.ID, "date": on.Format(time.DateOnly), "odometer": d.km, "kind": j.Kind, "area": j.Area, "what": fmt.Sprintf("Job %s", j.ID), "cost": 50,
			})
		}
	}
}

func (d *driver) fill(on time.Time, litres float64, full bool) {
	d.log.Fills = append(d.log.Fills, Row{
		"date": on.Format(time.DateOnly), "odometer": d.km, "volume": litres, "full": yes(full), "cost": math.Round(100*pricePerL*litres) / 100, "fuel": "E5",
	})
	d.left -= litres
	if full {
		d.left = 0
	}
}

func yes(b bool) string {
	if b {
		return "yes"
	}
	return "no"
}

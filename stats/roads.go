package stats

import (
	"math"
	"time"

	"brimlog/ingest/quantity"
	"brimlog/ingest/tank"
	"brimlog/stats/engine"
	"brimlog/stats/expect"
)

// Roads are the roads and the weather that an answer stands on, as far as they are noted.
type Roads struct {
	NotedShare      Figure `json:"noted_share"` // of the distance, with a kind of road
	AirC            Figure `json:"air_c"`
	ColdStartsPerKm Figure `json:"cold_starts_per_km"`
	BriskShare      Figure `json:"brisk_share"`
	EasyShare       Figure `json:"easy_share"`
	LoadKg          Figure `json:"load_kg"`
	TowShare        Figure `json:"tow_share"`
	MJPerL          Figure `json:"mj_per_l"`
}

func shownRoads(r expect.Roads) Roads {
	f := func(x float64) Figure { return Figure(x) }
	return Roads{f(r.Noted), f(r.AirC), f(r.ColdStartsPerKm), f(r.Brisk), f(r.Easy), f(r.LoadKg), f(r.TowShare), f(r.MJPerL)}
}

// Shares of the distance below which notes of one kind speak for too little of it.
const (
	fewNoted = 0.25
	townSays = 0.8 // how much of the kind of road the pump's note tells: the town, not the rest apart
)

// startsPerKm is what the pump's one-line note of short trips stands for, as the model of the log has it.
var startsPerKm = map[string]float64{"none": 1.0 / 50, "some": 1.0 / 20, "most": 1.0 / 8}

// roads adds up what was noted of some tanks. What nobody drives on counts as not noted, and is told.
func (g ground) roads(tanks []int, n *notes) expect.Roads {
	r := expect.UnknownRoads()
	var s sums
	for _, i := range tanks {
		s.add(g.log.Tanks[i], g.log.Vehicle.Fuel)
	}
	if s.km == 0 {
		return r
	}
	r.Share, r.Noted = s.road, min(1, s.roadKm/s.km)
	if s.startsKm >= fewNoted*s.km {
		r.ColdStartsPerKm = s.starts / s.startsKm
	}
	r.AirC = g.air(tanks, s)
	r.MJPerL = s.energy / s.km
	if s.noted > 0 {
		r.Easy, r.Brisk, r.LoadKg = s.easy/s.km, s.brisk/s.km, s.load/s.km
		g.trips(tanks, s.km, &r)
	}
	r, slips := r.Usable()
	for _, err := range slips {
		n.say("trips.csv: over these tanks %v", err)
	}
	return r
}

// sums are over tanks.
type sums struct {
	km, noted        float64
	roadKm           float64
	road             [engine.Kinds]float64
	starts, startsKm float64
	airKm, air       float64
	easy, brisk      float64
	load, energy     float64
}

func (s *sums) add(t tank.Tank, fuels map[string]float64) {
	c := t.Conditions
	over := max(1, c.Noted/t.Km) // trips noted twice
	s.km, s.noted = s.km+t.Km, s.noted+c.Noted
	for k := range s.road { // the kinds stand in the same order in both rooms
		s.road[k] += c.Road[k] / over
	}
	s.roadKm += c.Roads / over
	if unknown := max(0, t.Km-c.Roads/over); quantity.Known(c.TownShare) {
		told := townSays * unknown
		rest := (1 - c.TownShare) * told
		s.roadKm += told
		s.road[engine.Town] += c.TownShare * told
		s.road[engine.Open] += rest / 2
		s.road[engine.Mixed] += rest / 4
		s.road[engine.Motorway] += rest / 4
	}
	s.starts, s.startsKm = s.starts+c.Starts/over, s.startsKm+c.StartsKm/over
	if perKm, told := startsPerKm[c.Short]; told {
		unseen := max(0, t.Km-c.StartsKm/over)
		s.starts, s.startsKm = s.starts+perKm*unseen, s.startsKm+unseen
	}
	s.airKm, s.air = s.airKm+c.AirKm, s.air+c.AirSum
	s.easy, s.brisk, s.load = s.easy+c.Easy/over, s.brisk+c.Brisk/over, s.load+c.Load/over
	for label, share := range t.Blend {
		s.energy += t.Km * share * expect.EnergyOf(label, fuels)
	}
}

// air is the mean air temperature: as noted, else the place's by the calendar.
func (g ground) air(tanks []int, s sums) float64 {
	if s.airKm >= fewNoted*s.km {
		return s.air / s.airKm
	}
	sum := 0.0
	for _, i := range tanks {
		t := g.log.Tanks[i]
		sum += t.Km * g.monthly(t.Opens.Date.Add(t.Closes.Date.Sub(t.Opens.Date.Time)/2))
	}
	return sum / s.km
}

// monthly is the place's mean air temperature on a day, between the middles of its months; Unknown where it is not told.
func (g ground) monthly(day time.Time) float64 {
	months := g.log.Vehicle.Place.MonthlyC
	if len(months) != 12 {
		return quantity.Unknown
	}
	along := float64(day.Month()-1) + (float64(day.Day())-15.5)/30.5
	last := math.Floor(along) // from -1
	share, at := along-last, int(last)+12
	return (1-share)*months[at%12] + share*months[(at+1)%12]
}

// trips adds what only the single trips tell: the cruising speed on each kind of road, and the trailer.
func (g ground) trips(tanks []int, km float64, r *expect.Roads) {
	var fast, fastKm [engine.Kinds]float64
	towed, towedKm := 0.0, 0.0
	for _, d := range g.log.Trips {
		if d.Tank < tanks[0] || d.Tank > tanks[len(tanks)-1] || !(d.Km > 0) {
			continue
		}
		for k := range engine.Kinds {
			if d.Road == k.String() && quantity.Known(d.CruiseKmh) {
				fast[k], fastKm[k] = fast[k]+d.Km*d.CruiseKmh, fastKm[k]+d.Km
			}
		}
		if d.TowKg > 0 {
			towed, towedKm = towed+d.Km*d.TowKg, towedKm+d.Km
		}
	}
	for k := range fast {
		if fastKm[k] > 0 {
			r.CruiseKmh[k] = fast[k] / fastKm[k]
		}
	}
	r.TowKg, r.TowShare = 0, 0
	if towedKm > 0 {
		r.TowKg, r.TowShare = towed/towedKm, min(1, towedKm/km)
	}
}

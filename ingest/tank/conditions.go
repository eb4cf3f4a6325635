package tank

import (
	"math"

	"brimlog/ingest/book"
	"brimlog/ingest/quantity"
)

// Roads are the kinds of road that a trip may name.
const (
	Town = iota
	Mixed
	OpenRoad
	Motorway
	Track
	RoadCount
)

var roadNamed = map[string]int{"town": Town, "mixed": Mixed, "open": OpenRoad, "motorway": Motorway, "track": Track}

// WarmC is the air temperature above which cold costs nothing more.
const WarmC = 20

// CruiseReference is the speed, km/h, that a kind of road is driven at when nothing is noted.
var CruiseReference = [RoadCount]float64{50, 70, 80, 110, 30}

// Conditions are what the owner noted of a tank's driving. The two kinds of notes are never nil: tanks of which nothing was noted
// share empty ones, for in a long log of fills alone they would take most of the memory.
type Conditions struct {
	*Drives
	*PumpNote
	Days float64 // between the two brims
}

// A PumpNote is the one line that was noted at the pump of all the driving.
type PumpNote struct {
	TownShare   float64 // 0 to 1, unknown when not written
	Short, Pace string
}

var (
	noDrives   Drives
	noPumpNote = PumpNote{TownShare: quantity.Unknown}
)

// pumpNote is what a fill says of the driving before it.
func pumpNote(f *book.Fill) *PumpNote {
	if !quantity.Known(f.TownShare) && f.Short == "" && f.Pace == "" {
		return &noPumpNote
	}
	return &PumpNote{f.TownShare, f.Short, f.Pace}
}

// Drives are sums over the noted trips, each by the part of it that lies within the tank.
type Drives struct {
	Noted  float64            // km that trips cover
	Square float64            // sum of the squares of the trips' km: few long trips scatter more than many short ones
	Road   [RoadCount]float64 // km on each kind of road
	Roads  float64            // km of trips with a kind of road
	AirKm  float64            // km of trips with an air temperature
	Cold   float64            // km x degrees below WarmC, where the air is noted
	AirSum float64            // km x degrees C, where the air is noted

	StartsKm   float64 // km of trips whose cold starts are noted
	Starts     float64 // cold starts on them
	StartsCold float64 // starts x degrees below WarmC, where the air is noted too
	StartsAir  float64 // starts whose air is noted

	PaceKm, Easy, Brisk float64 // km with a pace, km of the two unusual ones
	Cruise              float64 // km x ((km/h)^2 - reference^2), where a speed is noted
	Load, Tow           float64 // km x kg
	IdleMin             float64
}

// NotedShare is the share of the tank's distance that trips cover.
func (t *Tank) NotedShare() float64 {
	if t.Km <= 0 {
		return 0
	}
	return min(1, t.Conditions.Noted/t.Km)
}

// AirC is the mean noted air temperature, unknown when none is.
func (t *Tank) AirC() float64 {
	if t.Conditions.AirKm == 0 {
		return quantity.Unknown
	}
	return t.Conditions.AirSum / t.Conditions.AirKm
}

// Town is the share of town driving: as the drives have it, and of what they leave as the pump's note has it; unknown where neither
// says much.
func (t *Tank) Town() float64 {
	n := t.Conditions
	if quantity.Known(n.TownShare) {
		over := max(1, n.Roads/t.Km) // noted twice
		return n.Road[Town]/over/t.Km + max(0, 1-n.Roads/t.Km)*n.TownShare
	}
	if n.Roads < leastNoted*t.Km {
		return quantity.Unknown
	}
	return n.Road[Town] / n.Roads
}

// leastNoted is the share of a tank's distance from which its noted drives stand for the rest.
const leastNoted = 0.2

// add counts km of a trip, of which whole is the full distance.
func (c *Conditions) add(t book.Trip, km, whole float64) {
	if km <= 0 || whole <= 0 {
		return
	}
	if c.Drives == &noDrives {
		c.Drives = &Drives{}
	}
	part := km / whole
	c.Noted += km
	c.Square += km * km
	reference := CruiseReference[Mixed]
	if k, ok := roadNamed[t.Road]; ok {
		c.Road[k] += km
		c.Roads += km
		reference = CruiseReference[k]
	}
	cold := math.Max(0, WarmC-t.AirC)
	air := quantity.Known(t.AirC)
	if air {
		c.AirKm += km
		c.Cold += km * cold
		c.AirSum += km * t.AirC
	}
	if quantity.Known(t.ColdStarts) {
		c.StartsKm += km
		c.Starts += part * t.ColdStarts
		if air {
			c.StartsAir += part * t.ColdStarts
			c.StartsCold += part * t.ColdStarts * cold
		}
	}
	switch t.Pace {
	case "easy":
		c.Easy += km
	case "brisk":
		c.Brisk += km
	}
	if t.Pace != "" {
		c.PaceKm += km
	}
	if quantity.Known(t.CruiseKmh) {
		c.Cruise += km * (t.CruiseKmh*t.CruiseKmh - reference*reference)
	}
	c.Load += km * quantity.Or(t.LoadKg, 0)
	c.Tow += km * quantity.Or(t.TowKg, 0)
	c.IdleMin += part * quantity.Or(t.IdleMin, 0)
}

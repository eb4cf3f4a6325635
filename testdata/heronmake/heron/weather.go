package heron

import (
	"math"
	"math/rand/v2"
	"time"
)

// monthly is the mean air temperature of a temperate maritime climate, January first, in degrees C; vehicle.toml
// carries the same twelve.
var monthly = [12]float64{4, 4, 6, 9, 12, 15, 17, 17, 14, 11, 7, 5}

// A weather is one day after another: the season, and spells that last some days.
type weather struct {
	rng   *rand.Rand
	spell float64
	wet   bool
}

func newWeather(rng *rand.Rand) *weather { return &weather{rng: rng} }

// next is the mean temperature of the day.
func (w *weather) next(day time.Time) float64 {
	const lasting, deviation = 0.75, 3.0
	w.spell = lasting*w.spell + math.Sqrt(1-lasting*lasting)*deviation*w.rng.NormFloat64()
	w.wet = w.rng.Float64() < 0.34
	return season(day) + w.spell
}

// season is the month's mean, carried smoothly from the middle of one month to the middle of the next.
func season(day time.Time) float64 {
	at := float64(day.Month()-1) + (float64(day.Day())-15)/30.4
	at = math.Mod(at+12, 12)
	m := int(at)
	part := at - float64(m)
	return monthly[m%12]*(1-part) + monthly[(m+1)%12]*part
}

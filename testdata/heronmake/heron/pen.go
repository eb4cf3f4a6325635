package heron

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"math"
	"math/rand/v2"
	"strconv"
	"time"
)

var (
	fillColumns = []string{"date", "odometer_mi", "volume_l", "full", "cost", "fuel", "missed", "gauge", "station",
		"town_share", "short_trips", "pace", "weak_low", "weak_high", "note"}
	tripColumns = []string{"date", "odometer_start_mi", "odometer_end_mi", "distance_mi", "road", "pace", "cruise_kmh", "air_c",
		"cold_starts", "idle_min", "load_kg", "tow_kg", "hard_start", "hard_start_hot", "rough_idle", "hesitation", "stumble",
		"surge", "stall", "knock", "backfire", "run_on", "weak_low", "weak_cruise", "weak_high", "overheating", "runs_cold", "note"}
	workColumns = []string{"id", "date", "odometer_mi", "kind", "area", "what", "readings", "cost", "hours", "idle_min",
		"fuel_lost_l", "note"}
)

// noted is the share of drives that get a row; test drives and trailers always do.
var noted = map[use]float64{commute: 0.85, errand: 0.72, choir: 0.74, outing: 0.88, pass: 1, trailer: 1, away: 0.9, test: 1}

// lost are the weeks without the notebook; the tank's note at the pump stands in.
var lost = [][2]time.Time{
	{date("2025-03-03"), date("2025-03-09")},
	{date("2025-11-17"), date("2025-12-05")},
	{date("2026-05-06"), date("2026-05-15")},
}

// talk is the share of brim fills with a tank's note all the same: an owner who is not content says more.
var talk = map[tune]float64{lively: 0.05, late: 0.25, retimed: 0.1, mild: 0.05, binding: 0.05}

// A visit is one stop at a pump.
type visit struct {
	day      time.Time
	odometer float64
	litres   float64
	price    float64 // GBP a litre
	fuel     string
	full     bool
	gauge    float64
	station  string
	next     leg // what the car is on its way to
}

// A pen is the owner writing the log.
type pen struct {
	rng                *rand.Rand
	notes              notes
	fills, trips, work [][]string
	legs               []leg // since the last brim
	forgotten          bool  // a fill since the last row
}

func newPen(rng *rand.Rand) *pen { return &pen{rng: rng, notes: newNotes()} }

// forget is a visit whose receipt was lost.
func (p *pen) forget() { p.forgotten = true }

func (p *pen) fill(v visit) {
	row := map[string]string{"date": v.day.Format(time.DateOnly), "odometer_mi": miles(v.odometer),
		"volume_l": fmt.Sprintf("%.2f", v.litres), "full": "yes", "fuel": v.fuel, "station": v.station}
	if p.rng.Float64() > 0.035 {
		row["cost"] = fmt.Sprintf("%.2f", v.litres*v.price)
	}
	if p.forgotten {
		row["missed"] = "yes"
	}
	if !v.full {
		row["full"], row["gauge"] = "no", number(math.Round(v.gauge*8)/8)
	}
	if share := p.rng.Float64(); v.full && (share < talk[tuneOn(v.day)] || unwrittenDays(p.legs) > 2) {
		p.tankNote(row, v)
	}
	row["note"] = p.notes.fill(v, p.forgotten, p.rng)
	p.fills = append(p.fills, cells(fillColumns, row))
	p.forgotten = false
	if v.full {
		p.legs = nil
	}
}

func (p *pen) trip(l leg) {
	p.legs = append(p.legs, l)
	known := p.rng.Float64() < noted[l.use]
	row := map[string]string{"date": l.day.Format(time.DateOnly), "road": l.road, "pace": l.pace}
	p.odometers(row, l)
	for name, some := range map[string]float64{"cruise_kmh": l.cruise, "idle_min": l.idle, "load_kg": l.load, "tow_kg": l.tow} {
		if some > 0 {
			row[name] = number(some)
		}
	}
	if p.rng.Float64() < 0.78 {
		row["air_c"] = number(math.Round(l.air) + 0) // no minus zero
	}
	if p.rng.Float64() < 0.94 {
		row["cold_starts"] = strconv.Itoa(l.starts)
	}
	if p.rng.Float64() < 0.1 {
		row["pace"] = ""
	}
	for name, grade := range judge(l, p.rng) {
		row[name] = grade
	}
	if !known || isLost(l.day) {
		return
	}
	row["note"] = p.notes.trip(l, p.rng)
	p.trips = append(p.trips, cells(tripColumns, row))
}

// odometers writes start and end, or where the start was not looked at, the end and the distance.
func (p *pen) odometers(row map[string]string, l leg) {
	row["odometer_end_mi"] = miles(l.to)
	if p.rng.Float64() < 0.03 {
		row["distance_mi"] = number(math.Floor(l.to) - math.Floor(l.from))
		return
	}
	row["odometer_start_mi"] = miles(l.from)
}

func (p *pen) job(j job, odometer float64) {
	row := map[string]string{"id": j.id, "date": j.date, "odometer_mi": miles(odometer), "kind": j.kind, "area": j.area,
		"what": j.what, "readings": j.readings, "cost": j.cost, "hours": number(j.hours), "note": j.note}
	if j.idleMin > 0 {
		row["idle_min"] = number(j.idleMin)
	}
	if j.lostL > 0 {
		row["fuel_lost_l"] = number(j.lostL)
	}
	p.work = append(p.work, cells(workColumns, row))
}

func (p *pen) files() map[string][]byte {
	return map[string][]byte{
		"fills.csv": table(fillColumns, p.fills),
		"trips.csv": table(tripColumns, p.trips),
		"work.csv":  table(workColumns, p.work),
	}
}

func isLost(day time.Time) bool {
	for _, l := range lost {
		if !day.Before(l[0]) && !day.After(l[1]) {
			return true
		}
	}
	return false
}

func cells(columns []string, row map[string]string) []string {
	out := make([]string, len(columns))
	for i, c := range columns {
		out[i] = row[c]
	}
	return out
}

func table(columns []string, rows [][]string) []byte {
	var text bytes.Buffer
	w := csv.NewWriter(&text)
	w.Write(columns)
	w.WriteAll(rows) // a buffer takes everything
	return text.Bytes()
}

func miles(odometer float64) string { return number(math.Floor(odometer)) }

func number(x float64) string { return strconv.FormatFloat(x, 'f', -1, 64) }

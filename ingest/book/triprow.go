package book

import (
	"fmt"
	"math"
	"slices"
	"sync"

	"brimlog/ingest/quantity"
)

// A tripRow is what gocsv fills. It makes two of each row and copies them, so the cells stand behind a pointer and
// serve again: that makes reading a fifth faster.
type tripRow struct {
	Line int // gocsv refuses a row without a field that it can see
	*tripCells
}

type tripCells struct {
	row
	Trip
	start, end, distance, air, cruise, load, tow, idle string // the column that was filled
}

var spareTrips = sync.Pool{New: func() any { return new(tripCells) }}

var tripSchema = newSchema(TripsFile, append([]column[tripCells]{
	{"date", quantity.Number, true, func(r *tripCells, c cell) { r.Date = c.moment() }},
	{"odometer_start_*", quantity.Km, false, func(r *tripCells, c cell) { c.only(&r.Start, &r.start, 0, farthest) }},
	{"odometer_end_*", quantity.Km, false, func(r *tripCells, c cell) { c.only(&r.End, &r.end, 0, farthest) }},
	{"distance_*", quantity.Km, false, func(r *tripCells, c cell) { c.only(&r.Km, &r.distance, 0, 1e5) }},
	{"road", quantity.Number, false, func(r *tripCells, c cell) { r.Road = c.word(roadWords) }},
	{"pace", quantity.Number, false, func(r *tripCells, c cell) { r.Pace = c.word(paceWords) }},
	{"cruise_*", quantity.KmPerHour, false, func(r *tripCells, c cell) { c.only(&r.CruiseKmh, &r.cruise, 0, 400) }},
	{"air_*", quantity.Celsius, false, func(r *tripCells, c cell) { c.only(&r.AirC, &r.air, -70, 70) }},
	{"cold_starts", quantity.Number, false, func(r *tripCells, c cell) { r.ColdStarts = c.figure(0, 1000) }},
	{"idle_*", quantity.Minute, false, func(r *tripCells, c cell) { c.only(&r.IdleMin, &r.idle, 0, 1e5) }},
	{"load_*", quantity.Kilogram, false, func(r *tripCells, c cell) { c.only(&r.LoadKg, &r.load, 0, 1e5) }},
	{"tow_*", quantity.Kilogram, false, func(r *tripCells, c cell) { c.only(&r.TowKg, &r.tow, 0, 1e5) }},
}, symptomColumns()...))

// symptomColumns are the columns that say how it drove, and the note behind them.
func symptomColumns() []column[tripCells] {
	var columns []column[tripCells]
	for s := range SymptomCount {
		columns = append(columns, column[tripCells]{s.String(), quantity.Number, false,
			func(r *tripCells, c cell) { r.Symptoms[s] = c.grade() }})
	}
	return append(columns, column[tripCells]{"note", quantity.Number, false, func(r *tripCells, c cell) { r.Note = c.note() }})
}

var blankTrip = tripCells{Trip: Trip{
	Start: unknown, End: unknown, Km: unknown, CruiseKmh: unknown, AirC: unknown, ColdStarts: unknown,
	IdleMin: unknown, LoadKg: unknown, TowKg: unknown}}

// UnmarshalCSVWithFields reads one cell; gocsv calls it with the column's code.
func (r *tripRow) UnmarshalCSVWithFields(code, text string) error {
	if r.tripCells == nil {
		r.tripCells = spareTrips.Get().(*tripCells)
		*r.tripCells = blankTrip
	}
	tripSchema.read(r.tripCells, &r.row, code, text)
	return nil
}

func (r *tripRow) done() { spareTrips.Put(r.tripCells) }

func (r *tripRow) room(b *Book, rows int) { b.Trips = slices.Grow(b.Trips, rows) }

// take ends the row's reading.
func (r *tripCells) take(b *Book, place Place, p *pass) {
	t := &r.Trip
	t.Place = place
	if t.Date.IsZero() {
		if !r.unplaced {
			r.lacks("date", isError, "want a date, got an empty cell: write one such as 2024-02-11")
		}
		return
	}
	r.third()
	t.Note = p.own(t.Note)
	b.Trips = append(b.Trips, *t)
}

// third finds the third of start, end and distance from the other two. Odometers that run backwards give
// no distance: whether one rolled over is for those to say who know the instrument.
func (r *tripCells) third() {
	t := &r.Trip
	shown := t.End - t.Start
	switch {
	case quantity.Known(shown) && shown >= 0:
		if off := math.Abs(t.Km - shown); off > 3.3+0.02*shown { // a mile lost at either end by reading whole ones
			unit := unitOf(r.distance)
			r.lacks(r.distance, isDoubt, fmt.Sprintf("want the distance between start and end, %s, got %s: the odometer is taken",
				quantity.Format(shown, unit), quantity.Format(t.Km, unit)))
			cell := quantity.Cell(shown, unit)
			r.problems[len(r.problems)-1].Suggestion = &cell
		}
		t.Km = shown
	case quantity.Known(shown):
	case quantity.Known(t.Start):
		t.End = t.Start + t.Km
	case t.End >= t.Km:
		t.Start = t.End - t.Km
	}
}

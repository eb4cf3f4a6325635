package book

import (
	"slices"
	"sync"

	"brimlog/ingest/quantity"
)

// The farthest that an odometer goes, in km, and the most fuel that one stop takes, in litres: bounds against nonsense.
const (
	farthest = 1e9
	mostFuel = 1e4
	mostPaid = 1e9
)

// noFigure is what a missing volume means for a row that is there already.
const noFigure = ": the tank that ends here has no figure"

// A fillRow is what gocsv fills. It makes two of each row and copies them, so the cells stand behind a pointer and
// serve again: that makes reading a fifth faster.
type fillRow struct {
	Line int // gocsv refuses a row without a field that it can see
	*fillCells
}

type fillCells struct {
	row
	Fill
	odometer, volume string // the column that was filled
}

var spareFills = sync.Pool{New: func() any { return new(fillCells) }}

var fillSchema = newSchema(FillsFile, []column[fillCells]{
	{"date", quantity.Number, true, func(r *fillCells, c cell) { r.Date = c.moment() }},
	{"odometer_*", quantity.Km, true, func(r *fillCells, c cell) { c.only(&r.Odometer, &r.odometer, 0, farthest) }},
	{"volume_*", quantity.Litre, true, func(r *fillCells, c cell) { c.only(&r.Litres, &r.volume, 0, mostFuel) }},
	{"full", quantity.Number, false, func(r *fillCells, c cell) { r.Full = c.yes(false) }},
	{"cost", quantity.Number, false, func(r *fillCells, c cell) { r.Cost = c.figure(0, mostPaid) }},
	{"fuel", quantity.Number, false, func(r *fillCells, c cell) { r.Fuel = c.note() }},
	{"missed", quantity.Number, false, func(r *fillCells, c cell) { r.Missed = c.yes(true) }},
	{"gauge", quantity.Number, false, func(r *fillCells, c cell) { r.Gauge = c.share() }},
	{"station", quantity.Number, false, func(r *fillCells, c cell) { r.Station = c.note() }},
	{"town_share", quantity.Percent, false, func(r *fillCells, c cell) { r.TownShare = c.figure(0, 1) }},
	{"short_trips", quantity.Number, false, func(r *fillCells, c cell) { r.Short = c.word(shortWords) }},
	{"pace", quantity.Number, false, func(r *fillCells, c cell) { r.Pace = c.word(paceWords) }},
	{"weak_low", quantity.Number, false, func(r *fillCells, c cell) { r.WeakLow = c.grade() }},
	{"weak_high", quantity.Number, false, func(r *fillCells, c cell) { r.WeakHigh = c.grade() }},
	{"note", quantity.Number, false, func(r *fillCells, c cell) { r.Note = c.note() }},
})

var blankFill = fillCells{Fill: Fill{
	Odometer: unknown, Litres: unknown, Full: true, Cost: unknown, Gauge: unknown, TownShare: unknown}}

// UnmarshalCSVWithFields reads one cell; gocsv calls it with the column's code.
func (r *fillRow) UnmarshalCSVWithFields(code, text string) error {
	if r.fillCells == nil {
		r.fillCells = spareFills.Get().(*fillCells)
		*r.fillCells = blankFill
	}
	fillSchema.read(r.fillCells, &r.row, code, text)
	return nil
}

func (r *fillRow) done() { spareFills.Put(r.fillCells) }

func (r *fillRow) room(b *Book, rows int) { b.Fills = slices.Grow(b.Fills, rows) }

// take ends the row's reading: what is missing, and what the row is then still good for.
func (r *fillCells) take(b *Book, place Place, p *pass) {
	f := &r.Fill
	f.Place = place
	switch {
	case f.Date.IsZero() && r.odometer == "" && r.volume == "":
		r.lacks("date", isError, "want a fill with date, odometer and volume, got none of them: complete the row or remove it")
	case f.Date.IsZero() && !r.unplaced:
		r.lacks("date", isError, "want a date, got an empty cell: write one such as 2024-02-11")
	}
	if f.Date.IsZero() {
		p.hole = p.hole || r.odometer != "" || r.volume != "" || r.unplaced
		return
	}
	if r.odometer == "" {
		r.lacks(p.column("odometer"), isDoubt,
			"want the odometer, got an empty cell: the fuel counts, but no tank can begin or end here")
	}
	if r.volume == "" {
		r.lacks(p.column("volume"), isError, "want a volume, got an empty cell"+noFigure)
	}
	if f.Litres == 0 {
		f.Litres = quantity.Unknown
		r.lacks(p.column("volume"), isError, "want a volume above zero, got 0"+noFigure)
	}
	if n := len(b.Fills) - 1; p.hole && n >= 0 { // before the first row nothing is cut
		later := f
		if b.Fills[n].Date.After(f.Date.Time) {
			later = &b.Fills[n] // the newest come first
		}
		later.Missed = true
	}
	p.hole = false
	f.Fuel, f.Station, f.Note = p.fuel(f.Fuel), p.same(f.Station), p.own(f.Note)
	b.Fills = append(b.Fills, *f)
}

package main

import (
	"strings"
	"unicode"

	"fmt"
	"math"

	"brimlog/ingest/book"
	"brimlog/ingest/quantity"
	"brimlog/ingest/tank"
	"brimlog/stats"
)

// A writtenDocument is what fill, trip and work answer with --json.
type writtenDocument struct {
	stats.Head
	File   string         `json:"file"`
	Line   int            `json:"line"`
	Row    book.Cells     `json:"row"`
	Doubts []book.Problem `json:"doubts"` // it was written in spite of them
	Tank   *closedTank    `json:"tank"`   // that the fill closed; null where it closed none
}

// A closedTank is a tank that a fill has just closed.
type closedTank struct {
	Number     int          `json:"number"`
	FromDate   string       `json:"from_date"`
	ToDate     string       `json:"to_date"`
	DistanceKm stats.Figure `json:"distance_km"`
	FuelL      stats.Figure `json:"fuel_l"`
	LPer100Km  stats.Figure `json:"l_per_100km"`
	MpgUK      stats.Figure `json:"mpg_uk"`
	MpgUS      stats.Figure `json:"mpg_us"`
	before     []float64    // L/100 km of the tanks before it, newest first
}

// tell says what was written. The row is on the disk by now: nothing that goes wrong here is a failure.
func (e *entry) tell(line int) error {
	e.landed = true
	b, err := book.Read(e.folder())
	if err != nil {
		b = e.log
	}
	closed := closedBy(b, e.file, line)
	if e.json {
		head := stats.Head{Book: b.Vehicle.Name, AsOf: b.Last().String(), Notes: e.notes}
		if head.Notes == nil {
			head.Notes = []string{}
		}
		if e.doubts == nil {
			e.doubts = []book.Problem{}
		}
		_ = e.document(writtenDocument{head, e.file, line, e.cells, e.doubts, closed})
		return nil
	}
	s := e.sheet(b.Vehicle.Show)
	s.answer("%s:%d: %s", e.file, line, e.summary(b, line))
	switch {
	case closed != nil:
		s.point("%s", s.closed(closed))
	case e.file == book.FillsFile:
		s.point("%s", openTank(b, line))
	}
	if e.file == book.FillsFile && len(b.Fills) == 1 {
		odometer, volume := e.unitOf("odometer"), e.unitOf("volume")
		s.point("a figure without a unit is read in %s and %s, as the headings of %s have it; another may stand behind it, as in --odometer %q --volume %q",
			odometer.Label(), volume.Label(), e.file, inAnother(odometer, "77590 km", "48213 mi"), inAnother(volume, "43.5 l", "11.5 gal_uk"))
	}
	for _, n := range e.notes {
		s.point("%s", n)
	}
	return nil
}

// inAnother is the example whose unit is not the file's own.
func inAnother(own quantity.Unit, base, other string) string {
	if own == own.Base() {
		return other
	}
	return base
}

// summary is the row in the owner's units.
func (e *entry) summary(b *book.Book, line int) string {
	s := e.sheet(b.Vehicle.Show)
	at := func(km float64) string { return quantity.Format(km, s.distance) }
	for _, f := range b.Fills {
		if e.file == book.FillsFile && f.Line == line {
			brim := "to the brim"
			if !f.Full {
				brim = "not to the brim"
			}
			return fmt.Sprintf("%s, %s, %s %s", f.Date, at(f.Odometer), quantity.Format(f.Litres, s.volume), brim)
		}
	}
	for _, t := range b.Trips {
		if e.file == book.TripsFile && t.Line == line {
			way := at(t.Km)
			if !quantity.Known(t.Km) {
				way = "of an unknown distance"
			}
			return fmt.Sprintf("%s, %s%s", t.Date, way, road(t.Road))
		}
	}
	for _, j := range b.Jobs {
		if e.file == book.WorkFile && j.Line == line {
			if j.Measure() {
				return fmt.Sprintf("%s, %s: what it read counts from now on in brimlog expect and suspects", j.Date, j.ID)
			}
			return fmt.Sprintf("%s, %s; ask what it changed with brimlog prove %s", j.Date, j.ID, inQuotes(j.ID))
		}
	}
	return "written"
}

// inQuotes writes an id as a shell takes it for one word.
func inQuotes(id string) string {
	if strings.ContainsFunc(id, func(r rune) bool {
		return !(r == '-' || r == '_' || r == '.' || unicode.IsLetter(r) || unicode.IsDigit(r))
	}) {
		return "'" + strings.ReplaceAll(id, "'", `'\''`) + "'"
	}
	return id
}

func road(kind string) string {
	switch kind {
	case "":
		return ""
	case "town", "track":
		return " in " + map[string]string{"town": "town", "track": "the rough"}[kind]
	}
	return " of " + kind + " road"
}

// closedBy finds the tank that the fill in a line closes, with the economy of up to five before it.
func closedBy(b *book.Book, file string, line int) *closedTank {
	if file != book.FillsFile {
		return nil
	}
	tanks := tank.Build(b).Tanks
	for i, t := range tanks {
		if t.Closes.Line != line {
			continue
		}
		economy := quantity.EconomyOf(t.Km, t.Litres)
		c := &closedTank{Number: t.Number, FromDate: t.Opens.Date.String(), ToDate: t.Closes.Date.String(), DistanceKm: stats.Figure(t.Km),
			FuelL: stats.Figure(t.Litres), LPer100Km: stats.Figure(economy.In(quantity.LPer100Km)), MpgUK: stats.Figure(economy.In(quantity.MpgUK)),
			MpgUS: stats.Figure(economy.In(quantity.MpgUS))}
		for _, before := range tanks[max(0, i-5):i] {
			c.before = append(c.before, float64(quantity.EconomyOf(before.Km, before.Litres)))
		}
		return c
	}
	return nil
}

// closed says what the tank gave, beside those before it.
func (s *sheet) closed(c *closedTank) string {
	text := fmt.Sprintf("it closes tank %d: %s over %s", c.Number, quantity.Format(float64(c.LPer100Km), s.economy), quantity.Format(float64(c.DistanceKm), s.distance))
	if len(c.before) < 2 {
		return text
	}
	low, high := math.Inf(1), math.Inf(-1)
	for _, x := range c.before {
		low, high = min(low, x), max(high, x)
	}
	return fmt.Sprintf("%s; the %d before it gave %s", text, len(c.before), s.span(stats.Range{Low: stats.Figure(low), High: stats.Figure(high)}))
}

// openTank says why a fill closed no tank, and what would.
func openTank(b *book.Book, line int) string {
	for _, f := range b.Fills {
		switch {
		case f.Line != line:
		case !f.Full:
			return "a part fill: it counts in the tank that the next brim fill closes"
		case f.Missed:
			return "no tank spans the fill that was not written down: this one opens the next"
		case !quantity.Known(f.Odometer):
			return "without the odometer no tank can end here: the fuel counts in the one that goes on"
		}
	}
	return "it opens a tank, which the next brim fill closes"
}

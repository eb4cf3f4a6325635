package foreign

import (
	"math"
	"strings"

	"brimlog/ingest/book"
	"brimlog/ingest/quantity"
)

// known are the rows that the log has already, each of which answers for one row of the sheet.
type known struct {
	days map[string][]entry
	ids  map[string]bool
}

// An entry is what tells one row of a file from another.
type entry struct {
	at      [3]float64 // odometer and litres of a fill; start, end and distance of a trip; odometer of a job
	words   string
	line    int
	matched bool
	sheet   bool // it came with this sheet
}

// newKnown reads the log's own rows. A folder that is no logbook is an error.
func newKnown(dir, file string) (*known, error) {
	k := &known{days: map[string][]entry{}, ids: map[string]bool{}}
	b, err := book.Read(dir)
	if err != nil {
		return nil, err
	}
	switch file {
	case book.FillsFile:
		for _, f := range b.Fills {
			k.add(f.Date, entry{at: [3]float64{f.Odometer, f.Litres, quantity.Unknown}, line: f.Line})
		}
	case book.TripsFile:
		for _, t := range b.Trips {
			k.add(t.Date, entry{at: [3]float64{t.Start, t.End, t.Km}, words: t.Road, line: t.Line})
		}
	case book.WorkFile:
		for _, j := range b.Jobs {
			k.ids[j.ID] = true
			k.add(j.Date, entry{at: [3]float64{j.Odometer, quantity.Unknown, quantity.Unknown}, words: fold(j.What), line: j.Line})
		}
	}
	return k, nil
}

func (k *known) add(date book.Moment, e entry) {
	day := date.Format("2006-01-02")
	k.days[day] = append(k.days[day], e)
}

// How far two notes of the same figure may lie apart: a whole figure of a mile's odometer, and litres rounded to a tenth.
const (
	sameKm     = 1.7
	sameLitres = 0.06
)

// match tells whether a row is there already: in the log, or earlier in the sheet. Each row of the log answers once; a trip
// without readings may well be driven twice a day, so those of the sheet never answer for one another.
func (k *known) match(file, day string, e entry) (inLog, inSheet bool, clash int) {
	placed := quantity.Known(e.at[0])
	for i := range k.days[day] {
		have := &k.days[day][i]
		same := alike(file, have, &e)
		switch {
		case same && have.sheet && placed:
			return false, true, 0
		case same && !have.sheet && !have.matched:
			have.matched = true
			return true, false, 0
		case !same && !have.sheet && file == book.FillsFile && placed && math.Abs(have.at[0]-e.at[0]) <= 0.1 && !have.matched:
			clash = have.line
		}
	}
	return false, false, clash
}

// take remembers a row of the sheet.
func (k *known) take(day string, e entry) {
	e.sheet = true
	k.days[day] = append(k.days[day], e)
}

func alike(file string, a, b *entry) bool {
	switch file {
	case book.FillsFile:
		return near(a.at[0], b.at[0], sameKm, true) && near(a.at[1], b.at[1], sameLitres, false)
	case book.TripsFile:
		placed := quantity.Known(a.at[0]) && quantity.Known(b.at[0]) || quantity.Known(a.at[1]) && quantity.Known(b.at[1])
		return near(a.at[0], b.at[0], sameKm, true) && near(a.at[1], b.at[1], sameKm, true) && near(a.at[2], b.at[2], sameKm, placed) &&
			(a.words == b.words || a.words == "" || b.words == "")
	}
	return a.words == b.words && near(a.at[0], b.at[0], sameKm, true)
}

// near compares two figures; where one is not known, lenient decides.
func near(a, b, tolerance float64, lenient bool) bool {
	if !quantity.Known(a) || !quantity.Known(b) {
		return lenient || quantity.Known(a) == quantity.Known(b)
	}
	return math.Abs(a-b) <= tolerance
}

// newID makes an id for a job that has none: of its words, with a number where that is taken.
func (k *known) newID(words string) string {
	parts := strings.Fields(fold(words))
	if len(parts) > 2 {
		parts = parts[:2]
	}
	stem := strings.Join(parts, "-")
	if stem == "" {
		stem = "work"
	}
	id := stem
	for n := 2; k.ids[id]; n++ {
		id = stem + "-" + itoa(n)
	}
	k.ids[id] = true
	return id
}

package foreign

import (
	"hash/fnv"
	"math"
	"strings"
	"time"

	"brimlog/ingest/book"
	"brimlog/ingest/quantity"
)

// known are the rows that the log has already, each of which answers for one row of the sheet, and those of the sheet so far.
// They are found by their day and by where their figures lie in a coarse grid, so that a day of a million rows takes no
// longer than a million days.
type known struct {
	file    string
	entries []entry
	first   map[spot]int32 // the entry that leads the chain of a spot, counted from 1
	ids     map[string]bool
	numbers map[string]int // the last number that was put behind a word to make an id
}

// An entry is what tells one row of a file from another.
type entry struct {
	day     int32
	at      float64 // km: odometer of a fill or a job, start of a trip
	size    float64 // litres of a fill, km of a trip
	words   string  // road of a trip, what was done in a job
	line    int     // in the log; 0 for one of the sheet
	matched bool
	next    [3]int32
}

// A spot is a day and a cell of the grid.
type spot struct{ day, at, size int32 }

const (
	nowhere int32 = math.MinInt32 + iota // the figure is not known
	anyhow                               // whatever the figure is
)

// How far two notes of the same figure may lie apart: a whole figure of a mile's odometer, and litres rounded to a tenth. The
// grid is a little coarser.
const (
	sameKm     = 1.7
	sameLitres = 0.06
	gridKm     = 2.0
	gridLitres = 0.1
)

// newKnown reads the log's own rows. A folder that is no logbook is an error.
func newKnown(dir, file string) (*known, error) {
	k := &known{file: file, first: map[spot]int32{}, ids: map[string]bool{}, numbers: map[string]int{}}
	b, err := book.Read(dir)
	if err != nil {
		return nil, err
	}
	switch file {
	case book.FillsFile:
		for _, f := range b.Fills {
			k.add(entry{day: dayOf(f.Date), at: f.Odometer, size: f.Litres, line: f.Line})
		}
	case book.TripsFile:
		for _, t := range b.Trips {
			k.add(entry{day: dayOf(t.Date), at: t.Start, size: t.Km, words: t.Road, line: t.Line})
		}
	case book.WorkFile:
		for _, j := range b.Jobs {
			k.ids[j.ID] = true
			k.add(entry{day: dayOf(j.Date), at: j.Odometer, size: quantity.Unknown, words: fold(j.What), line: j.Line})
		}
	}
	return k, nil
}

func dayOf(m book.Moment) int32 { return int32(m.Unix() / int64(24*time.Hour/time.Second)) }

func cellOf(x, grid float64) int32 {
	if !quantity.Known(x) {
		return nowhere
	}
	return int32(math.Floor(min(x, 1e8) / grid))
}

// spots are where an entry is found: by both figures, by its size alone, by its place alone.
func (k *known) spots(e *entry) [3]spot {
	grid := gridKm
	if k.file == book.FillsFile {
		grid = gridLitres
	}
	at, size := cellOf(e.at, gridKm), cellOf(e.size, grid)
	if k.file == book.WorkFile {
		h := fnv.New32a()
		h.Write([]byte(e.words)) // never fails
		size = int32(h.Sum32() >> 1)
	}
	return [3]spot{{e.day, at, size}, {e.day, anyhow, size}, {e.day, at, anyhow}}
}

// add puts an entry at the head of its chains. Rows of the sheet are only looked for by both figures.
func (k *known) add(e entry) {
	k.entries = append(k.entries, e)
	n := int32(len(k.entries))
	for i, s := range k.spots(&e) {
		if i == 0 || e.line > 0 {
			k.entries[n-1].next[i] = k.first[s]
			k.first[s] = n
		}
	}
}

// find gives the first entry of a chain that will do, past those at its head that have answered.
func (k *known) find(s spot, chain int, will func(*entry) bool) *entry {
	const most = 64 // that are near and still not alike
	for n, tried := k.first[s], 0; n > 0 && tried < most; tried++ {
		e := &k.entries[n-1]
		if will(e) {
			return e
		}
		if e.matched && k.first[s] == n {
			k.first[s], tried = e.next[chain], tried-1
		}
		n = e.next[chain]
	}
	return nil
}

// match tells whether a row is there already: in the log, or earlier in the sheet. Each row of the log answers once; a trip
// without readings may well be driven twice a day, so those of the sheet answer for one another only where they have a
// place. A clash is the line of a fill at the same reading on the same day, with another volume.
func (k *known) match(e *entry) (inLog, inSheet bool, clash int) {
	placed := quantity.Known(e.at)
	alike := func(have *entry) bool {
		return k.alike(have, e) && (have.line > 0 && !have.matched || have.line == 0 && placed && quantity.Known(have.at))
	}
	own := k.spots(e)[0]
	sizes := []int32{own.size, own.size - 1, own.size + 1}
	if own.size == nowhere || k.file == book.WorkFile {
		sizes = sizes[:1]
	}
	for _, size := range sizes {
		spots, chain := []spot{{e.day, anyhow, size}}, 1
		if placed {
			spots, chain = []spot{{e.day, own.at, size}, {e.day, own.at - 1, size}, {e.day, own.at + 1, size}, {e.day, nowhere, size}}, 0
		}
		for _, s := range spots {
			if have := k.find(s, chain, alike); have != nil {
				have.matched = have.line > 0
				return have.line > 0, have.line == 0, 0
			}
		}
	}
	if placed && k.file == book.FillsFile {
		at := func(have *entry) bool { return !have.matched && math.Abs(have.at-e.at) <= 0.1 }
		if have := k.find(spot{e.day, own.at, anyhow}, 2, at); have != nil {
			clash = have.line
		}
	}
	return false, false, clash
}

func (k *known) alike(a, b *entry) bool {
	switch k.file {
	case book.FillsFile:
		return near(a.at, b.at, sameKm, true) && near(a.size, b.size, sameLitres, false)
	case book.TripsFile:
		return near(a.at, b.at, sameKm, true) && near(a.size, b.size, sameKm, false) && (a.words == b.words || a.words == "" || b.words == "")
	}
	return a.words == b.words && near(a.at, b.at, sameKm, true)
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
	for n := max(2, k.numbers[stem]+1); k.ids[id]; n++ {
		id = stem + "-" + itoa(n)
		k.numbers[stem] = n
	}
	k.ids[id] = true
	return id
}

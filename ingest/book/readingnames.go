package book

import (
	"maps"
	"slices"
	"strings"

	"brimlog/ingest/quantity"
)

// likelyNames are the names of readings that an unknown one was most likely meant to be; none where it is near to none, and so
// the owner's own.
func likelyNames(name string) (likely []string) {
	stem, unit := quantity.SplitColumn(name)
	least := len(name)
	for _, known := range slices.Sorted(maps.Keys(gauges)) {
		s, u := quantity.SplitColumn(known)
		if s == stem && unit != quantity.Number && u.Quantity() == unit.Quantity() {
			return nil // the same thing in another unit
		}
		d := mistakes(name, known)
		if d > max(1, max(len(name), len(known))/3) || d > least {
			continue
		}
		if d < least {
			likely = likely[:0]
		}
		likely, least = append(likely, known), d
	}
	if likely != nil {
		return likely
	}
	return misspeltFirst(name)
}

// misspeltFirst are the names of the same unit whose first word is one or two letters off: timming_deg.
func misspeltFirst(name string) (likely []string) {
	first, rest, _ := strings.Cut(name, "_")
	for _, known := range slices.Sorted(maps.Keys(gauges)) {
		word, more, _ := strings.Cut(known, "_")
		if d := mistakes(first, word); d > 0 && d <= len(word)/4 && lastWord(rest) == lastWord(more) {
			likely = append(likely, known)
		}
	}
	return likely
}

func lastWord(s string) string { return s[strings.LastIndexByte(s, '_')+1:] }

// misspelt reports the readings whose names look like slips: they are kept as they stand, and nothing is read from them.
func (r *row) misspelt(c cell, readings []Reading) {
	for _, reading := range readings {
		if _, known := gauges[reading.Name]; known {
			continue
		}
		likely := likelyNames(reading.Name)
		if len(likely) == 0 {
			continue
		}
		p := Problem{Column: c.column, Kind: unknownWord, Severity: isDoubt, Message: "reading " + quote(reading.Name) +
			" is kept, but the program knows no such name: was " + listed(likely) + " meant?"}
		if mended := c.swapped(reading.Name, likely[0]); len(likely) == 1 && mended != c.text {
			p.Suggestion = &mended
		}
		r.problems = append(r.problems, p)
	}
}

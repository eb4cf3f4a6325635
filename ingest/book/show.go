package book

import (
	"fmt"
	"strconv"
	"strings"
	"unicode/utf8"

	"brimlog/ingest/quantity"
)

// complete fills what [show] leaves open from the units that the owner's fills are written in: miles with US gallons read
// in mpg_us, other miles in mpg_uk, all else in l_100km.
func (s *Show) complete(fills *pass) {
	if s.Distance == "" {
		s.Distance = fills.odometer.String()
	}
	volume := quantity.Litre
	if column := fills.column("volume"); column != "volume" {
		volume = unitOf(column)
	}
	if s.Volume == "" {
		s.Volume = volume.String()
	}
	switch {
	case s.Economy != "":
	case s.Distance == "km":
		s.Economy = "l_100km"
	case s.Volume == "gal_us":
		s.Economy = "mpg_us"
	default:
		s.Economy = "mpg_uk"
	}
}

// Visible writes text of a file in one line, with nothing in it that a terminal would obey: control characters and what is no
// UTF-8 are escaped, all else, quotes included, is as in the file.
func Visible(text string) string {
	var b strings.Builder
	for i, w := 0, 0; i < len(text); i += w {
		var r rune
		r, w = utf8.DecodeRuneInString(text[i:])
		switch {
		case r == utf8.RuneError && w == 1:
			fmt.Fprintf(&b, `\x%02x`, text[i])
		case r == ' ' || strconv.IsPrint(r):
			b.WriteRune(r)
		default:
			q := strconv.QuoteRune(r)
			b.WriteString(q[1 : len(q)-1])
		}
	}
	return b.String()
}

// lineless is a row without the line end before or after it.
func lineless(row []byte) string { return strings.Trim(string(row), "\r\n") }

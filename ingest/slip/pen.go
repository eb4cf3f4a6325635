package slip

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"brimlog/ingest/quantity"
)

// How often a row carries each slip. The figures are assumed, from common experience with logs kept by hand, and rather high: what a
// story has to overcome is chosen with them. Only their order of size counts.
const (
	wrongDigit    = 6e-3 // and which one, and for which
	exchanged     = 4e-3
	digitDropped  = 1.2e-3
	digitAdded    = 6e-4
	strangeStyle  = 0.05 // a figure with more decimals than the others of its column
	shortStyle    = 0.6  // with fewer
	pointMoved    = 2e-3
	pointFar      = 3e-4 // by more than one place
	otherUnit     = 2e-3
	tripWritten   = 8e-4 // the trip counter in place of the odometer
	writtenAgain  = 2e-3 // the reading of the fill before once more
	thousandsMark = 1e-3 // a point for it: 66.955 for 66955
	leftOut       = 2e-2 // a fill
	notBrimmed    = 0.08
	noStory       = 5e-5 // wrong, but no slip that is known explains how
	anyReading    = 1e5  // and the reading might be any of so many
	daySwapped    = 2.5e-3
	wrongYear     = 1.5e-3
	wrongMonth    = 8e-4
	wrongDateMark = 1e-3
)

// A variant is what may have been meant by a number as written.
type variant struct {
	number string
	kind   string        // of the slip
	prior  float64       // ln of how often such a slip turns the one into the other
	from   quantity.Unit // in which it was written, where that is the slip
}

// digitSlips are the numbers that one slip of the pen at a digit turns into the one written.
func digitSlips(written, kind string) (all []variant) {
	whole := strings.IndexByte(written+".", '.')
	digits := float64(whole + min(decimals(written), 3))
	add := func(s string, p float64) {
		if s != written && s != "" && (s[0] != '0' || written[0] == '0' || strings.HasPrefix(s, "0.")) {
			all = append(all, variant{number: s, kind: kind, prior: math.Log(p)})
		}
	}
	for i := range len(written) {
		if written[i] == '.' {
			continue
		}
		for d := byte('0'); d <= '9'; d++ {
			add(written[:i]+string(d)+written[i+1:], wrongDigit/(9*digits))
		}
		if k := nextDigit(written, i); k > 0 && written[i] != written[k] {
			b := []byte(written)
			b[i], b[k] = b[k], b[i]
			add(string(b), exchanged/max(1, digits-1))
		}
		if digits > 2 {
			p := digitAdded / (10 * digits)
			if i > 0 && written[i] == written[i-1] {
				p *= 10 // most often one is typed twice
			}
			add(written[:i]+written[i+1:], p)
		}
	}
	for i := 0; i <= whole; i++ {
		for d := byte('0'); d <= '9'; d++ {
			if i == 0 || written[i-1] != d {
				add(written[:i]+string(d)+written[i:], digitDropped/(digits+1))
			}
		}
	}
	return all
}

// inAnotherUnit is the number that was meant where one of the unit from was written in the place of one of the unit to.
func inAnotherUnit(written string, from, to quantity.Unit, decimals int, often float64) variant {
	return variant{rounded(to.FromBase(from.ToBase(number(written))), decimals), unitSlip, math.Log(often), from}
}

// styled holds variants against the decimals that their column is usually written with.
func styled(all []variant, usually int) []variant {
	if usually < 0 {
		return all
	}
	for i := range all {
		switch d := decimals(all[i].number); {
		case all[i].kind == unitSlip: // what it is converted to is nobody's style
		case d > usually:
			all[i].prior += math.Log(strangeStyle)
		case d < usually:
			all[i].prior += math.Log(shortStyle)
		}
	}
	return all
}

// merged makes one of variants that come to the same number.
func merged(all []variant) []variant {
	slices.SortStableFunc(all, func(a, b variant) int { return strings.Compare(a.number, b.number) })
	kept := all[:0]
	for _, v := range all {
		if n := len(kept); n > 0 && kept[n-1].number == v.number {
			if v.prior > kept[n-1].prior {
				kept[n-1].kind, kept[n-1].from = v.kind, v.from
			}
			kept[n-1].prior = lnAdd(kept[n-1].prior, v.prior)
			continue
		}
		kept = append(kept, v)
	}
	return kept
}

// nextDigit is where the next digit after i stands, 0 for none.
func nextDigit(s string, i int) int {
	for k := i + 1; k < len(s); k++ {
		if s[k] != '.' {
			return k
		}
	}
	return 0
}

// pointSlips are the numbers whose decimal point has gone astray, by up to that many places.
func pointSlips(written string, places int) (all []variant) {
	for by := -places; by <= places; by++ {
		p := pointMoved / 2
		if by < -1 || by > 1 {
			p = pointFar
		}
		if s := shifted(written, by); by != 0 && s != "" {
			all = append(all, variant{number: s, kind: decimal, prior: math.Log(p)})
		}
	}
	return all
}

// shifted moves the decimal point to the right, or to the left by less than nought.
func shifted(s string, by int) string {
	at := strings.IndexByte(s+".", '.')
	digits := strings.Replace(s, ".", "", 1)
	if at += by; at <= 0 {
		digits, at = strings.Repeat("0", 1-at)+digits, 1
	}
	if at > len(digits) {
		digits += strings.Repeat("0", at-len(digits))
	}
	whole := strings.TrimLeft(digits[:at], "0")
	if whole == "" {
		whole = "0"
	}
	if digits[at:] == "" {
		return whole
	}
	return whole + "." + digits[at:]
}

// decimals is how many a number is written with.
func decimals(s string) int {
	if i := strings.IndexByte(s, '.'); i >= 0 {
		return len(s) - i - 1
	}
	return 0
}

// rounded writes x with that many decimals.
func rounded(x float64, decimals int) string { return strconv.FormatFloat(x, 'f', decimals, 64) }

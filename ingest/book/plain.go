package book

import (
	"regexp"
	"strings"

	"brimlog/ingest/quantity"
)

// The marks that people put into figures, where they leave one reading only.
var (
	money     = regexp.MustCompile(`^(?:\p{Sc}|[A-Z]{3})?\s*([-+]?\d.*?\d|[-+]?\d)\s*(?:\p{Sc}|[A-Z]{3})?$`)
	marked    = regexp.MustCompile(`^([-+]?)(\d[\d.,' \x{a0}\x{202f}]*\d)(.*)$`)
	thousands = regexp.MustCompile(`^\d{1,3}(?:,\d{3})+\.\d+$|^\d{1,3}(?:,\d{3}){2,}$|^\d{1,3}(?:[' \x{a0}\x{202f}]\d{3})+(?:\.\d+)?$`)
	continent = regexp.MustCompile(`^\d{1,3}(?:[.' \x{a0}\x{202f}]\d{3})+,\d+$`)
	oneComma  = regexp.MustCompile(`^(\d+),(\d+)$`)
)

// Plain is a figure of a column as the program writes it, with a decimal point and no other marks: £62.10 paid is 62.10, an odometer at
// 47,900 is 47900, 39,5 litres are 39.5. A text that can be read in two ways, or is no figure, is given back as it is.
func Plain(column, text string) string {
	s := strings.TrimSpace(text)
	stem, _ := quantity.SplitColumn(column)
	if stem == "cost" {
		if m := money.FindStringSubmatch(s); m != nil {
			s = m[1]
		}
	}
	m := marked.FindStringSubmatch(s)
	if m == nil {
		return s
	}
	number, ok := unmarked(m[2], strings.HasPrefix(stem, "odometer"))
	if !ok {
		return s
	}
	return m[1] + number + m[3]
}

// unmarked takes the marks out of a number. Three digits behind a single comma may be decimals, but for an odometer, which shows a tenth at
// most.
func unmarked(s string, odometer bool) (plain string, ok bool) {
	digits := strings.NewReplacer(",", "", ".", "", "'", "", " ", "", "\u00a0", "", "\u202f", "")
	comma := oneComma.FindStringSubmatch(s)
	switch {
	case thousands.MatchString(s):
		whole, tenths, point := strings.Cut(s, ".")
		if whole = digits.Replace(whole); point {
			whole += "." + tenths
		}
		return whole, true
	case continent.MatchString(s):
		whole, tenths, _ := strings.Cut(s, ",")
		return digits.Replace(whole) + "." + tenths, true
	case comma == nil:
		return "", false
	case len(comma[2]) == 3 && len(comma[1]) <= 3 && comma[1][0] != '0':
		return comma[1] + comma[2], odometer
	}
	return comma[1] + "." + comma[2], !odometer || len(comma[2]) == 1
}

// plain takes the marks out of a figure that people write into it; all other text stays.
func (c *composer) plain(key, text string) string {
	stem, own := quantity.SplitColumn(key)
	info := c.lookup(key)
	if !info.known || info.unit == quantity.Number && key != "cost" {
		return text
	}
	if plain := Plain(key, text); plain != text {
		if own == quantity.Number {
			own = info.unit
		}
		if _, err := quantity.Parse(plain, own); err == nil && stem != "" {
			return plain
		}
	}
	return text
}

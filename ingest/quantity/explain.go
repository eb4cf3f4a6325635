package quantity

import (
	"regexp"
	"strings"
)

// explain finds out why s is no plain number, and says what to write instead.
func explain(s string) error {
	if len(s) > 4*maxDigits {
		return badNumber(s, "a number of at most 24 digits", "")
	}
	for _, c := range mistakes {
		if m := c.looks.FindStringSubmatch(s); m != nil {
			return badNumber(s, c.want, c.mend(m))
		}
	}
	return badNumber(s, "a number such as 48213 or 52.31", "")
}

// mistakes are the ways in which numbers go wrong, the likeliest reading first.
var mistakes = []struct {
	looks *regexp.Regexp
	want  string
	mend  func(match []string) string
}{
	{looks(`^$`), "a number, and there is none: write one such as 52.31", none},
	{looks(`^[-+]?\d{1,3}(,\d{3})+\.\d*$`), "a number without thousands marks: leave the commas out", without(",")},
	{looks(`^[-+]?\d{1,3}(,\d{3}){2,}$`), "a number without thousands marks: leave the commas out", without(",")},
	{looks(`^[-+]?\d{1,3},\d{3}$`),
		"one reading (a comma can mark thousands or decimals): leave it out, or write a point", none},
	{looks(`^([-+]?\d+),(\d+)$`), "a decimal point, not a comma", point},
	{looks(`^[-+]?\d{1,3}(\.\d{3})+,\d*$`), "a number without thousands marks, with a decimal point", none},
	{looks(`^[-+]?\d[\d ']*[ '\x{a0}\x{202f}]\d+(\.\d+)?$`),
		"a number without blanks or marks between its digits", without(" ", "'", "\u00a0", "\u202f")},
	{looks(`(?i)^[-+]?0x`), "a decimal number, not a hexadecimal one: write it out", none},
	{looks(`(?i)^[-+]?[\d.]+e[-+]?\d+$`), "a number without powers of ten: write all digits out", none},
	{looks(`(?i)^[-+]?(nan|inf|infinity|#.*|n/a|-|\?)$`), "a number, or an empty cell where it is not known", none},
	{looks(`^[£$€]\s*(\d+(\.\d+)?)$`), "the number alone, without a currency sign", inner},
	{looks(`^(\d+(\.\d+)?)\s*[£$€]$`), "the number alone, without a currency sign", inner},
	{looks(`\d[\d.]{24,}`), "a number of at most 24 digits", none},
}

func looks(pattern string) *regexp.Regexp { return regexp.MustCompile(pattern) }

func none([]string) string { return "" }

func inner(m []string) string { return m[1] }

func point(m []string) string { return m[1] + "." + m[2] }

func without(marks ...string) func([]string) string {
	return func(m []string) string {
		s := m[0]
		for _, k := range marks {
			s = strings.ReplaceAll(s, k, "")
		}
		return s
	}
}

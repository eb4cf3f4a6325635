package foreign

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// The readings of a sheet's numbers, by their decimal mark.
const (
	point = iota
	comma
)

var decimalNames = []string{"point", "comma"}

var decimalMarks = []byte{'.', ','}

// A figure is a cell taken apart: sign and digits with their marks, and what stands behind them.
type figure struct {
	digits string
	suffix string
}

// nothing are cells by which people say that there is no figure.
var nothing = wordSet("-,–,—,--,n/a,na,?,.,nil,unknown,keine,keiner,inconnu,okänd")

// empty tells whether a cell of figures says nothing.
func empty(cell string) bool { return cell == "" || nothing[strings.ToLower(cell)] }

// takeFigure parts a cell; ok is false where it holds no digit, or anything before the digits but a sign and a currency.
func takeFigure(cell string) (f figure, ok bool) {
	s := strings.TrimSpace(cell)
	sign := ""
	for s != "" && !digit(s[0]) {
		r, n := utf8.DecodeRuneInString(s)
		switch {
		case (r == '-' || r == '−') && sign == "":
			sign = "-"
		case r == '+' && sign == "":
			sign = "+"
		case (r == '.' || r == ',') && len(s) > 1 && digit(s[1]):
			return takeDigits(sign, s)
		case unicode.IsSpace(r):
		default:
			if n = currency(s); n == 0 {
				return figure{}, false
			}
		}
		s = s[n:]
	}
	return takeDigits(sign, s)
}

func digit(c byte) bool { return c >= '0' && c <= '9' }

// currency is the length of the currency that a text begins with.
func currency(s string) int {
	if r, n := utf8.DecodeRuneInString(s); unicode.Is(unicode.Sc, r) {
		return n
	}
	n := 0
	for n < len(s) && (s[n]|0x20 >= 'a' && s[n]|0x20 <= 'z') {
		n++
	}
	if n > 0 && moneyWords[strings.ToLower(s[:n])] {
		if n < len(s) && s[n] == '.' {
			n++
		}
		return n
	}
	return 0
}

// takeDigits takes the digits and the marks between them.
func takeDigits(sign, s string) (figure, bool) {
	end := 0
	for i, r := range s {
		switch {
		case r >= '0' && r <= '9':
			end = i + 1
		case r == '.' || r == ',' || blankMark(r) || quoteMark(r):
		default:
			return figure{sign + s[:end], strings.TrimSpace(s[end:])}, end > 0
		}
	}
	return figure{sign + s[:end], strings.TrimSpace(s[end:])}, end > 0
}

func blankMark(r rune) bool {
	return r == ' ' || r == '\u00a0' || r == '\u202f' || r == '\u2009' || r == '\u2007'
}

func quoteMark(r rune) bool { return r == '\'' || r == '’' || r == '\u02bc' }

// longestNumber bounds a number's length: no instrument of a vehicle shows more.
const longestNumber = 40

// read gives the number as the logbook writes it, by one of the readings; "" where it is none by that reading. Thousands
// come in threes, behind one to three digits, with the same mark between all of them.
func (f figure) read(decimal int) string {
	s := f.digits
	if len(s) > longestNumber {
		return ""
	}
	sign := ""
	if s[0] == '-' {
		sign = "-"
	}
	s = strings.TrimLeft(s, "+-")
	whole, fraction, broken := strings.Cut(s, string(decimalMarks[decimal]))
	if broken && (fraction == "" || strings.Trim(fraction, "0123456789") != "") {
		return ""
	}
	whole, ok := ungroup(whole)
	switch {
	case !ok || whole == "" && !broken:
		return ""
	case whole == "":
		whole = "0"
	}
	if broken {
		return sign + whole + "." + fraction
	}
	return sign + whole
}

// ungroup takes the thousands marks out of a whole number.
func ungroup(s string) (string, bool) {
	var mark rune
	var groups []string
	from := 0
	for i, r := range s {
		if r >= '0' && r <= '9' {
			continue
		}
		if mark != 0 && r != mark {
			return "", false
		}
		mark = r
		groups = append(groups, s[from:i])
		from = i + utf8.RuneLen(r)
	}
	groups = append(groups, s[from:])
	for i, g := range groups {
		if len(groups) > 1 && (len(g) != 3 && i > 0 || i == 0 && (len(g) < 1 || len(g) > 3 || g[0] == '0')) {
			return "", false
		}
	}
	return strings.Join(groups, ""), true
}

// readings is what each reading makes of the number.
func (f figure) readings() []string { return []string{f.read(point), f.read(comma)} }

// roundMoney are the ends of a sum of money that has no hundredths: 78,- and the like.
var roundMoney = []string{",-", ".-", ",–", ",—", ".–"}

func trimMoney(cell string) string {
	for _, end := range roundMoney {
		if whole, ok := strings.CutSuffix(cell, end); ok {
			return whole
		}
	}
	return cell
}

package quantity

import "strconv"

// Format writes x, in base units, in the unit u with its label, rounded to what people care to read: "48213 miles",
// "18.4 mpg (UK)". An unknown figure is a dash.
func Format(x float64, u Unit) string {
	s := FormatNumber(x, u)
	switch {
	case s == dash || scales[u].label == "":
		return s
	case u == Percent:
		return s + " %"
	}
	return s + " " + scales[u].label
}

// FormatNumber is Format without the label, for tables whose heading carries it.
func FormatNumber(x float64, u Unit) string { return fixed(u.FromBase(x), scales[u].decimals) }

// Cell writes x, in base units, as a cell of a column in the unit u: a plain number with as many decimals as it needs, at
// most three, which is finer than any pump, instrument or scale in a garage.
func Cell(x float64, u Unit) string {
	y := u.FromBase(x)
	if !Known(y) {
		return ""
	}
	s := strconv.FormatFloat(y, 'f', 3, 64)
	for s[len(s)-1] == '0' {
		s = s[:len(s)-1]
	}
	if s[len(s)-1] == '.' {
		s = s[:len(s)-1]
	}
	return unsigned(s)
}

// dash stands for what is not known.
const dash = "–"

func fixed(y float64, decimals int) string {
	if !Known(y) {
		return dash
	}
	return unsigned(strconv.FormatFloat(y, 'f', decimals, 64))
}

// unsigned takes the sign off a zero: nothing is minus nought degrees.
func unsigned(s string) string {
	for i := 1; i < len(s); i++ {
		if s[0] != '-' || s[i] >= '1' && s[i] <= '9' {
			return s
		}
	}
	if len(s) > 1 && s[0] == '-' {
		return s[1:]
	}
	return s
}

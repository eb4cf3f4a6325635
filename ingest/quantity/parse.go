package quantity

import (
	"errors"
	"fmt"
	"strconv"
	"strings"
	"unicode/utf8"
)

// A CellError is a cell that is no figure. It matches ErrNumber or ErrUnit.
type CellError struct {
	Kind       error
	Message    string // what, got what, what to do
	Suggestion string // the cell written rightly, where one way stands out
}

func (e *CellError) Error() string { return e.Message }
func (e *CellError) Unwrap() error { return e.Kind }

// What can be wrong with a cell: its number, or its unit.
var (
	ErrNumber = errors.New("not a number")
	ErrUnit   = errors.New("unit not known here")
)

// maxDigits bounds a number's length: no instrument of a vehicle shows more.
const maxDigits = 24

// Parse reads a cell in the unit of its column, or in its own where it carries one ("9.9 gal_uk", "412km"), and gives it
// in base units. The own unit must be of the column's quantity. The error is a *CellError; an empty cell is one too.
func Parse(cell string, column Unit) (float64, error) {
	x, u, err := ParseIn(cell, column)
	if err != nil {
		return Unknown, err
	}
	base := u.ToBase(x)
	if !Known(base) {
		return Unknown, badNumber(cell, "a figure above zero", "")
	}
	return base, nil
}

// ParseIn reads like Parse, but leaves the number in the unit that it was written in, and tells which.
func ParseIn(cell string, column Unit) (float64, Unit, error) {
	s := strings.TrimSpace(cell)
	if decimal(s) { // most cells by far
		x, err := decimalValue(s, s)
		return x, column, err
	}
	number, rest := split(s)
	u := column
	if rest != "" {
		var err error
		if u, err = ownUnit(s, number, rest, column); err != nil {
			return Unknown, column, err
		}
	}
	x, err := ParseNumber(number)
	if err != nil {
		return Unknown, column, err
	}
	return x, u, nil
}

// ParseNumber reads a plain decimal number: an optional sign, digits, an optional point.
func ParseNumber(s string) (float64, error) {
	s = strings.TrimSpace(s)
	plain := s
	if strings.HasPrefix(s, "−") { // the typographer's minus
		plain = "-" + strings.TrimPrefix(s, "−")
	}
	if !decimal(plain) {
		return Unknown, explain(s)
	}
	return decimalValue(plain, s)
}

// decimalValue is the number that a decimal stands for; the error names the cell.
func decimalValue(decimal, cell string) (float64, error) {
	x, err := strconv.ParseFloat(decimal, 64)
	if err != nil || !Known(x) {
		return Unknown, explain(cell)
	}
	return x, nil
}

// decimal tells whether s is sign, digits and at most one point, with a digit somewhere.
func decimal(s string) bool {
	if s != "" && (s[0] == '-' || s[0] == '+') {
		s = s[1:]
	}
	digits, points := 0, 0
	for i := 0; i < len(s); i++ {
		switch {
		case s[i] >= '0' && s[i] <= '9':
			digits++
		case s[i] == '.':
			points++
		default:
			return false
		}
	}
	return digits > 0 && points <= 1 && len(s) <= maxDigits
}

// split parts a cell into its number and what follows it. Commas and blanks between digits stay with the number,
// so that the error can speak of them.
func split(s string) (number, rest string) {
	end := 0
	for i, r := range s {
		switch {
		case r >= '0' && r <= '9', r == '.', r == ',', r == '\'', (r == '+' || r == '-' || r == '−') && i == 0:
			end = i + utf8.RuneLen(r)
		case r == ' ', r == '\u00a0', r == '\u202f':
		default:
			return s[:end], strings.TrimSpace(s[end:])
		}
	}
	return s[:end], strings.TrimSpace(s[end:])
}

func ownUnit(cell, number, rest string, column Unit) (Unit, error) {
	if !strings.ContainsAny(number, "0123456789") {
		return column, explain(cell)
	}
	u, ok := UnitNamed(rest)
	if !ok {
		if two, isVague := vague[strings.ToLower(rest)]; isVague {
			if column == two[0] || column == two[1] {
				return column, nil
			}
			return column, badUnit("%s is two units: write %s or %s behind the number", clip(rest), sized(two[0]), sized(two[1]))
		}
		if mended := strings.NewReplacer("O", "0", "o", "0").Replace(cell); decimal(mended) {
			return column, badNumber(cell, "the digit 0, not the letter O", mended)
		}
		if column == Number {
			return column, explain(cell)
		}
		return column, badUnit("what follows the number, %s, is no unit: write %s", clip(rest), choice(column))
	}
	if scales[u].what != scales[column].what {
		if column == Number {
			return column, badUnit("this column takes a plain number, got %s: leave the unit out", clip(cell))
		}
		return column, badUnit("%s is a %s, this column holds a %s: write %s", u, u.Quantity(), column.Quantity(), choice(column))
	}
	return u, nil
}

// sized is a unit's name, with what one comes to where few people know.
func sized(u Unit) string {
	if u.Base() != Litre {
		return u.String()
	}
	return u.String() + " (" + Cell(u.ToBase(1), Litre) + " L" + ")"
}

func choice(column Unit) string {
	units := column.Units()
	names := make([]string, len(units))
	for i, u := range units {
		names[i] = u.String()
	}
	if len(names) == 1 {
		return names[0] + " or nothing"
	}
	return strings.Join(names[:len(names)-1], ", ") + " or " + names[len(names)-1]
}

func badUnit(format string, args ...any) error {
	return &CellError{Kind: ErrUnit, Message: fmt.Sprintf(format, args...)}
}

func badNumber(cell, want, suggestion string) error {
	return &CellError{ErrNumber, fmt.Sprintf("want %s, got %s", want, clip(cell)), suggestion}
}

// clip quotes a cell for a message, and shortens it to what fits into one line.
func clip(s string) string {
	const most = 40
	if r := []rune(s[:min(len(s), 4*most)]); len(r) > most {
		s = string(r[:most]) + "…"
	}
	return strconv.Quote(s)
}

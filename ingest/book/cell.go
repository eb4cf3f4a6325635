package book

import (
	"errors"
	"fmt"
	"math"
	"strconv"
	"strings"
	"unicode/utf8"

	"golang.org/x/text/encoding/charmap"

	"brimlog/ingest/quantity"
)

// The kinds of problems that reading finds, and the two severities.
const (
	badValue    = "bad_value"
	unknownUnit = "unknown_unit"
	unknownWord = "unknown_word"
	duplicate   = "duplicate"
	isError     = "error"
	isDoubt     = "doubt"
)

// unknown is what a cell is before it is read.
var unknown = quantity.Unknown

// A row collects what is wrong with the cells of one line.
type row struct {
	unplaced bool // no date: the row cannot be used
	problems []Problem
	cells    int // so many of the problems are of single cells; they come first
}

// A cell is what one column holds in one row: not empty, blanks trimmed.
type cell struct {
	row    *row
	column string
	text   string
	unit   quantity.Unit // of the column
	needed bool          // the row is in error without it
}

func (c cell) fault(kind, message, suggestion string) {
	p := Problem{Column: c.column, Kind: kind, Severity: isDoubt, Message: message}
	if c.needed {
		p.Severity = isError
	}
	if suggestion != "" {
		p.Suggestion = &suggestion
	}
	c.row.problems = append(c.row.problems, p)
	c.row.cells++
}

// moment reads a date; without it the row has no place.
func (c cell) moment() Moment {
	m, err := ParseMoment(c.text)
	if err != nil {
		c.row.unplaced = true
		var date dateError
		errors.As(err, &date)
		c.fault(badValue, err.Error(), date.fixed)
	}
	return m
}

// figure reads a number within bounds in base units. The bounds are physical and wide: they keep nonsense out, nothing more.
func (c cell) figure(low, high float64) float64 {
	x, err := quantity.Parse(c.text, c.unit)
	if err != nil {
		if plain := Plain(c.column, c.text); plain != c.text {
			if y, failed := quantity.Parse(plain, c.unit); failed == nil {
				x, err = y, nil
			}
		}
	}
	switch {
	case err != nil:
		c.noFigure(err)
	case x < low || x > high:
		c.fault(badValue, fmt.Sprintf("want %s, got %s", bounds(low, high, c.unit), quote(c.text)), "")
	default:
		return x
	}
	return quantity.Unknown
}

func (c cell) noFigure(err error) {
	kind, suggestion := badValue, ""
	if strings.HasPrefix(c.column, "odometer") && strings.Contains(c.text, ",") && errors.Is(err, quantity.ErrNumber) {
		c.fault(badValue, "want the odometer with three digits behind a comma, or one behind a point, got "+quote(c.text)+": write its digits out", "")
		return
	}
	var wrong *quantity.CellError
	if errors.As(err, &wrong) {
		suggestion = wrong.Suggestion
	}
	if errors.Is(err, quantity.ErrUnit) {
		kind = unknownUnit
	}
	c.fault(kind, err.Error(), suggestion)
}

// only is figure for one of several columns of the same thing in different units, of which a row may fill one.
func (c cell) only(into *float64, others *string, low, high float64) {
	if *others != "" {
		c.fault(badValue, fmt.Sprintf("want one of %s and %s filled, got both: empty one of them", *others, c.column), "")
		*into = quantity.Unknown
		return
	}
	*others = c.column
	*into = c.figure(low, high)
}

func (c cell) yes(otherwise bool) bool {
	w, ok := oneOf(c.text, yesWords)
	if !ok {
		c.stranger(yesWords[:2])
		return otherwise
	}
	return w == "yes" || w == "y" || w == "true" || w == "1"
}

func (c cell) word(list []string) string {
	w, ok := oneOf(c.text, list)
	if !ok {
		c.stranger(list)
	}
	return w
}

func (c cell) grade() Grade {
	g, ok := ParseGrade(c.text)
	if !ok {
		c.stranger(gradeWords)
	}
	return g
}

func (c cell) stranger(list []string) {
	c.fault(unknownWord, fmt.Sprintf("want %s, got %s", listed(list), quote(c.text)), nearest(c.text, list))
}

// note reads free text. What a terminal would obey is taken out and reported; a spreadsheet's Windows-1252 is read as such.
func (c cell) note() string {
	if plainASCII(c.text) {
		return c.text
	}
	text := c.text
	if !utf8.ValidString(text) {
		text, _ = charmap.Windows1252.NewDecoder().String(text)
	}
	clean := strings.Map(harmless, text)
	if clean != c.text {
		suggestion := clean
		if strings.ContainsRune(clean, utf8.RuneError) {
			suggestion = "" // what stood there is not known: nothing to put in its place
		}
		c.fault(badValue, "want plain text in UTF-8, got control characters or another encoding in "+quote(c.text), suggestion)
	}
	return clean
}

// plainASCII spares most cells the closer look.
func plainASCII(s string) bool {
	for i := range len(s) {
		if s[i] < ' ' || s[i] > '~' {
			return false
		}
	}
	return true
}

func harmless(r rune) rune {
	if r < ' ' && r != '\n' && r != '\r' && r != '\t' || r >= 0x7f && r < 0xa0 {
		return -1
	}
	return r
}

// share reads a part of a whole, 0 to 1, also as people read it off a gauge: 1/4.
func (c cell) share() float64 {
	if over, under, ok := strings.Cut(c.text, "/"); ok {
		a, errA := quantity.ParseNumber(over)
		b, errB := quantity.ParseNumber(under)
		if errA == nil && errB == nil && b > 0 && a >= 0 && a <= b {
			return a / b
		}
		c.fault(badValue, fmt.Sprintf("want a share from 0 to 1 such as 0.25 or 1/4, got %s", quote(c.text)), "")
		return quantity.Unknown
	}
	return c.figure(0, 1)
}

// bounds writes a range of base units for a message, in the column's unit.
func bounds(low, high float64, u quantity.Unit) string {
	return strings.TrimSpace(fmt.Sprintf("%s to %s %s", brief(u.FromBase(low)), brief(u.FromBase(high)), u.Label()))
}

// brief writes a bound: bounds above a hundred are whole.
func brief(x float64) string {
	if math.Abs(x) > 100 {
		x = math.Round(x)
	}
	return strconv.FormatFloat(x, 'f', -1, 64)
}

// quote writes text for a message: quoted, in one line, shortened.
func quote(s string) string {
	const most = 40
	if len(s) > 4*most {
		s = s[:4*most]
	}
	if r := []rune(s); len(r) > most {
		s = string(r[:most]) + "…"
	}
	return strconv.Quote(s)
}

// lacks reports a cell that is not filled, or not in keeping with the row's other cells.
func (r *row) lacks(column, severity, message string) {
	r.problems = append(r.problems, Problem{Column: column, Kind: badValue, Severity: severity, Message: message})
}

func (r *row) doubt(column, kind, message, suggestion string) {
	r.problems = append(r.problems,
		Problem{Column: column, Kind: kind, Severity: isDoubt, Message: message, Suggestion: &suggestion})
}

package foreign

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"time"

	"brimlog/ingest/book"
)

// The readings of a sheet's dates, by the order of day, month and year.
const (
	dmy = iota
	mdy
	ymd
)

var orderNames = []string{"dmy", "mdy", "ymd"}

// A day is a date as a sheet writes it: three numbers and what they must be, and a time of day.
type day struct {
	parts  [3]string
	month  int // by its name; then parts holds two numbers
	yearAt int // of the numbers, where its digits tell; else -1
	clock  string
}

var (
	threeNumbers = regexp.MustCompile(`^(\d{1,4})[-/. ]+(\d{1,2})[-/. ]+(\d{1,4})\.?(?:[T, ]+(.*))?$`)
	dayMonth     = regexp.MustCompile(`^(\d{1,2})(?:st|nd|rd|th)?[-./ ]*(?:of |de )?(\pL{3,12})\.?[-,./ ]+(?:de )?(\d{4}|\d{2})(?:[T, ]+(.*))?$`)
	monthDay     = regexp.MustCompile(`^(\pL{3,12})\.?[-/ ]*(\d{1,2})(?:st|nd|rd|th)?[-,/ ]+(\d{4}|\d{2})(?:[T, ]+(.*))?$`)
	yearMonth    = regexp.MustCompile(`^(\d{4})[-./ ]+(\pL{3,12})\.?[-./ ]+(\d{1,2})(?:[T, ]+(.*))?$`)
	eightDigits  = regexp.MustCompile(`^\d{8}$`)
	dayNumber    = regexp.MustCompile(`^[34]\d{4}([.,]\d+)?$`)
)

// takeDay takes a date apart; ok is false where it is none in any order.
func takeDay(cell string) (d day, ok bool) {
	s := strings.Join(strings.Fields(cell), " ")
	if len(s) > 60 {
		return day{}, false
	}
	d.yearAt = -1
	if m := threeNumbers.FindStringSubmatch(s); m != nil {
		d.parts, d.clock = [3]string{m[1], m[2], m[3]}, m[4]
		switch {
		case len(m[1]) == 4 && len(m[3]) < 3:
			d.yearAt = 0
		case len(m[3]) == 4 && len(m[1]) < 3:
			d.yearAt = 2
		case len(m[1]) > 2 || len(m[3]) != 2:
			return day{}, false
		}
		return d, true
	}
	if m := dayMonth.FindStringSubmatch(s); m != nil {
		return named(m[1], m[2], m[3], m[4])
	}
	if m := monthDay.FindStringSubmatch(s); m != nil {
		return named(m[2], m[1], m[3], m[4])
	}
	if m := yearMonth.FindStringSubmatch(s); m != nil {
		return named(m[3], m[2], m[1], m[4])
	}
	if eightDigits.MatchString(s) {
		return day{parts: [3]string{s, "", ""}, yearAt: -1}, true
	}
	return day{}, false
}

func named(date, month, year, clock string) (day, bool) {
	n := monthNamed(month)
	return day{parts: [3]string{date, "", year}, month: n, yearAt: 2, clock: clock}, n > 0
}

// read gives the date by one of the orders; ok is false where the calendar has no such day. The year of two digits is the last
// that is not after now.
func (d day) read(order int, now time.Time) (year, month, date int, ok bool) {
	p := d.parts
	switch {
	case d.month > 0:
		date, month, year = number(p[0]), d.month, number(p[2])
	case p[1] == "" && order == ymd:
		year, month, date = number(p[0][:4]), number(p[0][4:6]), number(p[0][6:])
	case p[1] == "" && order == dmy:
		date, month, year = number(p[0][:2]), number(p[0][2:4]), number(p[0][4:])
	case p[1] == "":
		month, date, year = number(p[0][:2]), number(p[0][2:4]), number(p[0][4:])
	case d.yearAt == 0: // nobody writes the day between
		year, month, date = number(p[0]), number(p[1]), number(p[2])
	case order == ymd && d.yearAt < 0:
		year, month, date = number(p[0]), number(p[1]), number(p[2])
	case order == dmy:
		date, month, year = number(p[0]), number(p[1]), number(p[2])
	case order == mdy:
		month, date, year = number(p[0]), number(p[1]), number(p[2])
	default:
		return 0, 0, 0, false
	}
	if year < 100 {
		if year += 2000; year > now.Year() {
			year -= 100
		}
	}
	t := time.Date(year, time.Month(month), date, 0, 0, 0, 0, time.UTC)
	ok = month >= 1 && month <= 12 && t.Day() == date && year >= 1885 && !t.After(now.AddDate(0, 0, 1))
	return year, month, date, ok
}

func number(s string) int {
	n, _ := strconv.Atoi(s)
	return n
}

// readings is the date by each order, as the logbook writes it.
func (d day) readings(now time.Time) []string {
	out := make([]string, len(orderNames))
	for order := range orderNames {
		if y, m, dd, ok := d.read(order, now); ok {
			out[order] = fmt.Sprintf("%04d-%02d-%02d", y, m, dd)
		}
	}
	return out
}

// ownOrder tells whether the date says by itself how it is meant, and so nothing of the others.
func (d day) ownOrder() bool { return d.month > 0 || d.yearAt == 0 }

var clockTime = regexp.MustCompile(`(?i)^(\d{1,2})[:.h](\d{2})(?:[:.](\d{2}))?(?:[.,]\d+)?\s*([ap])?\.?(?:m\.?)?(?:uhr|h)?\s*(?:z|utc|[-+]\d{2}:?\d{2})?$`)

// readClock reads a time of day; "" where it is none.
func readClock(text string) string {
	m := clockTime.FindStringSubmatch(strings.TrimSpace(text))
	if m == nil {
		return ""
	}
	hour, minute, second := number(m[1]), number(m[2]), number(m[3])
	if m[4] != "" {
		if hour < 1 || hour > 12 {
			return ""
		}
		hour %= 12
		if strings.EqualFold(m[4], "p") {
			hour += 12
		}
	}
	if hour > 23 || minute > 59 || second > 59 {
		return ""
	}
	if second == 0 {
		return fmt.Sprintf("%02d:%02d", hour, minute)
	}
	return fmt.Sprintf("%02d:%02d:%02d", hour, minute, second)
}

// stamp is a date and a time as the logbook writes them.
func stamp(date, clock string) (book.Moment, error) {
	if clock != "" {
		date += "T" + clock
	}
	return book.ParseMoment(date)
}

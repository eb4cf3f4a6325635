package book

import (
	"fmt"
	"regexp"
	"strings"
	"time"
)

// ParseMoment reads a date, 2024-02-11, or a date with the time of day, 2024-02-11T17:40, also with a blank for the T and
// with seconds. There is no time zone: a logbook's clock is the owner's.
func ParseMoment(s string) (Moment, error) {
	s = strings.TrimSpace(s)
	year, month, day, ok := digits(s, 0, 4), digits(s, 5, 2), digits(s, 8, 2), len(s) >= 10
	if !ok || year < 0 || month < 0 || day < 0 || s[4] != '-' || s[7] != '-' {
		return Moment{}, badDate(s)
	}
	hour, minute, second, timed := 0, 0, 0, len(s) > 10
	if timed {
		hour, minute = digits(s, 11, 2), digits(s, 14, 2)
		if s[10] != 'T' && s[10] != ' ' || hour < 0 || minute < 0 || s[13] != ':' {
			return Moment{}, badDate(s)
		}
		if len(s) > 16 {
			if second = digits(s, 17, 2); len(s) != 19 || s[16] != ':' || second < 0 {
				return Moment{}, badDate(s)
			}
		}
	}
	if hour > 23 || minute > 59 || second > 59 {
		return Moment{}, fmt.Errorf("want a time from 00:00 to 23:59, got %s", quote(s))
	}
	t := time.Date(year, time.Month(month), day, hour, minute, second, 0, time.UTC)
	if t.Year() != year || int(t.Month()) != month || t.Day() != day {
		return Moment{}, fmt.Errorf("want a day that the calendar has, got %s", quote(s))
	}
	if year < 1885 || year > 2200 {
		return Moment{}, fmt.Errorf("want a year from 1885 to 2200, got %s", quote(s))
	}
	return Moment{t, timed}, nil
}

// digits reads n digits of s from i; -1 where they are not all digits.
func digits(s string, i, n int) int {
	if i+n > len(s) {
		return -1
	}
	x := 0
	for _, c := range []byte(s[i : i+n]) {
		if c < '0' || c > '9' {
			return -1
		}
		x = 10*x + int(c-'0')
	}
	return x
}

// String writes the moment as the files do. The zero Moment is empty.
func (m Moment) String() string {
	if m.IsZero() && !m.Timed {
		return ""
	}
	text := m.Format(time.RFC3339) // which package time writes faster than any part of it
	switch {
	case !m.Timed:
		return text[:len("2006-01-02")]
	case m.Second() != 0:
		return text[:len("2006-01-02T15:04:05")]
	}
	return text[:len("2006-01-02T15:04")]
}

// NotAfter tells whether m is no later than cut. Where one of the two has no time of day, the whole day counts.
func (m Moment) NotAfter(cut Moment) bool {
	if m.Timed && cut.Timed {
		return !m.After(cut.Time)
	}
	return !m.Truncate(24 * time.Hour).After(cut.Truncate(24 * time.Hour))
}

// A dateError is a date that was not read; fixed is the date as it should stand, where only one reading fits.
type dateError struct{ message, fixed string }

func (e dateError) Error() string { return e.message }

var (
	shortISO  = regexp.MustCompile(`^(\d{4})[-/.](\d{1,2})[-/.](\d{1,2})$`)
	dayFirst  = regexp.MustCompile(`^(1[3-9]|2\d|3[01])[-/.](\d{1,2})[-/.](\d{4})$`)
	dayThird  = regexp.MustCompile(`^(\d{1,2})[-/.](1[3-9]|2\d|3[01])[-/.](\d{4})$`)
	numbers   = regexp.MustCompile(`^0?(\d{1,2})[-/.]0?(\d{1,2})[-/.](\d{4})$`)
	withZone  = regexp.MustCompile(`^(\d{4}-\d{2}-\d{2}[T ]\d{2}:\d{2}(:\d{2})?)(\.\d+)?(Z|[-+]\d{2}:?\d{2})?$`)
	wantISO   = "want a date such as 2024-02-11 or 2024-02-11T17:40, got %s"
	wantLocal = "want the time without zone or fractions, got %s"
)

func badDate(s string) error {
	if len(s) > 40 {
		return dateError{message: fmt.Sprintf(wantISO, quote(s))}
	}
	try := func(year, month, day string) string {
		m, err := ParseMoment(fmt.Sprintf("%s-%02s-%02s", year, month, day))
		if err != nil {
			return ""
		}
		return m.String()
	}
	e := dateError{message: fmt.Sprintf(wantISO, quote(s))}
	if m := shortISO.FindStringSubmatch(s); m != nil && s[:4] != "" && !isoShape(s) {
		e.fixed = try(m[1], m[2], m[3])
	} else if m := dayFirst.FindStringSubmatch(s); m != nil {
		e.fixed = try(m[3], m[2], m[1])
	} else if m := dayThird.FindStringSubmatch(s); m != nil {
		e.fixed = try(m[3], m[1], m[2])
	} else if m := numbers.FindStringSubmatch(s); m != nil && m[1] == m[2] {
		e.fixed = try(m[3], m[2], m[1])
	} else if m := withZone.FindStringSubmatch(s); m != nil {
		e = dateError{fmt.Sprintf(wantLocal, quote(s)), m[1]}
	}
	return e
}

// isoShape keeps badDate from asking ParseMoment what it has just refused.
func isoShape(s string) bool { return len(s) == 10 && s[4] == '-' && s[7] == '-' }

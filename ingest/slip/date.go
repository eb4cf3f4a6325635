package slip

import (
	"math"
	"time"

	"brimlog/ingest/book"
)

// A dating is a date that may have been meant.
type dating struct {
	date  book.Moment
	prior float64
}

// datings are the dates that one slip turns into the one written.
func datings(m book.Moment) (all []dating) {
	year, month, day := m.Date()
	add := func(year int, month time.Month, day int, p float64) {
		t := time.Date(year, month, day, m.Hour(), m.Minute(), m.Second(), 0, time.UTC)
		if t.Day() != day || t.Month() != month || t.Year() != year || t.Equal(m.Time) {
			return
		}
		all = append(all, dating{book.Moment{Time: t, Timed: m.Timed}, math.Log(p)})
	}
	if day <= 12 {
		add(year, time.Month(day), int(month), daySwapped)
	}
	for _, by := range []int{-1, 1} {
		add(year+by, month, day, wrongYear)
		add(year, month+time.Month(by), day, wrongMonth)
		add(year+10*by, month, day, wrongYear/4)
	}
	for _, by := range []int{-2, 2} {
		add(year+by, month, day, wrongYear/4)
	}
	add(year-year%100+year%10*10+year/10%10, month, day, wrongYear/2) // 2042 for 2024
	for d := 1; d <= 31; d++ {
		if oneDigit(d, day) {
			add(year, month, d, wrongDateMark/10)
		}
	}
	for d := time.Month(1); d <= 12; d++ {
		if oneDigit(int(d), int(month)) && d != month+1 && d != month-1 {
			add(year, d, day, wrongDateMark/10)
		}
	}
	return all
}

// oneDigit tells whether two numbers below 100 differ in one digit, or by its change of place.
func oneDigit(a, b int) bool {
	return a != b && (a/10 == b/10 || a%10 == b%10 || a/10 == b%10 && a%10 == b/10)
}

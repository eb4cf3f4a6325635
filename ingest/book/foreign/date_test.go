package foreign

import (
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"
)

var noon = time.Date(2026, 6, 1, 12, 0, 0, 0, time.UTC)

func TestDateReadings(t *testing.T) {
	for cell, want := range map[string]string{
		"2024-02-11": "2024-02-11 2024-02-11 2024-02-11", "2024/2/1": "2024-02-01 2024-02-01 2024-02-01", "2024.02.11": "2024-02-11 2024-02-11 2024-02-11",
		"03/04/2024": "2024-04-03 2024-03-04 ", "13/04/2024": "2024-04-13  ", "04/13/2024": " 2024-04-13 ", "3.4.2024": "2024-04-03 2024-03-04 ",
		"31/04/2024": "  ", "29/02/2023": "  ", "03/04/24": "2024-04-03 2024-03-04 2003-04-24", "03/04/74": "1974-04-03 1974-03-04 ", "24-02-11": "2011-02-24  2024-02-11",
		"11 Feb 2024": "2024-02-11 2024-02-11 2024-02-11", "11. Februar 2024": "2024-02-11 2024-02-11 2024-02-11", "Feb 11, 2024": "2024-02-11 2024-02-11 2024-02-11",
		"11-févr.-24": "2024-02-11 2024-02-11 2024-02-11", "1st of March 2024": "2024-03-01 2024-03-01 2024-03-01", "11 août 2024": "2024-08-11 2024-08-11 2024-08-11",
		"11 mai 2024": "2024-05-11 2024-05-11 2024-05-11", "11 maj 2024": "2024-05-11 2024-05-11 2024-05-11", "11 juil. 2024": "2024-07-11 2024-07-11 2024-07-11",
		"11 juin 2024": "2024-06-11 2024-06-11 2024-06-11", "11 listopada 2024": "2024-11-11 2024-11-11 2024-11-11", "11 lipca 2024": "2024-07-11 2024-07-11 2024-07-11",
		"20240211": "  2024-02-11", "11022024": "2024-02-11 2024-11-02 ", "02/07/2026": " 2026-02-07 ", "2026-07-02": "  ", "2024-02-11T17:40": "2024-02-11 2024-02-11 2024-02-11",
		"11/02/2024 17:40": "2024-02-11 2024-11-02 ", "2024-Feb-11": "2024-02-11 2024-02-11 2024-02-11", "01/01/1800": "  ",
	} {
		d, ok := takeDay(cell)
		if got := strings.Join(d.readings(noon), " "); !ok || got != want {
			t.Errorf("%q reads %q (%v), want %q", cell, got, ok, want)
		}
	}
	for _, cell := range []string{"", "Total", "Total 11/02/2024", "2024", "45333", "11/02", "yesterday", "1/2/3/4", "11 Foo 2024", "99999999999", "10.5"} {
		if d, ok := takeDay(cell); ok {
			t.Errorf("%q is taken for %+v", cell, d)
		}
	}
}

func TestClock(t *testing.T) {
	for text, want := range map[string]string{"17:40": "17:40", "5:40 pm": "17:40", "12:05 AM": "00:05", "17h40": "17:40", "17.40": "17:40", "17:40:05": "17:40:05",
		"17:40:05.123": "17:40:05", "17:40:05+01:00": "17:40:05", "17:40 Uhr": "17:40", "25:00": "", "13:00 pm": "", "noon": "", "0:00": "00:00", "5:40 p.m.": "17:40"} {
		if got := readClock(text); got != want {
			t.Errorf("%q reads %q, want %q", text, got, want)
		}
	}
}

// However a day is written, the order that it was written in gives it back.
func TestDateRoundTrip(t *testing.T) {
	first := time.Date(1930, 1, 1, 0, 0, 0, 0, time.UTC)
	layouts := map[string]int{"02/01/2006": dmy, "2.1.2006": dmy, "02-01-06": dmy, "01/02/2006": mdy, "1/2/06": mdy, "2006-01-02": ymd, "2006/1/2": ymd, "06-01-02": ymd,
		"2 January 2006": dmy, "Jan 2, 2006": mdy, "20060102": ymd, "02012006": dmy, "02-Jan-06": dmy, "2006-01-02 15:04": ymd}
	rapid.Check(t, func(t *rapid.T) {
		when := first.AddDate(0, 0, rapid.IntRange(0, 35000).Draw(t, "days"))
		layout := rapid.SampledFrom(sortedKeys(layouts)).Draw(t, "layout")
		if strings.Contains(layout, "06") && !strings.Contains(layout, "2006") && when.Before(noon.AddDate(-99, 0, 0)) {
			return // a year of two digits says no century
		}
		d, ok := takeDay(when.Format(layout))
		if got := d.readings(noon)[layouts[layout]]; !ok || got != when.Format("2006-01-02") {
			t.Fatalf("%s reads %q (%v)", when.Format(layout), got, ok)
		}
	})
}

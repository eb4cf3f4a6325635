package book

import (
	"errors"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func TestMomentComesBackAsWritten(t *testing.T) {
	for in, want := range map[string]string{
		"2024-02-11": "2024-02-11", "2024-02-11T17:40": "2024-02-11T17:40", " 2024-02-11 17:40 ": "2024-02-11T17:40",
		"2024-02-11T17:40:05": "2024-02-11T17:40:05", "2024-02-29T00:00": "2024-02-29T00:00", "2024-02-11T17:40:00": "2024-02-11T17:40",
	} {
		if m := moment(t, in); m.String() != want {
			t.Errorf("%q is written %q, want %q", in, m, want)
		}
	}
	if s := (Moment{}).String(); s != "" {
		t.Errorf("no moment is written %q", s)
	}
}

func TestMomentRefuses(t *testing.T) {
	for _, s := range []string{"", "2024", "2024-02-30", "2023-02-29", "2024-13-01", "2024-02-11T24:00", "2024-02-11T17:60", "2024-02-11T17:40:60",
		"2024-02-11T", "2024-02-11T1740", "2024-02-11T17:40:5", "2024-02-11X17:40", "2024/02/11", "11.02.2024", "2024-02-11T17:40+01:00", "12024-02-11",
		"２０２４-02-11", "2024-02-11T17:40:05.5", "-024-02-11", "today"} {
		if m, err := ParseMoment(s); err == nil {
			t.Errorf("%q reads as %v", s, m)
		}
	}
}

// The order of moments is one: NotAfter agrees with itself both ways, and a day holds its hours.
func TestNotAfter(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		draw := func(name string) Moment {
			text := "2024-02-1" + string(rune('0'+rapid.IntRange(0, 3).Draw(t, name)))
			if rapid.Bool().Draw(t, name+" timed") {
				text += "T0" + string(rune('0'+rapid.IntRange(0, 9).Draw(t, name+" hour"))) + ":00"
			}
			m, err := ParseMoment(text)
			if err != nil {
				t.Fatal(err)
			}
			return m
		}
		a, b := draw("a"), draw("b")
		if !a.NotAfter(b) && !b.NotAfter(a) {
			t.Fatalf("%s and %s are each after the other", a, b)
		}
		sameDay := a.Format("2006-01-02") == b.Format("2006-01-02")
		if sameDay && !(a.Timed && b.Timed) && !a.NotAfter(b) {
			t.Fatalf("%s is not within %s", a, b)
		}
		if a.NotAfter(b) && a.Timed && b.Timed && a.After(b.Time) {
			t.Fatalf("%s counts as not after %s", a, b)
		}
	})
}

// A time that no clock shows is not blamed on the calendar.
func TestTimesThatNoClockShows(t *testing.T) {
	for text, want := range map[string]string{
		"2024-02-11T24:00":    "want a time from 00:00 to 23:59",
		"2024-02-11T17:60":    "want a time from 00:00 to 23:59",
		"2024-02-11T17:40:60": "want a time from 00:00 to 23:59",
		"2024-02-30T17:40":    "want a day that the calendar has",
	} {
		if _, err := ParseMoment(text); err == nil || !strings.HasPrefix(err.Error(), want) {
			t.Errorf("%s: %v, want %s", text, err, want)
		}
	}
}

// The ninth of the ninth is one day, whichever of the two comes first.
func TestDayThatIsItsMonth(t *testing.T) {
	for text, want := range map[string]string{"9/9/2024": "2024-09-09", "09.9.2024": "2024-09-09", "11-11-2024": "2024-11-11", "8/9/2024": "", "13/13/2024": ""} {
		_, err := ParseMoment(text)
		var e dateError
		if !errors.As(err, &e) || e.fixed != want {
			t.Errorf("%s: %v, mended %q, want %q", text, err, e.fixed, want)
		}
	}
}

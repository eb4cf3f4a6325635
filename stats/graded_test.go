package stats

import (
	"strings"
	"testing"

	"brimlog/ingest/book"
	"brimlog/ingest/quantity"
	"brimlog/ingest/tank"
	"brimlog/stats/suspect"
)

// driven is a log of a drive a day, each with one grade of a symptom: its letters are n, t, m, h and - for not judged.
func driven(t *testing.T, k book.Symptom, grades string) ground {
	t.Helper()
	u, b := quantity.Unknown, &book.Book{}
	for i, letter := range grades {
		trip := book.Trip{Date: moment(t, "2025-03-01"), Km: u, Start: u, End: u, ColdStarts: u, AirC: u, IdleMin: u, CruiseKmh: u}
		trip.Date.Time = trip.Date.AddDate(0, 0, i)
		trip.Symptoms[k] = book.Grade(strings.IndexRune("-ntmh", letter))
		b.Trips = append(b.Trips, trip)
	}
	return ground{log: tank.Build(b)}
}

func TestGradesSinceItBegan(t *testing.T) {
	began := stretch{turn: turn{job: 0, from: moment(t, "2025-03-11"), rise: 0.1}, began: true, after: moment(t, "2025-03-11")}
	for _, c := range []struct {
		name          string
		before, since string
		want          suspect.Judged
		note          string
	}{
		{"none before, moderate since", "nnnnnnnnnnn", "mmmmtm", suspect.Judged{Typical: book.Moderate, Worst: book.Moderate, Lately: book.Moderate}, ""},
		{"a trace as before", "tntttnttttn", "tttntn", suspect.Judged{Typical: book.Trace, Worst: book.Trace, AsBefore: true, Lately: book.Trace}, ""},
		{"as heavy as before", "mmmmmmmmmmm", "mmmmmm", suspect.Judged{Lately: book.Moderate}, "as heavy before"},
		{"heavier than before", "tttttttttt-", "mmmmmm", suspect.Judged{Typical: book.Moderate, Worst: book.Moderate, Lately: book.Moderate}, ""},
		{"too few before", "--------tt-", "tttt", suspect.Judged{Typical: book.Trace, Worst: book.Trace, Lately: book.Trace}, ""},
		{"one heavy drive of three", "-----------", "nnh", suspect.Judged{Typical: book.Trace, Worst: book.Heavy, Lately: book.Heavy}, ""},
		{"one heavy drive of twenty, long ago", "-----------", "hnnnnnnnnnnnnnnnnnnn", suspect.Judged{Typical: book.None, Worst: book.None, Lately: book.None}, ""},
		{"not judged", "-----------", "----", suspect.Judged{}, ""},
	} {
		g, e, n := driven(t, book.WeakLow, c.before+c.since), suspect.Nothing(), notes{}
		g.grade(&e, began, &n)
		if e.Grades[book.WeakLow] != c.want {
			t.Errorf("%s: %+v, want %+v", c.name, e.Grades[book.WeakLow], c.want)
		}
		if told := strings.Join(n, ""); c.note == "" && told != "" || !strings.Contains(told, c.note) {
			t.Errorf("%s: notes %q, want %q", c.name, told, c.note)
		}
	}
}

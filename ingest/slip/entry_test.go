package slip_test

import (
	"fmt"
	"math"
	"strings"
	"testing"
	"time"

	"brimlog/ingest/book"
	"brimlog/ingest/slip"
)

// An entry is judged by the log before it is written: 52831 miles and 43.2 L are right on 2023-07-01.
func TestEntryOfAFill(t *testing.T) {
	now := time.Date(2023, 7, 20, 12, 0, 0, 0, time.UTC)
	for _, c := range []struct {
		name, date, odometer, volume string
		column, kind, correct        string
	}{
		{"right", "2023-07-01", "52831 mi", "43.2", "", "", ""},
		{"a digit", "2023-07-01", "57831 mi", "43.2", "odometer_mi", "odometer_slip", "52831"},
		{"below the last reading", "2023-07-01", "52373 mi", "43.2", "odometer_mi", "odometer_slip", ""},
		{"the point", "2023-07-01", "52831 mi", "432", "volume_l", "decimal_slip", "43.2"},
		{"the point, in a figure with fewer digits", "2023-07-01", "52831 mi", "4.3", "volume_l", "decimal_slip", "43"},
		{"gallons", "2023-07-01", "52831 mi", "9.5", "volume_l", "unit_slip", "43.19"},
		{"gallons, and said so", "2023-07-01", "52831 mi", "9.5 gal_uk", "", "", ""},
		{"km", "2023-07-01", "85023", "43.2", "odometer_mi", "unit_slip", "52831"},
		{"km, and said so", "2023-07-01", "85023 km", "43.2", "", "", ""},
		{"a fill left out", "2023-07-10", "53030 mi", "43.2", "missed", "missed_fill", "yes"},
		{"next year", "2024-07-01", "52831 mi", "43.2", "date", "date_future", "2023-07-01"},
		{"the last one again", "2023-06-22", "52609", "*", "date", "duplicate", ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			e := newEstate()
			last := e.fills[len(e.fills)-1]
			if c.volume == "*" {
				c.date, c.odometer, c.volume = last[0], last[1], last[2]
			}
			dir := e.save(t)
			log := read(t, dir)
			draft, err := book.Draft(dir, book.FillsFile, book.Cells{"date": c.date, "odometer": c.odometer, "volume": c.volume})
			if err != nil {
				t.Fatal(err)
			}
			got := slip.Entry(log, draft.Fills[0], now)
			if c.kind == "" {
				if len(got) > 0 {
					t.Fatalf("after %v: %v", last, words(got))
				}
				return
			}
			if len(got) != 1 || got[0].Line != 22 || got[0].Column != c.column || got[0].Kind != c.kind {
				t.Fatalf("after %v want %s of %s, got %v", last, c.kind, c.column, words(got))
			}
			if c.correct != "" && !sameCell(suggested(got[0]), c.correct) && suggested(got[0]) != c.correct {
				t.Errorf("correction %s, want %s: %s", suggested(got[0]), c.correct, got[0].Message)
			}
			if c.kind == "missed_fill" && (!strings.Contains(got[0].Message, "mpg (UK) over 421 miles; yours is ")) {
				t.Errorf("the message does not tell what is usual: %s", got[0].Message)
			}
		})
	}
}

func TestEntryOfATripAndAJob(t *testing.T) {
	now := time.Date(2023, 7, 2, 12, 0, 0, 0, time.UTC)
	log := read(t, newEstate().save(t))
	date, _ := book.ParseMoment("2023-03-13")
	mile := 1.609344
	trip := book.Trip{Date: date, Start: 49900 * mile, End: 49930 * mile, Km: 30 * mile, AirC: math.NaN()}
	if got := slip.Entry(log, trip, now); len(got) > 0 {
		t.Errorf("a drive in order: %v", words(got))
	}
	trip.End, trip.Km = 49390*mile, math.NaN()
	if got := slip.Entry(log, trip, now); len(got) != 1 || got[0].File != book.TripsFile || suggested(got[0]) != "49930" {
		t.Errorf("a drive that ends before it starts: %v", words(got))
	}
	job := book.Job{Date: date, Odometer: 49917 * mile}
	if got := slip.Entry(log, job, now); len(got) > 0 {
		t.Errorf("a job in order: %v", words(got))
	}
	job.Odometer = 94917 * mile
	if got := slip.Entry(log, job, now); len(got) != 1 || got[0].File != book.WorkFile || suggested(got[0]) != "49917" {
		t.Errorf("a job out of line: %v", words(got))
	}
}

// The first rows of a logbook have nothing to be judged by.
func TestEntryIntoAnEmptyLog(t *testing.T) {
	date, _ := book.ParseMoment("2023-03-13")
	f := book.Fill{Date: date, Odometer: 77591, Litres: 45, Full: true, Cost: math.NaN(), TownShare: math.NaN()}
	if got := slip.Entry(&book.Book{}, f, date.AddDate(0, 0, 1)); len(got) > 0 {
		t.Errorf("got %v", words(got))
	}
	f.Litres = 450
	log := &book.Book{}
	log.Vehicle.Tank.CapacityL = math.NaN()
	if got := slip.Entry(log, f, date.AddDate(0, 0, 1)); len(got) != 1 || got[0].Kind != "volume_over_tank" {
		t.Errorf("450 L: %v", words(got))
	}
	log.Vehicle.Tank.CapacityL = 500
	if got := slip.Entry(log, f, date.AddDate(0, 0, 1)); len(got) > 0 {
		t.Errorf("450 L into 500: %v", words(got))
	}
}

// A log too long to be judged anew for each entry is judged by its newest rows, and by those about the entry's date.
func TestEntryIntoALongLog(t *testing.T) {
	w := newWorld(3)
	w.visits, w.since, w.kmPerDay, w.missed, w.partial, w.replacedAt, w.digits, w.told = 4000, 1960, 80, 0, 0, -1, 0, 0
	w.draw()
	b := w.book()
	for _, k := range []int{1500, len(b.Fills) - 1} {
		typed := b.Fills[k]
		without := *b
		without.Fills = append(append([]book.Fill{}, b.Fills[:k]...), b.Fills[k+1:]...)
		typed.Line = len(b.Fills) + 2
		typed.Litres *= 10
		got := slip.Entry(&without, typed, clock)
		if len(got) != 1 || got[0].Kind != "decimal_slip" || !sameCell(suggested(got[0]), fmt.Sprint(typed.Litres/10)) {
			t.Errorf("row %d, %.2f L for %.2f: %v", k, typed.Litres, typed.Litres/10, words(got))
		}
	}
}

// After the last fill no other reading bounds a drive or a job: what a tank holds, and the days since, do.
func TestEntryBeyondReach(t *testing.T) {
	now := time.Date(2023, 7, 2, 12, 0, 0, 0, time.UTC)
	log := read(t, newEstate().save(t))
	last := log.Fills[len(log.Fills)-1]
	date, _ := book.ParseMoment("2023-06-25")
	mile := 1.609344
	unknown := math.NaN()
	for _, c := range []struct {
		name            string
		start, end, km  float64 // miles; from the last fill's reading
		column, correct string
	}{
		{"a long day by its distance", unknown, unknown, 560, "", ""},
		{"a distance without its point", unknown, unknown, 5000, "distance_mi", "50.00"},
		{"a long day by its readings", 10, 570, unknown, "", ""},
		{"a digit in its end", 10, 30040, unknown, "odometer_end_mi", "52649"},
		{"a digit in both", 30010, 30040, unknown, "odometer_*", ""},
	} {
		at := func(x float64) float64 { return last.Odometer + x*mile }
		trip := book.Trip{Date: date, Start: at(c.start), End: at(c.end), Km: c.km * mile, AirC: unknown}
		if trip.Start > 0 {
			trip.Km = trip.End - trip.Start
		}
		got := slip.Entry(log, trip, now)
		if c.column == "" && len(got) > 0 || c.column != "" && (len(got) != 1 || !like(c.column, got[0].Column) || c.correct != "" && suggested(got[0]) != c.correct) {
			t.Errorf("%s: %v", c.name, words(got))
		}
	}
	job := book.Job{Date: date, Odometer: last.Odometer + 300*mile}
	if got := slip.Entry(log, job, now); len(got) > 0 {
		t.Errorf("a job in order: %v", words(got))
	}
	job.Odometer += 30000 * mile
	if got := slip.Entry(log, job, now); len(got) != 1 || got[0].Kind != "odometer_slip" {
		t.Errorf("a job out of reach: %v", words(got))
	}
}

// Of two readings exchanged, an entry is one row alone: it is told, but to give it the other's would put that reading down twice.
func TestEntryIsNotExchanged(t *testing.T) {
	e := newEstate()
	last := e.fills[len(e.fills)-1]
	mine := last[1]
	last[1] = "52831"
	dir := e.save(t)
	draft, err := book.Draft(dir, book.FillsFile, book.Cells{"date": "2023-07-01", "odometer": mine, "volume": "43.2"})
	if err != nil {
		t.Fatal(err)
	}
	got := slip.Entry(read(t, dir), draft.Fills[0], time.Date(2023, 7, 20, 12, 0, 0, 0, time.UTC))
	if len(got) != 1 || got[0].Column != "odometer_mi" || got[0].Suggestion != nil || !strings.Contains(got[0].Message, "exchanged with the reading in line 21") {
		t.Errorf("got %v", words(got))
	}
}

package slip_test

import (
	"fmt"
	"math"
	"slices"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
	"pgregory.net/rapid"

	"brimlog/ingest/book"
	"brimlog/ingest/slip"
)

// The order of rows in the files is not evidence: the same rows are named, whatever order they stand in. (Of two rows that are the
// same the one further down is the copy, so logbooks without one are drawn.)
func TestOrderOfRowsChangesNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := newWorld(rapid.Uint64Range(0, 500).Draw(t, "world"))
		w.draw()
		for _, kind := range []string{"wrong digit", "missed fill", "date order"} {
			w.plant(kind)
		}
		b := w.book()
		was := slip.Find(b, clock)
		rand := w.rng.Perm(len(b.Fills))
		shuffled := *b
		shuffled.Fills = nil
		for _, i := range rand {
			shuffled.Fills = append(shuffled.Fills, b.Fills[i]) // with its own line still
		}
		if diff := cmp.Diff(was, slip.Find(&shuffled, clock)); diff != "" {
			t.Fatal(diff)
		}
	})
}

// Find takes any rows, and leaves them as they are.
func TestAnyRowsWillDo(t *testing.T) {
	odd := []float64{0, 1, 12, 48213, 99999, 1e7, 0.01, math.NaN()}
	figure := rapid.OneOf(rapid.SampledFrom(odd), rapid.Float64Range(0, 1e5))
	rapid.Check(t, func(t *rapid.T) {
		b := &book.Book{Problems: []book.Problem{{Place: book.Place{File: book.FillsFile, Line: 3}, Kind: "bad_value"}}}
		b.Vehicle.Tank.CapacityL = figure.Draw(t, "capacity")
		b.Vehicle.Odometer.Digits = rapid.SampledFrom([]float64{math.NaN(), 5, 6}).Draw(t, "digits")
		day := rapid.IntRange(-400, 400)
		date := func() book.Moment {
			at := time.Date(2024, 1, 1, 0, 0, 0, 0, time.UTC).AddDate(0, 0, day.Draw(t, "day"))
			return book.Moment{Time: at, Timed: rapid.Bool().Draw(t, "timed")}
		}
		place := func(file string, n int) book.Place { return book.Place{File: file, Line: n + 2} }
		for i := range rapid.IntRange(0, 14).Draw(t, "fills") {
			b.Fills = append(b.Fills, book.Fill{Place: place(book.FillsFile, i), Date: date(), Odometer: figure.Draw(t, "odometer"),
				Litres: figure.Filter(func(x float64) bool { return x != 0 }).Draw(t, "litres"), Full: rapid.Bool().Draw(t, "full"),
				Missed: rapid.Bool().Draw(t, "missed"), Cost: figure.Draw(t, "cost"), TownShare: math.NaN()})
		}
		for i := range rapid.IntRange(0, 6).Draw(t, "trips") {
			b.Trips = append(b.Trips, book.Trip{Place: place(book.TripsFile, i), Date: date(), Start: figure.Draw(t, "start"),
				End: figure.Draw(t, "end"), Km: figure.Draw(t, "km"), AirC: math.NaN()})
		}
		for i := range rapid.IntRange(0, 3).Draw(t, "jobs") {
			j := book.Job{Place: place(book.WorkFile, i), Date: date(), Odometer: figure.Draw(t, "job")}
			if rapid.Bool().Draw(t, "replaced") {
				j.Readings = []book.Reading{{Name: "odometer_reset_to", Values: []float64{0}}}
			}
			b.Jobs = append(b.Jobs, j)
		}
		before := fmt.Sprintf("%+v", *b)
		problems := slip.Find(b, time.Date(2024, 6, 1, 0, 0, 0, 0, time.UTC))
		if after := fmt.Sprintf("%+v", *b); after != before {
			t.Fatalf("the book was changed:\n%s\n%s", before, after)
		}
		for _, p := range problems {
			if p.Message == "" && p.Line != 3 || p.Line < 1 || !slices.Contains(allKinds, p.Kind) || p.Line != 3 && p.Column == "" {
				t.Fatalf("%+v", p)
			}
		}
		if again := slip.Find(b, time.Date(2024, 6, 1, 0, 0, 0, 0, time.UTC)); !cmp.Equal(problems, again, cmpopts.EquateEmpty()) {
			t.Fatal(cmp.Diff(problems, again))
		}
	})
}

// allKinds are those that the program's documents may carry.
var allKinds = []string{"odometer_backwards", "odometer_slip", "odometer_rollover", "volume_over_tank", "unit_slip", "decimal_slip",
	"missed_fill", "short_fill", "duplicate", "date_order", "date_future", "bad_value", "unknown_unit", "unknown_word"}

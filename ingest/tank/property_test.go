package tank_test

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
	"pgregory.net/rapid"

	"brimlog/ingest/book"
	"brimlog/ingest/quantity"
	"brimlog/ingest/tank"
)

var start = time.Date(2023, 3, 1, 0, 0, 0, 0, time.UTC)

func day(n int) book.Moment { return book.Moment{Time: start.AddDate(0, 0, n)} }

// drawBook makes any log with whole readings: brims, part fills, holes, drives and jobs.
func drawBook(t *rapid.T) *book.Book {
	b := &book.Book{}
	b.Vehicle.Odometer = book.Odometer{Unit: "km", Digits: quantity.Unknown, Correction: rapid.SampledFrom([]float64{quantity.Unknown, 1, 1.03}).Draw(t, "correction")}
	b.Vehicle.Tank.CapacityL = quantity.Unknown
	when, km := 0, 5000.0
	for i := range rapid.IntRange(0, 14).Draw(t, "fills") {
		when += rapid.IntRange(1, 20).Draw(t, "days")
		km += float64(rapid.IntRange(30, 600).Draw(t, "km"))
		b.Fills = append(b.Fills, book.Fill{
			Place: book.Place{File: book.FillsFile, Line: i + 2}, Date: day(when), Odometer: km, Litres: float64(rapid.IntRange(5, 60).Draw(t, "litres")),
			Full: rapid.IntRange(0, 4).Draw(t, "full") > 0, Missed: rapid.IntRange(0, 7).Draw(t, "missed") == 0, Cost: quantity.Unknown,
			Fuel: rapid.SampledFrom([]string{"", "E5", "E10"}).Draw(t, "fuel"), TownShare: quantity.Unknown, Gauge: quantity.Unknown,
		})
	}
	for i := range rapid.IntRange(0, 12).Draw(t, "trips") {
		from := 4800 + float64(rapid.IntRange(0, 6000).Draw(t, "from"))
		length := float64(rapid.IntRange(1, 900).Draw(t, "length"))
		b.Trips = append(b.Trips, book.Trip{
			Place: book.Place{File: book.TripsFile, Line: i + 2}, Date: day(dayAt(b.Fills, from)), Start: from, End: from + length, Km: length,
			Road: rapid.SampledFrom([]string{"", "town", "open", "motorway"}).Draw(t, "road"), AirC: float64(rapid.IntRange(-5, 30).Draw(t, "air")),
			ColdStarts: 1, CruiseKmh: quantity.Unknown, IdleMin: quantity.Unknown, LoadKg: quantity.Unknown, TowKg: quantity.Unknown,
		})
	}
	for i := range rapid.IntRange(0, 5).Draw(t, "jobs") {
		j := book.Job{
			Place: book.Place{File: book.WorkFile, Line: i + 2}, ID: string(rune('a' + i)), Kind: rapid.SampledFrom([]string{"repair", "measure"}).Draw(t, "kind"),
			Areas: []string{"fuel"}, Odometer: quantity.Unknown, Cost: quantity.Unknown, Hours: quantity.Unknown, IdleMin: quantity.Unknown, FuelLostL: quantity.Unknown,
		}
		if at := 4800 + float64(rapid.IntRange(0, 6000).Draw(t, "at")); rapid.Bool().Draw(t, "read") {
			j.Odometer, j.Date = at, day(dayAt(b.Fills, at))
		} else {
			j.Date = day(rapid.IntRange(-5, when+5).Draw(t, "on"))
		}
		b.Jobs = append(b.Jobs, j)
	}
	return b
}

// dayAt is a day on which the odometer stood there: the day after the last fill below it.
func dayAt(fills []book.Fill, km float64) int {
	d := -1
	for _, f := range fills {
		if f.Odometer <= km {
			d = int(f.Date.Sub(start).Hours() / 24)
		}
	}
	return d
}

// All road between the first brim and the last is in a tank or in a gap, once; all fuel after the brim that opens a tank is
// in it, once; shares are shares.
func TestRoadAndFuelAreConserved(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := drawBook(t)
		l := tank.Build(b)
		factor := quantity.Or(b.Vehicle.Odometer.Correction, 1)
		after := 0.0
		for i, k := range l.Tanks {
			if math.Abs(k.Km-factor*(k.Closes.Odometer-k.Opens.Odometer)) > 1e-6 || math.Abs(k.To-k.From-k.Km) > 1e-6 {
				t.Fatalf("tank %d: %v km from %v to %v, odometer %v to %v", i+1, k.Km, k.From, k.To, k.Opens.Odometer, k.Closes.Odometer)
			}
			if k.From < after-1e-6 {
				t.Fatalf("tank %d begins before the last one ended", i+1)
			}
			if k.Chained != (i > 0 && l.Tanks[i-1].Closes.Line == k.Opens.Line) {
				t.Fatalf("tank %d: chained %v", i+1, k.Chained)
			}
			after = k.To
			litres, partials := 0.0, 0
			for _, f := range b.Fills[k.Opens.Line-1 : k.Closes.Line-1] {
				litres += f.Litres
				if f.Missed {
					t.Fatalf("tank %d spans the missed fill of line %d", i+1, f.Line)
				}
				if !f.Full {
					partials++
				}
			}
			if k.Litres != litres || k.Partials != partials || !k.Opens.Full || !k.Closes.Full {
				t.Fatalf("tank %d: %v L, %d partials; bought %v, %d", i+1, k.Litres, k.Partials, litres, partials)
			}
			checkShares(t, l, k)
		}
		checkNothingLost(t, b, l)
	})
}

func checkShares(t *rapid.T, l *tank.Log, k tank.Tank) {
	burnt := 0.0
	for _, share := range k.Blend {
		burnt += share
	}
	if math.Abs(burnt-1) > 1e-9 {
		t.Fatalf("tank %d burnt %v of a tank: %v", k.Number, burnt, k.Blend)
	}
	if s := k.NotedShare(); s < 0 || s > 1 {
		t.Fatalf("tank %d: noted %v", k.Number, s)
	}
	for _, w := range k.Work {
		if w.After < 0 || w.After > 1 || l.Jobs[w.Job].Measure() || l.Jobs[w.Job].Tank != k.Number-1 {
			t.Fatalf("tank %d: share %+v of job %+v", k.Number, w, l.Jobs[w.Job])
		}
	}
}

// checkNothingLost holds that every pair of brims with no hole between them makes a tank, and every job and trip is kept.
func checkNothingLost(t *rapid.T, b *book.Book, l *tank.Log) {
	open, want := -1, 0
	for i, f := range b.Fills {
		if f.Missed {
			open = -1
		}
		if f.Full {
			if open >= 0 {
				want++
			}
			open = i
		}
	}
	if len(l.Tanks) != want || len(l.Jobs) != len(b.Jobs) || len(l.Trips) != len(b.Trips) {
		t.Fatalf("%d tanks of %d, %d jobs of %d, %d trips of %d", len(l.Tanks), want, len(l.Jobs), len(b.Jobs), len(l.Trips), len(b.Trips))
	}
	worked := map[int]int{}
	for _, k := range l.Tanks {
		for _, w := range k.Work {
			worked[w.Job]++
		}
	}
	for i, j := range l.Jobs {
		if once := !j.Measure() && j.Tank < len(l.Tanks); (worked[i] == 1) != once {
			t.Fatalf("job %s is in %d tanks", j.ID, worked[i])
		}
	}
}

// The files' order of rows is the owner's own affair.
func TestOrderOfRowsIsIrrelevant(t *testing.T) {
	alike := cmp.Options{cmpopts.EquateNaNs(), cmpopts.EquateApprox(0, 1e-9)}
	rapid.Check(t, func(t *rapid.T) {
		b := drawBook(t)
		// Two entries on one day without a reading have no order but the file's.
		b.Jobs, b.Trips = oneADay(b.Jobs, func(j book.Job) book.Moment { return j.Date }), oneADay(b.Trips, func(t book.Trip) book.Moment { return t.Date })
		want := tank.Build(b)
		rng := rand.New(rand.NewPCG(rapid.Uint64().Draw(t, "seed"), 0))
		b.Fills = slices.Clone(b.Fills) // the tanks above point to those they were made of
		rng.Shuffle(len(b.Fills), func(i, j int) { b.Fills[i], b.Fills[j] = b.Fills[j], b.Fills[i] })
		rng.Shuffle(len(b.Trips), func(i, j int) { b.Trips[i], b.Trips[j] = b.Trips[j], b.Trips[i] })
		rng.Shuffle(len(b.Jobs), func(i, j int) { b.Jobs[i], b.Jobs[j] = b.Jobs[j], b.Jobs[i] })
		if d := cmp.Diff(want, tank.Build(b), alike, cmpopts.IgnoreFields(book.Vehicle{}, "From")); d != "" {
			t.Fatal(d)
		}
	})
}

func oneADay[R any](rows []R, date func(R) book.Moment) (out []R) {
	seen := map[time.Time]bool{}
	for _, r := range rows {
		if d := date(r).Time; !seen[d] {
			seen[d] = true
			out = append(out, r)
		}
	}
	return out
}

// Fuel bought in two receipts at one stop is the same fuel.
func TestSplitPartFillChangesNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := drawBook(t)
		want := tank.Build(b)
		var split []book.Fill
		for _, f := range b.Fills {
			if !f.Full && !f.Missed && f.Litres > 1 {
				f.Litres--
				split = append(split, f)
				f.Litres, f.Line = 1, f.Line+1000
			}
			split = append(split, f)
		}
		b.Fills = split
		got := tank.Build(b)
		ignore := cmp.Options{cmpopts.IgnoreFields(tank.Tank{}, "Partials"), cmpopts.IgnoreFields(tank.Open{}, "Fills"), cmpopts.IgnoreFields(book.Vehicle{}, "From")}
		if d := cmp.Diff(want, got, cmpopts.EquateNaNs(), cmpopts.EquateApprox(1e-12, 1e-9), ignore); d != "" {
			t.Fatal(d)
		}
	})
}

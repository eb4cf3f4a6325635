package main

import (
	"fmt"
	"io"
	"testing"

	"brimlog/charts"
	"brimlog/ingest/book"
	"brimlog/ingest/slip"
	"brimlog/ingest/tank"
	"brimlog/stats"
	"brimlog/stats/model"
	"brimlog/stats/prove"
	"brimlog/testdata/drawn"
)

// Thirty years of one car, and ten times as many tanks: go test ./cmd/brimlog -run x -bench Years -benchtime 3x. Each reports
// its time per tank, which must stay the same.

const thirtyYears = 1560 // tanks, with some 10,000 drives and 60 jobs

func years(times int) drawn.Plan {
	p := drawn.Plan{Seed: 1974, Tanks: thirtyYears * times, Part: 0.1, Days: 4} // so that ten times as many tanks stay within the calendar
	areas := []string{"ignition", "fuel", "other", "tyres", "exhaust", "brakes"}
	kinds := []string{"service", "adjust", "repair", "fit"}
	for i := range 60 * times {
		p.Jobs = append(p.Jobs, drawn.Job{
			ID: fmt.Sprintf("job-%d", i), Kind: kinds[i%4], Area: areas[i%6], After: 12 + 25*i, Pct: []float64{0, -6, 0, 6}[i%4],
		})
	}
	return p
}

// overYears runs what is measured on both logbooks.
func overYears(b *testing.B, measured func(*book.Book) func()) {
	for _, times := range []int{1, 10} {
		dir := b.TempDir()
		if err := years(times).Draw().Write(dir, drawn.Metric); err != nil {
			b.Fatal(err)
		}
		log, err := book.Read(dir)
		if err != nil {
			b.Fatal(err)
		}
		if n := len(tank.Build(log).Tanks); n != thirtyYears*times {
			b.Fatalf("%d tanks", n)
		}
		b.Run(fmt.Sprintf("%dtanks-%dtrips-%djobs", thirtyYears*times, len(log.Trips), len(log.Jobs)), func(b *testing.B) {
			run := measured(log)
			b.ReportAllocs()
			for b.Loop() {
				run()
			}
			b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N*thirtyYears*times), "ns/tank")
		})
	}
}

func BenchmarkYearsRead(b *testing.B) {
	overYears(b, func(log *book.Book) func() {
		return func() {
			if _, err := book.Read(log.Dir); err != nil {
				b.Fatal(err)
			}
		}
	})
}

func BenchmarkYearsBuild(b *testing.B) {
	overYears(b, func(log *book.Book) func() { return func() { tank.Build(log) } })
}

func BenchmarkYearsDesign(b *testing.B) {
	overYears(b, func(log *book.Book) func() {
		l := tank.Build(log)
		return func() { model.NewDesign(l) }
	})
}

// All jobs, without placebo jobs.
func BenchmarkYearsProveAll(b *testing.B) {
	overYears(b, func(log *book.Book) func() {
		l := tank.Build(log)
		d := model.NewDesign(l)
		return func() { prove.All(l, d, -1) }
	})
}

// The same with placebo jobs for one, as prove ID has it.
func BenchmarkYearsProveOne(b *testing.B) {
	overYears(b, func(log *book.Book) func() {
		l := tank.Build(log)
		d := model.NewDesign(l)
		return func() { prove.All(l, d, l.Jobs[30].Tank) }
	})
}

// The page once all is reckoned: writing alone.
func BenchmarkYearsPage(b *testing.B) {
	overYears(b, func(log *book.Book) func() {
		r := stats.Look(log, stats.Options{Prove: true, Watch: true, Expect: true})
		return func() {
			if err := charts.Write(io.Discard, r); err != nil {
				b.Fatal(err)
			}
		}
	})
}

// Every entry held against the log, trips and jobs among them.
func BenchmarkYearsCheck(b *testing.B) {
	overYears(b, func(log *book.Book) func() { return func() { slip.Find(log, log.Last().Time) } })
}

func BenchmarkYearsWatch(b *testing.B) {
	overYears(b, func(log *book.Book) func() {
		return func() { stats.Look(log, stats.Options{Watch: true}) }
	})
}

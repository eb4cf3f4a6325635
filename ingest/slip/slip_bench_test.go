package slip_test

import (
	"testing"

	"brimlog/ingest/slip"
)

// A logbook of thirty years, a visit a week.
func BenchmarkFind1560(b *testing.B) { benchmarkFind(b, 1560) }

// Ten times as many visits: the time has to grow no faster.
func BenchmarkFind15600(b *testing.B) { benchmarkFind(b, 15_600) }

func benchmarkFind(b *testing.B, visits int) {
	w := newWorld(42)
	w.visits, w.since, w.kmPerDay = visits, 1900, 450
	w.draw()
	log := read(b, w.write(b))
	b.ResetTimer()
	for b.Loop() {
		slip.Find(log, clock)
	}
	b.ReportMetric(float64(len(slip.Find(log, clock))), "problems")
}

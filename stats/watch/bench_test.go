package watch

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"
	"time"
)

// Shifts of a log that slips and is put right again every hundred tanks: go test ./stats/watch -run x -bench Shifts. The time per tank must
// stay the same, whatever the length of the log.
func BenchmarkShifts(b *testing.B) {
	for _, n := range []int{400, 1600, 6400} {
		rng := rand.New(rand.NewPCG(5, 5))
		x := make([]float64, n)
		for i := range x {
			x[i] = rng.NormFloat64() + 4*math.Floor(float64(i/50%2))
		}
		l, d := plain(x, 1, time.Date(1000, 1, 1, 0, 0, 0, 0, time.UTC), 24*time.Hour)
		_, c := d.Ask(nil)
		b.Run(fmt.Sprintf("%dtanks", n), func(b *testing.B) {
			found := 0
			for b.Loop() {
				found = len(Shifts(l, d, c))
			}
			b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N*n), "ns/tank")
			b.ReportMetric(float64(found), "shifts")
		})
	}
}

package slip_test

import (
	"fmt"
	"os"
	"testing"
	"time"

	"brimlog/ingest/slip"
)

func TestMillion(t *testing.T) {
	if os.Getenv("MILLION") == "" {
		t.Skip()
	}
	for _, c := range []time.Time{clock, time.Date(1901, 1, 1, 0, 0, 0, 0, time.UTC)} {
		w := newWorld(42)
		w.visits, w.since, w.kmPerDay, w.trips = 1_000_000, 1900, 450*64, false
		w.draw()
		b := w.book()
		b.Dir = w.write(t)
		s := time.Now()
		n := len(slip.Find(b, c))
		fmt.Println(len(b.Fills), n, time.Since(s))
	}
}

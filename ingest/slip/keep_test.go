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
	w := newWorld(42)
	w.visits, w.since, w.kmPerDay, w.trips = 1_000_000, 1900, 250*64, false
	w.draw()
	b := w.book()
	b.Dir = w.write(t)
	s := time.Now()
	n := len(slip.Find(b, clock))
	fmt.Println(len(b.Fills), n, time.Since(s))
}

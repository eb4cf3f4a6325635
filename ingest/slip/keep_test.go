package slip_test

import (
	"os"
	"strconv"
	"testing"
)

func TestKeep(t *testing.T) {
	if os.Getenv("KEEP2") == "" {
		t.Skip()
	}
	n, _ := strconv.Atoi(os.Getenv("N"))
	w := newWorld(42)
	w.visits = n
	w.since = 1990
	w.kmPerDay = 150 * float64(n) / 1560
	w.draw()
	os.CopyFS(os.Getenv("KEEP2"), os.DirFS(w.write(t)))
}

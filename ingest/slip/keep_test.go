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
	seed, _ := strconv.Atoi(os.Getenv("SEED"))
	w := newWorld(uint64(seed))
	w.draw()
	os.CopyFS(os.Getenv("KEEP2"), os.DirFS(w.write(t)))
}

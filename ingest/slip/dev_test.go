package slip_test

import (
	"fmt"
	"os"
	"testing"

	"brimlog/ingest/slip"
)

func TestDev(t *testing.T) {
	which := os.Getenv("DEV")
	if which == "" {
		t.Skip()
	}
	for i := range *books / 4 {
		s := *seed + 10_000 + uint64(i)
		w := newWorld(s)
		switch which {
		case "roll":
			w.nearRollOver()
		case "season":
			w.swing = 0.25
		case "holiday":
			w.holiday = true
		case "gap":
			w.gapAt = 7
		case "tail":
			w.tail = true
		case "often":
			w.low, w.kmPerDay = 0.5, 150
		}
		w.draw()
		dir := w.write(t)
		got := slip.Find(read(t, dir), clock)
		for _, p := range got {
			fmt.Println(s, p.Error(), p.Kind, suggested(p))
		}
		if len(got) > 0 {
			d := fmt.Sprintf("/tmp/kept/dev-%d", s)
			os.RemoveAll(d)
			os.CopyFS(d, os.DirFS(dir))
		}
	}
}

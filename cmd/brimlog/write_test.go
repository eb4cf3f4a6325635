package main

import (
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/spf13/cobra"

	"brimlog/ingest/book"
)

// Between judging and writing another program may write: the same row is refused even with --yes, another one is judged anew.
func TestWriteHoldsAgain(t *testing.T) {
	for _, c := range []struct {
		name  string
		file  string
		mine  book.Cells
		yes   bool
		other book.Cells
		want  string
	}{
		{"the same fill", book.FillsFile, book.Cells{"date": "2025-02-04", "odometer": "56000", "volume": "45.9"}, false,
			book.Cells{"date": "2025-02-04", "odometer_mi": "56000", "volume": "45.90 l"}, "very same row"},
		{"the same drive, written anyway", book.TripsFile, book.Cells{"date": "2025-02-04", "distance": "9"}, true,
			book.Cells{"date": "2025-02-04", "distance": "9"}, "very same row"},
		{"nearly the same fill", book.FillsFile, book.Cells{"date": "2025-02-04", "odometer": "56000", "volume": "45.9"}, false,
			book.Cells{"date": "2025-02-04", "odometer": "56000", "volume": "45.9", "cost": "70"}, "the same fill as in line 42"},
		{"another drive", book.TripsFile, book.Cells{"date": "2025-02-04", "distance": "9"}, false, book.Cells{"date": "2025-02-04", "distance": "12"}, ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			dir := steadyLog(t)
			a := &app{in: strings.NewReader(""), out: io.Discard, err: io.Discard, dir: dir}
			e := a.newEntry(&cobra.Command{}, c.file)
			e.cells, e.yes = c.mine, c.yes
			if err := e.look(); err != nil {
				t.Fatal(err)
			}
			if err := e.hold(); err != nil {
				t.Fatal(err)
			}
			if _, err := book.Append(dir, c.file, c.other); err != nil {
				t.Fatal(err)
			}
			was := lastLine(t, dir, c.file)
			line, err := e.write()
			if c.want == "" && (err != nil || line == 0) || c.want != "" && (err == nil || !strings.Contains(err.Error(), c.want) || lastLine(t, dir, c.file) != was) {
				t.Errorf("line %d, %v, want %q", line, err, c.want)
			}
		})
	}
}

// Two programs add the same row at the same time: one of them does.
func TestTwoProgramsOneRow(t *testing.T) {
	exe, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	dir := steadyLog(t)
	before, err := os.ReadFile(filepath.Join(dir, "trips.csv"))
	if err != nil {
		t.Fatal(err)
	}
	for round := range 8 {
		if err := os.WriteFile(filepath.Join(dir, "trips.csv"), before, 0o644); err != nil {
			t.Fatal(err)
		}
		var both [3]*exec.Cmd
		for i := range both {
			both[i] = exec.Command(exe, "trip", "--date", "2025-02-04", "--odometer-start", "55810", "--odometer-end", "55830")
			both[i].Args[0] = "brimlog"
			both[i].Env = append(os.Environ(), "BRIMLOG_BOOK="+dir)
			if err := both[i].Start(); err != nil {
				t.Fatal(err)
			}
		}
		done := 0
		for _, c := range both {
			if c.Wait() == nil {
				done++
			}
		}
		after, err := os.ReadFile(filepath.Join(dir, "trips.csv"))
		if n := strings.Count(string(after), "2025-02-04"); err != nil || n != 1 || done != 1 {
			t.Fatalf("round %d: %d of %d programs say that they wrote, and the row is there %d times", round, done, len(both), n)
		}
	}
}

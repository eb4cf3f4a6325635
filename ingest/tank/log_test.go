package tank_test

import (
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"brimlog/ingest/book"
	"brimlog/ingest/tank"
)

// A folder is a logbook as an owner writes it; what is empty is no file.
type folder struct{ vehicle, fills, trips, work string }

// build reads the folder and makes its tanks.
func (f folder) build(t *testing.T) *tank.Log {
	t.Helper()
	return tank.Build(f.read(t))
}

func (f folder) read(t *testing.T) *book.Book {
	t.Helper()
	dir := t.TempDir()
	for name, text := range map[string]string{
		"vehicle.toml": "name = \"Test\"\n" + f.vehicle, "fills.csv": f.fills, "trips.csv": f.trips, "work.csv": f.work,
	} {
		if text == "" {
			continue
		}
		// Rows are set in for the eye.
		lines := strings.Split(strings.TrimSpace(text), "\n")
		for i := range lines {
			lines[i] = strings.TrimSpace(lines[i])
		}
		if err := os.WriteFile(filepath.Join(dir, name), []byte(strings.Join(lines, "\n")+"\n"), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	b, err := book.Read(dir)
	if err != nil {
		t.Fatal(err)
	}
	return b
}

// A span is a tank in short: its lines, its distance and its fuel.
type span struct {
	from, to   int
	km, litres float64
}

// expectTanks compares the tanks of a log, to a metre and a millilitre.
func expectTanks(t *testing.T, l *tank.Log, want ...span) {
	t.Helper()
	if len(l.Tanks) != len(want) {
		t.Errorf("%d tanks, want %d", len(l.Tanks), len(want))
	}
	for i, k := range l.Tanks {
		if k.Number != i+1 {
			t.Errorf("tank %d is numbered %d", i+1, k.Number)
		}
		if i >= len(want) {
			t.Errorf("tank %d: lines %d to %d, not wanted", i+1, k.Opens.Line, k.Closes.Line)
			continue
		}
		w := want[i]
		if k.Opens.Line != w.from || k.Closes.Line != w.to || !near(k.Km, w.km) || !near(k.Litres, w.litres) {
			t.Errorf("tank %d: lines %d to %d, %.4f km, %.4f L; want %d to %d, %.4f km, %.4f L",
				i+1, k.Opens.Line, k.Closes.Line, k.Km, k.Litres, w.from, w.to, w.km, w.litres)
		}
	}
}

func near(a, b float64) bool { return math.Abs(a-b) < 1e-3 }

func expect(t *testing.T, what string, got, want float64) {
	t.Helper()
	if !near(got, want) {
		t.Errorf("%s: %v, want %v", what, got, want)
	}
}

const mile = 1.609344 // km, exactly

package slip_test

import (
	"flag"
	"fmt"
	"maps"
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"brimlog/ingest/book"
	"brimlog/ingest/slip"
)

// The shares are measured on logbooks that no figure of the package was chosen by: those were drawn from other seeds.
var (
	seed  = flag.Uint64("seed", 1_300_001, "first seed of the logbooks that are drawn")
	books = flag.Int("books", 200, "how many logbooks are drawn")
)

var clock = time.Date(2060, 1, 1, 0, 0, 0, 0, time.UTC)

func read(t testing.TB, dir string) *book.Book {
	t.Helper()
	b, err := book.Read(dir)
	if err != nil {
		t.Fatal(err)
	}
	return b
}

// mostDoubts is the bar: one false doubt in so many rows of fills.
const mostDoubts = 200

func TestCleanLogbooksRaiseFewDoubts(t *testing.T) {
	rows, doubts := 0, map[string]int{}
	for i := range *books {
		w := newWorld(*seed + uint64(i))
		w.draw()
		falseDoubts(t, w, &rows, doubts)
	}
	few(t, "all", rows, doubts)
}

// What happens to a vehicle and its log in the ordinary course of years is no slip.
func TestTheOrdinaryIsNoSlip(t *testing.T) {
	ordinary := map[string]func(*world){
		"a quarter more in winter, a quarter less in summer": func(w *world) { w.swing = 0.25 },
		"a tail of odd tanks":                                func(w *world) { w.tail = true },
		"holidays with a caravan":                            func(w *world) { w.holiday = true },
		"a long gap":                                         func(w *world) { w.gapAt = 7 },
		"a quarter less from one tank on":                    func(w *world) { w.steppedAt, w.step = 9, -0.25 },
		"a quarter more from one tank on":                    func(w *world) { w.steppedAt, w.step = 9, 0.25 },
		"a roll-over":                                        func(w *world) { w.nearRollOver() },
		"another instrument":                                 func(w *world) { w.replacedAt = 8 },
		"a corrected odometer":                               func(w *world) { w.correction = 0.93 },
		"many part fills":                                    func(w *world) { w.partial = 0.3 },
		"fills that the owner knows not to have noted":       func(w *world) { w.missed = 0.08 },
		"drives noted":                                       func(w *world) { w.trips = true },
		"a visit every other day":                            func(w *world) { w.low, w.kmPerDay = 0.5, 150 },
		"a visit in six weeks":                               func(w *world) { w.kmPerDay = 10 },
	}
	for _, name := range slices.Sorted(maps.Keys(ordinary)) {
		rows, doubts := 0, map[string]int{}
		for i := range *books / 4 {
			w := newWorld(*seed + 10_000 + uint64(i))
			ordinary[name](w)
			w.draw()
			falseDoubts(t, w, &rows, doubts)
		}
		few(t, name, rows, doubts)
	}
}

func falseDoubts(t *testing.T, w *world, rows *int, doubts map[string]int) {
	b := read(t, w.write(t))
	*rows += len(b.Fills)
	for _, p := range slip.Find(b, clock) {
		doubts[p.Kind]++
	}
}

func few(t *testing.T, name string, rows int, doubts map[string]int) {
	t.Helper()
	n := 0
	for _, c := range doubts {
		n += c
	}
	t.Logf("%-52s %5d rows, a false doubt in %.0f %v", name, rows, float64(rows)/float64(n), doubts)
	if n*mostDoubts > rows {
		t.Errorf("%s: %d false doubts in %d rows, want at most one in %d", name, n, rows, mostDoubts)
	}
}

// A tally counts what became of planted slips.
type tally struct{ planted, found, cells, right int }

func (a tally) String() string {
	return fmt.Sprintf("%4d planted, found %5.1f %%, right correction %5.1f %% of %d", a.planted, percent(a.found, a.planted), percent(a.right, a.cells), a.cells)
}

func (a *tally) add(b tally) {
	a.planted, a.found, a.cells, a.right = a.planted+b.planted, a.found+b.found, a.cells+b.cells, a.right+b.right
}

func percent(a, b int) float64 { return 100 * float64(a) / float64(b) }

// fate holds what was found against what was planted. Of a row that stands twice either may be named.
func (w *world) fate(p planted, got []book.Problem) tally {
	a, line := tally{planted: 1}, w.line(p)
	hit := slices.IndexFunc(got, func(q book.Problem) bool {
		return q.File == book.FillsFile && (q.Line == line || p.kind == "duplicate" && q.Line == line-1)
	})
	if hit >= 0 {
		a.found = 1
	}
	if p.was != "" {
		a.cells = 1
		if hit >= 0 && sameCell(suggested(got[hit]), p.was) {
			a.right = 1
		}
	}
	return a
}

func TestPlantedSlipsAreFound(t *testing.T) {
	all, kinds := tally{}, map[string]*tally{}
	for i := range *books {
		w := newWorld(*seed + 20_000 + uint64(i))
		w.draw()
		for range 1 + w.rng.IntN(3) {
			w.plant(pick(w.rng, plantedKinds...))
		}
		got := slip.Find(read(t, w.write(t)), clock)
		for _, p := range w.slips {
			a := w.fate(p, got)
			all.add(a)
			if kinds[p.kind] == nil {
				kinds[p.kind] = &tally{}
			}
			kinds[p.kind].add(a)
		}
	}
	for _, kind := range slices.Sorted(maps.Keys(kinds)) {
		t.Logf("%-14s %s", kind, kinds[kind])
	}
	t.Logf("%-14s %s", "all", all)
	if len(kinds) < len(plantedKinds) || all.planted < *books {
		t.Fatalf("planted %d slips of %d kinds: too few to tell", all.planted, len(kinds))
	}
	if 10*all.found < 9*all.planted {
		t.Errorf("found %.1f %%, want 90", percent(all.found, all.planted))
	}
	if 10*all.right < 8*all.cells {
		t.Errorf("right correction in %.1f %%, want 80", percent(all.right, all.cells))
	}
}

// sameCell holds a correction against what stood there: the same date, or a figure that differs by rounding.
func sameCell(got, want string) bool {
	if strings.Contains(want, "-") {
		return got == want
	}
	x, e1 := strconv.ParseFloat(got, 64)
	y, e2 := strconv.ParseFloat(want, 64)
	return e1 == nil && e2 == nil && math.Abs(x-y) <= 0.003*y
}

func suggested(p book.Problem) string {
	if p.Suggestion == nil {
		return "-"
	}
	return *p.Suggestion
}

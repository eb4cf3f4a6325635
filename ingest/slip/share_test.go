package slip_test

import (
	"flag"
	"fmt"
	"math"
	"os"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"brimlog/ingest/book"
	"brimlog/ingest/slip"
)

var (
	seeds = flag.Uint64("seeds", 1000, "first seed of the logbooks that are drawn")
	books = flag.Int("books", 60, "how many logbooks are drawn for each kind of slip")
	only  = flag.String("only", "", "one kind of slip")
)

var clock = time.Date(2060, 1, 1, 0, 0, 0, 0, time.UTC)

func read(t testing.TB, dir string) *book.Book {
	b, err := book.Read(dir)
	if err != nil {
		t.Fatal(err)
	}
	return b
}

func TestCleanLogbooksRaiseFewDoubts(t *testing.T) {
	rows, doubts := 0, 0
	kinds := map[string]int{}
	for i := range *books * 4 {
		w := newWorld(*seeds + uint64(i))
		w.draw()
		b := read(t, w.write(t))
		rows += len(b.Fills)
		for _, p := range slip.Find(b, clock) {
			doubts++
			kinds[p.Kind]++
			if testing.Verbose() {
				fmt.Println("seed", *seeds+uint64(i), p.Error(), p.Kind, suggested(p))
			}
		}
	}
	t.Logf("%d rows, %d doubts: one in %.0f %v", rows, doubts, float64(rows)/float64(doubts), kinds)
}

type slipProblem = book.Problem

func suggested(p book.Problem) string {
	if p.Suggestion == nil {
		return "-"
	}
	return *p.Suggestion
}

// A tally counts what became of planted slips of a kind.
type tally struct{ planted, found, cells, right int }

func (a tally) String() string {
	return fmt.Sprintf("%4d planted, found %5.1f %%, right correction %5.1f %% of %d", a.planted, pct(a.found, a.planted), pct(a.right, a.cells), a.cells)
}

// count holds what was found against what was planted.
func (a *tally) count(w *world, p planted, got []book.Problem) bool {
	a.planted++
	line := w.line(p)
	hit := slices.IndexFunc(got, func(q book.Problem) bool {
		return q.File == book.FillsFile && (q.Line == line || p.kind == "duplicate" && q.Line == line-1)
	})
	if hit >= 0 {
		a.found++
	}
	if p.was == "" {
		return hit >= 0
	}
	a.cells++
	if hit >= 0 && sameCell(suggested(got[hit]), p.was) {
		a.right++
		return true
	}
	return false
}

func TestPlantedSlipsAreFound(t *testing.T) {
	all, kinds := tally{}, map[string]*tally{}
	others := 0
	for i := range *books {
		seed := *seeds + uint64(i)*31 + 7
		w := newWorld(seed)
		w.draw()
		for range 1 + w.rng.IntN(3) {
			kind := pick(w.rng, plantedKinds...)
			if *only != "" {
				kind = *only
			}
			w.plant(kind)
		}
		dir := w.write(t)
		if d := os.Getenv("KEEP"); d != "" {
			os.CopyFS(fmt.Sprintf("%s/%d", d, seed), os.DirFS(dir))
		}
		got := slip.Find(read(t, dir), clock)
		others += len(got)
		for _, p := range w.slips {
			if kinds[p.kind] == nil {
				kinds[p.kind] = &tally{}
			}
			before := all.found
			ok := all.count(w, p, got)
			kinds[p.kind].count(w, p, got)
			others -= all.found - before
			if !ok && os.Getenv("V") != "" {
				fmt.Printf("WRONG %s seed %d line %d %s was %s is %s size %.2f\n", p.kind, seed, w.line(p), p.column, p.was, p.row, p.size)
				for _, q := range got {
					fmt.Println("   ", q.Error(), q.Kind, suggested(q))
				}
			}
		}
	}
	for kind, a := range kinds {
		t.Logf("%-14s %s", kind, a)
	}
	t.Logf("all            %s; other problems %d", all, others)
}

func pct(a, b int) float64 { return 100 * float64(a) / float64(b) }

// sameCell holds a correction against what stood there: the same date, or a figure that differs by rounding.
func sameCell(got, want string) bool {
	if strings.Contains(want, "-") {
		return got == want
	}
	x, e1 := strconv.ParseFloat(got, 64)
	y, e2 := strconv.ParseFloat(want, 64)
	return e1 == nil && e2 == nil && math.Abs(x-y) <= 0.003*y
}

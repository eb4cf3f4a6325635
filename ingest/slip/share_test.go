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

func TestPlantedSlipsAreFound(t *testing.T) {
	for _, kind := range []string{"wrong digit", "transposition", "dropped digit", "decimal", "unit", "missed fill", "duplicate", "short fill", "date order"} {
		if *only != "" && *only != kind {
			continue
		}
		n, found, cells, right, extra := 0, 0, 0, 0, 0
		for i := range *books {
			seed := *seeds + uint64(i)*31 + 7
			w := newWorld(seed)
			w.draw()
			taken := map[int]bool{}
			p, ok := w.plant(kind, taken)
			if !ok {
				continue
			}
			n++
			dir := w.write(t)
			if d := os.Getenv("KEEP"); d != "" {
				os.CopyFS(fmt.Sprintf("%s/%s-%d", d, strings.ReplaceAll(kind, " ", "_"), seed), os.DirFS(dir))
			}
			b := read(t, dir)
			got := slip.Find(b, clock)
			hit := slices.IndexFunc(got, func(q book.Problem) bool { return q.File == "fills.csv" && hits(p, q) })
			if hit >= 0 {
				found++
			}
			extra += len(got) - min(1, hit+1)
			if p.was != "" {
				cells++
				if hit >= 0 && sameCell(suggested(got[hit]), p.was) {
					right++
				} else if os.Getenv("V") != "" {
					fmt.Printf("WRONG %s seed %d line %d %s was %s is %s size %.2f\n", kind, seed, p.line, p.column, p.was, w.fills[p.line-2], p.size)
					for _, q := range got {
						fmt.Println("   ", q.Error(), q.Kind, suggested(q))
					}
				}
			} else if hit < 0 && os.Getenv("V") != "" {
				fmt.Printf("MISSED %s seed %d line %d size %.2f %v\n", kind, seed, p.line, p.size, w.fills[p.line-2])
				for _, q := range got {
					fmt.Println("   ", q.Error(), q.Kind, suggested(q))
				}
			}
		}
		t.Logf("%-14s %4d planted, found %5.1f %%, right correction %5.1f %% of %d, other problems %d", kind, n, pct(found, n), pct(right, cells), cells, extra)
	}
}

func hits(p planted, q book.Problem) bool {
	return q.Line == p.line || p.kind == "duplicate" && q.Line == p.line+1
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

package main

import (
	"go/parser"
	"go/token"
	"io/fs"
	"path"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// rooms stand from the top of the house to the ground. A room may import those that stand below it.
var rooms = []string{
	"cmd/brimlog",
	"charts",
	"stats",
	"stats/suspect",
	"stats/expect",
	"stats/engine",
	"stats/prove",
	"stats/watch",
	"stats/model",
	"stats/calc",
	"ingest/tank",
	"ingest/slip", // knows its own tanks, of rows as they were meant
	"ingest/book/foreign",
	"ingest/book",
	"ingest/quantity",
	"ingest/ahead",
	"testdata",
}

// keptTo says where alone a library may be imported.
var keptTo = []struct {
	library string
	room    func(string) bool
}{
	{"github.com/gocarina/gocsv", is("ingest/book")},
	{"github.com/spf13/cobra", under("cmd")},
	{"github.com/spf13/pflag", under("cmd")},
	{"golang.org/x/term", under("cmd")},
	{"github.com/go-echarts/go-echarts", is("charts")},
	{"gonum.org/v1/gonum", under("stats")},
	{"golang.org/x/text", under("ingest")},
	// of the tests alone
	{"github.com/chromedp/chromedp", nowhere},
	{"github.com/google/go-cmp", nowhere},
	{"github.com/rogpeppe/go-internal", nowhere},
	{"pgregory.net/rapid", nowhere},
}

func is(room string) func(string) bool { return func(r string) bool { return r == room } }

// under is for the rooms below one, that one left out.
func under(room string) func(string) bool {
	return func(r string) bool { return strings.HasPrefix(r, room+"/") }
}
func nowhere(string) bool { return false }

// plain are files that know nothing of cars: the filter, on top of what stats/calc is as a whole.
var plain = []string{"stats/model/filter.go", "stats/model/history.go", "stats/model/variant.go"}

// An arrow is one import of a file that is no test.
type arrow struct{ file, room, to string }

func (a arrow) ours() (room string, ok bool) { return strings.CutPrefix(a.to, "brimlog/") }

func TestImportsPointDown(t *testing.T) {
	all := arrows(t)
	if len(all) < 200 {
		t.Fatalf("found %d imports: the test looks in the wrong place", len(all))
	}
	for _, a := range all {
		to, ours := a.ours()
		if !ours || strings.HasPrefix(a.room, "testdata/") {
			continue // what serves the tests may lean on any room
		}
		from, at := slices.Index(rooms, a.room), slices.Index(rooms, to)
		switch {
		case from < 0:
			t.Errorf("%s: room %s has no place in the house: give it one in rooms", a.file, a.room)
		case at < 0:
			t.Errorf("%s: imports %s, which has no place in the house", a.file, to)
		case at <= from:
			t.Errorf("%s: imports %s, which stands above it", a.file, to)
		}
	}
}

func TestLibrariesKeepToTheirRooms(t *testing.T) {
	seen := map[string]bool{}
	for _, a := range arrows(t) {
		for _, k := range keptTo {
			if (a.to == k.library || strings.HasPrefix(a.to, k.library+"/")) && !strings.HasPrefix(a.room, "testdata/") {
				if seen[k.library] = true; !k.room(a.room) {
					t.Errorf("%s: imports %s, which is not for this room", a.file, a.to)
				}
			}
		}
	}
	for _, k := range keptTo[:6] {
		if !seen[k.library] {
			t.Errorf("nothing imports %s: the rule is out of date", k.library)
		}
	}
}

func TestPlainNumbersKnowNothingOfCars(t *testing.T) {
	seen := map[string]bool{}
	for _, a := range arrows(t) {
		to, ours := a.ours()
		if a.room == "stats/calc" || slices.Contains(plain, a.file) {
			if seen[a.file] = true; ours && to != "stats/calc" {
				t.Errorf("%s: imports %s", a.file, to)
			}
		}
	}
	for _, f := range plain {
		if !seen[f] {
			t.Errorf("%s: not found", f)
		}
	}
}

// What only the tests need must not come to rest in the program.
func TestTheProgramTakesOnlyTheDemoFromTestdata(t *testing.T) {
	for _, a := range arrows(t) {
		if to, ours := a.ours(); ours && strings.HasPrefix(to, "testdata") && a.file != "cmd/brimlog/demo.go" && !strings.HasPrefix(a.room, "testdata") {
			t.Errorf("%s: imports %s", a.file, to)
		}
	}
}

// arrows lists the imports of every file that is no test, those for other systems included.
func arrows(t *testing.T) []arrow {
	t.Helper()
	const top = "../.."
	var all []arrow
	err := filepath.WalkDir(top, func(name string, e fs.DirEntry, err error) error {
		if err != nil || e.IsDir() || !strings.HasSuffix(name, ".go") || strings.HasSuffix(name, "_test.go") {
			return err
		}
		f, err := parser.ParseFile(token.NewFileSet(), name, nil, parser.ImportsOnly)
		if err != nil {
			return err
		}
		rel, err := filepath.Rel(top, name)
		if err != nil {
			return err
		}
		rel = filepath.ToSlash(rel)
		for _, i := range f.Imports {
			to, err := strconv.Unquote(i.Path.Value)
			if err != nil {
				return err
			}
			all = append(all, arrow{rel, path.Dir(rel), to})
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	return all
}

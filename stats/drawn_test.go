package stats_test

import (
	"encoding/json"
	"math"
	"testing"

	"brimlog/ingest/book"
	"brimlog/stats"
	"brimlog/testdata/drawn"
)

// twoJobs is the logbook that most tests here turn about: a setting that saves a quarter, and a service that changes nothing.
var twoJobs = drawn.Plan{Seed: 3, Tanks: 26, Noted: 0.8, Part: 0.2, Jobs: []drawn.Job{
	{ID: "retime", Kind: "adjust", Area: "ignition", After: 9, Pct: -25},
	{ID: "clean", Kind: "service", Area: "fuel", After: 18},
}}

// read writes the logbook down and reads it as the program does.
func read(t testing.TB, l *drawn.Log, u drawn.Units) *book.Book {
	t.Helper()
	dir := t.TempDir()
	if err := l.Write(dir, u); err != nil {
		t.Fatal(err)
	}
	b := readAny(t, dir)
	for _, p := range b.Problems {
		t.Fatal(p)
	}
	return b
}

// readAny reads a logbook, problems and all.
func readAny(t testing.TB, dir string) *book.Book {
	t.Helper()
	b, err := book.Read(dir)
	if err != nil {
		t.Fatal(err)
	}
	return b
}

// asked is what the tests here ask of a logbook.
var asked = stats.Options{Prove: true, Watch: true}

func look(t testing.TB, l *drawn.Log) *stats.Review {
	t.Helper()
	return stats.Look(read(t, l, drawn.Metric), asked)
}

// A figure is one number of a document, by the way that leads to it.
type figure struct {
	x     float64
	known bool
}

// figures takes a document apart: its JSON, number by number and word by word.
func figures(t testing.TB, document any) (numbers map[string]figure, words map[string]string) {
	t.Helper()
	text, err := json.Marshal(document)
	if err != nil {
		t.Fatal(err)
	}
	var tree any
	if err := json.Unmarshal(text, &tree); err != nil {
		t.Fatal(err)
	}
	numbers, words = map[string]figure{}, map[string]string{}
	var walk func(path string, x any)
	walk = func(path string, x any) {
		switch x := x.(type) {
		case map[string]any:
			for k, v := range x {
				walk(path+"."+k, v)
			}
		case []any:
			for i, v := range x {
				walk(path+"."+string(rune('0'+i/10))+string(rune('0'+i%10)), v)
			}
		case float64:
			numbers[path] = figure{x, true}
		case nil:
			numbers[path] = figure{}
		case string:
			words[path] = x
		}
	}
	walk("", tree)
	return numbers, words
}

// alike compares two documents to a part of each figure, odds and all; skip names fields that may differ.
func alike(t *testing.T, what string, got, want any, part float64, skip func(string) bool) {
	t.Helper()
	gotN, gotW := figures(t, got)
	wantN, wantW := figures(t, want)
	if len(gotN) != len(wantN) || len(gotN) < 20 {
		t.Errorf("%s: %d figures, want %d", what, len(gotN), len(wantN))
	}
	wrong := 0
	for path, w := range wantN {
		g, ok := gotN[path]
		if skip != nil && skip(path) {
			continue
		}
		if !ok || g.known != w.known || math.Abs(g.x-w.x) > part*max(1e-3, math.Abs(w.x)) {
			if wrong++; wrong <= 5 {
				t.Errorf("%s: %s is %v, want %v", what, path, g, w)
			}
		}
	}
	for path, w := range wantW {
		if g := gotW[path]; g != w && (skip == nil || !skip(path)) {
			t.Errorf("%s: %s is %q, want %q", what, path, g, w)
		}
	}
}

func job(t testing.TB, r *stats.Review, id string) stats.Job {
	t.Helper()
	for _, j := range r.Jobs {
		if j.ID == id {
			return j
		}
	}
	t.Fatalf("no job %s", id)
	return stats.Job{}
}

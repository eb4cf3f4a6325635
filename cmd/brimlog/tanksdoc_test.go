package main

import (
	"bytes"
	"slices"
	"testing"

	"brimlog/ingest/book"
	"brimlog/stats"
)

// Page by page and on all cores the answer is the same as in one piece, however many pages it takes.
func TestTanksPageByPage(t *testing.T) {
	for _, fills := range []int{0, 1, 2, pageful, pageful + 1, pageful + 2, 3*pageful + 100} {
		dir := t.TempDir()
		writeFills(t, dir, fills, false)
		b, err := book.Read(dir)
		if err != nil {
			t.Fatal(err)
		}
		r := stats.Look(b, stats.Options{})
		if n := max(0, fills-1); r.Measured() != n {
			t.Fatalf("%d tanks, want %d", r.Measured(), n)
		}
		var paged, whole bytes.Buffer
		if err := (&app{out: &paged}).tanksDocument(r); err != nil {
			t.Fatal(err)
		}
		if err := (&app{out: &whole}).document(stats.TanksDocument{Head: r.Head, Tanks: slices.AppendSeq([]stats.Tank{}, r.Written(0, r.Measured()))}); err != nil {
			t.Fatal(err)
		}
		if !bytes.Equal(paged.Bytes(), whole.Bytes()) {
			t.Errorf("%d fills: the answers differ", fills)
		}
	}
}

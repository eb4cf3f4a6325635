package main

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"brimlog/testdata/drawn"
)

// The page stands in the logbook's folder unless told otherwise, is one file, and the same log makes the same bytes.
func TestPageIsOneFile(t *testing.T) {
	dir := logbook(t, with("fills.csv", brims(10), "work.csv", workHeading+"plugs,2024-02-03,,service,ignition,Plugs\n"))
	sound(t, "page", "-b", dir)
	if held := listed(t, dir); held != "fills.csv page.html vehicle.toml work.csv" {
		t.Errorf("the folder holds %s", held)
	}
	first, err := os.ReadFile(filepath.Join(dir, "page.html"))
	if err != nil {
		t.Fatal(err)
	}
	for _, reach := range []string{"src=\"http", "href=\"http", "url(http", "@import"} {
		if bytes.Contains(first, []byte(reach)) {
			t.Errorf("the page reaches out: %s", reach)
		}
	}
	other := filepath.Join(t.TempDir(), "again.html")
	doc := one(t, "page", "-b", dir, "--output", other)
	second, err := os.ReadFile(other)
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(first, second) {
		t.Error("the same logbook makes another page")
	}
	if doc["page"] != other || doc["bytes"] != float64(len(second)) || doc["book"] != "Rook" {
		t.Errorf("document %v", doc)
	}
}

// Thirty years of one car, read from its files, with all that the page can tell of them.
func TestPageOfThirtyYearsIsSmall(t *testing.T) {
	dir := t.TempDir()
	if err := years(1).Draw().Write(dir, drawn.Metric); err != nil {
		t.Fatal(err)
	}
	if n := one(t, "page", "-b", dir)["bytes"].(float64); n > 1_600_000 || n < 500_000 {
		t.Errorf("the page has %.0f bytes, want 1.6 million at most", n)
	}
}

func listed(t *testing.T, dir string) string {
	t.Helper()
	held, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	var names []string
	for _, e := range held {
		names = append(names, e.Name())
	}
	return strings.Join(names, " ")
}

// What a page killed in the middle of its writing leaves behind keeps nobody from writing it again, the demo included.
func TestPageAfterAKilledWrite(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "heron")
	sound(t, "demo", dir)
	half := filepath.Join(dir, "page.html.new")
	if err := os.WriteFile(half, []byte("<!doctype ht"), 0o644); err != nil {
		t.Fatal(err)
	}
	sound(t, "demo", dir)
	if _, err := os.Stat(half); !os.IsNotExist(err) {
		t.Errorf("the half page is still there: %v", err)
	}
	if page, err := os.ReadFile(filepath.Join(dir, "page.html")); err != nil || !bytes.HasSuffix(page, []byte("</html>\n")) {
		t.Errorf("the page is not whole: %v", err)
	}
}

// Package table reads the CSV files of testdata for tests. It assumes that they are well-formed and ends the test where one is not.
package table

import (
	"encoding/csv"
	"os"
	"testing"
)

// Read gives all rows of a CSV file, its heading first.
func Read(t testing.TB, path string) [][]string {
	t.Helper()
	f, err := os.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil || len(rows) < 2 {
		t.Fatalf("%s: %d rows, %v", path, len(rows), err)
	}
	return rows
}

// Rows gives the rows below the heading.
func Rows(t testing.TB, path string) [][]string {
	t.Helper()
	return Read(t, path)[1:]
}

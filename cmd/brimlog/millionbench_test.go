package main

import (
	"bufio"
	"fmt"
	"os"
	"path/filepath"
	"testing"
	"time"

	"brimlog/ingest/book"
)

// A million fills in one file, read and answered: go test ./cmd/brimlog -run '^$' -bench Million -benchtime 3x
func BenchmarkMillion(b *testing.B) {
	const fills = 1_000_000
	for _, c := range []struct {
		name        string
		newestFirst bool
		args        []string
	}{
		{"tanks --json", false, []string{"tanks", "--json"}}, {"tanks", false, []string{"tanks"}}, {"check --json", false, []string{"check", "--json"}},
		{"tanks --json, newest first", true, []string{"tanks", "--json"}},
	} {
		b.Run(c.name, func(b *testing.B) {
			dir := b.TempDir()
			b.SetBytes(writeFills(b, dir, fills, c.newestFirst))
			b.ReportAllocs()
			for b.Loop() {
				mustAnswer(b, append([]string{"--book", dir}, c.args...))
			}
		})
	}
}

// writeFills writes a logbook of fills alone, one an hour, and gives the size of its file.
func writeFills(b testing.TB, dir string, n int, newestFirst bool) int64 {
	b.Helper()
	if err := os.WriteFile(filepath.Join(dir, book.VehicleFile), []byte("name = \"Heron\"\n"), 0o600); err != nil {
		b.Fatal(err)
	}
	f, err := os.Create(filepath.Join(dir, book.FillsFile))
	if err != nil {
		b.Fatal(err)
	}
	defer f.Close()
	w := bufio.NewWriter(f)
	fmt.Fprintln(w, "date,odometer_km,volume_l,full,cost,fuel,station,note")
	at := time.Date(1905, 1, 1, 7, 0, 0, 0, time.UTC)
	for row := range n {
		i := row
		if newestFirst {
			i = n - 1 - row
		}
		litres := 33 + float64(i*7919%2200)/100
		fmt.Fprintf(w, "%s,%d,%.2f,yes,%.2f,E5,,\n", at.Add(time.Duration(i)*time.Hour).Format("2006-01-02T15:04"), 1000+400*i+i*31%90, litres, 1.5*litres)
	}
	if err := w.Flush(); err != nil {
		b.Fatal(err)
	}
	info, err := f.Stat()
	if err != nil {
		b.Fatal(err)
	}
	return info.Size()
}

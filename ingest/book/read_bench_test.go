package book

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strconv"
	"testing"
	"time"
)

// manyFills is a fills.csv of n ordinary rows.
func manyFills(n int) []byte {
	var b bytes.Buffer
	b.WriteString("date,odometer_mi,volume_l,full,cost,fuel,missed,gauge,station,town_share,short_trips,pace,weak_low,weak_high,note\n")
	day := time.Date(1990, 1, 1, 0, 0, 0, 0, time.UTC)
	for i := range n {
		fmt.Fprintf(&b, "%s,%d,%.2f,yes,%.2f,E5,,,Hilltop,%d,some,usual,none,trace,tank number %d\n",
			day.AddDate(0, 0, i%12000).Format("2006-01-02"), 10000+i*240%900000, 40+float64(i%2000)/100, 60+float64(i%3000)/100, i%100, i)
	}
	return b.Bytes()
}

const benchRows = 20000

// BenchmarkReadFills reads a whole logbook of fills; compare BenchmarkBareLoop, the least that reading the same file can cost.
func BenchmarkReadFills(b *testing.B) {
	dir := b.TempDir()
	data := manyFills(benchRows)
	write(b, filepath.Join(dir, FillsFile), data)
	write(b, filepath.Join(dir, VehicleFile), []byte(`name = "Heron"`))
	b.SetBytes(int64(len(data)))
	b.ReportAllocs()
	for b.Loop() {
		book, err := Read(dir)
		if err != nil || len(book.Fills) != benchRows || len(book.Problems) > 0 {
			b.Fatal(err, len(book.Fills), book.Problems)
		}
	}
	b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/benchRows, "ns/row")
}

// BenchmarkBareLoop is encoding/csv and strconv over the same file: the numbers become numbers, nothing is checked or kept.
func BenchmarkBareLoop(b *testing.B) {
	path := filepath.Join(b.TempDir(), FillsFile)
	data := manyFills(benchRows)
	write(b, path, data)
	b.SetBytes(int64(len(data)))
	b.ReportAllocs()
	for b.Loop() {
		f, err := os.Open(path)
		if err != nil {
			b.Fatal(err)
		}
		sum, rows := 0.0, 0
		for r := csv.NewReader(f); ; rows++ {
			cells, err := r.Read()
			if err == io.EOF {
				break
			}
			if err != nil {
				b.Fatal(err)
			}
			for _, i := range []int{1, 2, 4, 9} {
				x, err := strconv.ParseFloat(cells[i], 64)
				if err == nil {
					sum += x
				}
			}
		}
		f.Close()
		if rows != benchRows+1 || sum == 0 {
			b.Fatal(rows, sum)
		}
	}
	b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/benchRows, "ns/row")
}

func write(tb testing.TB, path string, data []byte) {
	tb.Helper()
	if err := os.WriteFile(path, data, 0o644); err != nil {
		tb.Fatal(err)
	}
}

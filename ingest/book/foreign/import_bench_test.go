package foreign

import (
	"bytes"
	"fmt"
	"strings"
	"testing"
	"time"

	"brimlog/ingest/book"
)

// manyRows is a sheet of n fills, as a spreadsheet with a decimal comma writes it.
func manyRows(n int) []byte {
	var b bytes.Buffer
	b.WriteString("Date;Odo (km);Litres;Price/L;Full?;Note\n")
	day := time.Date(1950, 1, 1, 0, 0, 0, 0, time.UTC)
	for i := range n {
		line := fmt.Sprintf("%s;%d;%.2f;1.%d;yes;tank %d\n", day.AddDate(0, 0, i/40).Format("02/01/2006"), 3*i, 40+float64(i%1000)/100, 500+i%100, i)
		b.WriteString(strings.ReplaceAll(line, ".", ","))
	}
	return b.Bytes()
}

// BenchmarkRehearse reads a sheet as an import does, up to the writing.
func BenchmarkRehearse(b *testing.B) {
	const rows = 20000
	data, dir := manyRows(rows), logbook(b, book.Metric)
	b.SetBytes(int64(len(data)))
	b.ReportAllocs()
	for b.Loop() {
		r, err := Rehearse(dir, data, fills("sheet.csv"))
		if err != nil || r.Rows != rows {
			b.Fatal(err, r)
		}
	}
	b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/rows, "ns/row")
}

package foreign

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"brimlog/ingest/book"
)

// Whatever a sheet holds: it is read or refused in one line of bounded length, and every row that would be taken is one that
// the log reads.
func FuzzImport(f *testing.F) {
	files, err := filepath.Glob(exports + "/*.csv")
	if err != nil || len(files) == 0 {
		f.Fatal("no exports", err)
	}
	for i, path := range files {
		data, err := os.ReadFile(path)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(data, uint8(i))
	}
	f.Add([]byte("Date,Start odo,Miles,Road,Temp (°F)\n25/02/2024,1,\"1,234\",town,-3\n\"open"), uint8(1))
	f.Add([]byte("sep=;\nwhen;what;kind;readings;hours\n2 Jan 24;plugs;new;smoke=blue;1,5 h\nTotal;;;;1,5"), uint8(2))
	f.Add([]byte("Date\tPrice\tLitres\tOdo\n03/04/05\t£1\t1.234\t=1\n\n\tx\t\t\n"), uint8(0))
	dir := logbook(f, book.UK, "2024-02-11,48000,40,yes,,E5,,,,,,,,,")
	f.Fuzz(func(t *testing.T, data []byte, how uint8) {
		o := Options{File: []string{book.FillsFile, book.TripsFile, book.WorkFile}[how%3], Name: "sheet.csv", Now: noon}
		o.Decimal = []string{"", "", "point", "comma"}[how/3%4]
		o.Dates = []string{"", "", "dmy", "mdy", "ymd"}[how/12%5]
		r, err := Rehearse(dir, data, o)
		if err != nil {
			if msg := err.Error(); msg == "" || len(msg) > 4000 || strings.Contains(msg, "\n") {
				t.Fatalf("error %q", msg)
			}
			return
		}
		if r.Rows < 0 || r.Rows == 0 && r.Already == 0 || len(r.First) > firstRows || len(r.Columns) == 0 {
			t.Fatalf("report %+v", r)
		}
		if b, err := book.Draft(dir, o.File, r.First...); len(r.First) > 0 && (err != nil || len(b.Fills)+len(b.Trips)+len(b.Jobs) != len(r.First)) {
			t.Fatalf("%+v is taken, and read as %+v, %v", r.First, b, err)
		}
	})
}

func FuzzNumber(f *testing.F) {
	for _, s := range []string{"1,234.5", "-3", "48\u202f213", "£5", ".5", "1,5 l"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		figure, ok := takeFigure(trimMoney(s))
		if !ok {
			return
		}
		for _, n := range figure.readings() {
			if strings.Trim(n, "-.0123456789") != "" || strings.Count(n, ".") > 1 || strings.LastIndex(n, "-") > 0 {
				t.Fatalf("%q reads %q", s, n)
			}
		}
	})
}

func FuzzDate(f *testing.F) {
	for _, s := range []string{"03/04/24", "11. Februar 2024 17:40", "Feb 11, 2024", "20240211", "24-02-11T5:40 pm"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		d, ok := takeDay(s)
		if !ok {
			return
		}
		for _, day := range d.readings(noon) {
			if _, err := stamp(day, readClock(d.clock)); day != "" && err != nil {
				t.Fatalf("%q reads %q: %v", s, day, err)
			}
		}
	})
}

package foreign

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"brimlog/ingest/book"
)

// exports are what a spreadsheet wrote of one sheet in several locales: see testdata/exports/make.sh.
const exports = "../../../testdata/exports"

// logbook starts one in units, with rows in fills.csv.
func logbook(tb testing.TB, units book.Units, rows ...string) string {
	tb.Helper()
	dir := tb.TempDir()
	if err := book.Create(dir, book.Options{Name: "Heron", Units: units}); err != nil {
		tb.Fatal(err)
	}
	if len(rows) > 0 {
		f, err := os.OpenFile(filepath.Join(dir, book.FillsFile), os.O_APPEND|os.O_WRONLY, 0)
		if err != nil {
			tb.Fatal(err)
		}
		defer f.Close()
		if _, err := f.WriteString(strings.Join(rows, "\n") + "\n"); err != nil {
			tb.Fatal(err)
		}
	}
	return dir
}

func fills(sheet string) Options { return Options{File: book.FillsFile, Name: sheet, Now: noon} }

// Whatever the locale, the separator and the encoding: the same rows come out.
func TestSpreadsheetExports(t *testing.T) {
	files, err := filepath.Glob(exports + "/*.csv")
	if err != nil || len(files) < 10 {
		t.Fatalf("%d exports, %v", len(files), err)
	}
	for _, path := range files {
		name := filepath.Base(path)
		t.Run(name, func(t *testing.T) {
			data, err := os.ReadFile(path)
			if err != nil {
				t.Fatal(err)
			}
			units, odometer := book.Metric, "km"
			if strings.HasPrefix(name, "en-") {
				units, odometer = book.UK, "mi"
			}
			dir := logbook(t, units)
			r, err := Import(dir, data, fills(name))
			if err != nil {
				t.Fatal(err)
			}
			want := [][]string{
				{"2023-02-11", "77590 " + odometer, "52.31 l", "yes", "78.41", ""},
				{"2023-02-19", "77938 " + odometer, "49.80 l", "yes", "75.65", "=after the long hill"},
				{"2023-03-02", "78120 " + odometer, "20.00 l", "no", "30.18", ""},
				{"2023-03-05", "78311 " + odometer, "31.07 l", "yes", "47.51", "-"},
				{"2023-03-25", "78664 " + odometer, "50.45 l", "yes", "75.12", "café, “quick” stop"},
				{"2023-04-08", "79011 " + odometer, "48.60 l", "yes", "71.88", "@ the coast"},
			}
			if d := cmp.Diff(want, rowsOf(t, dir, odometer)); d != "" {
				t.Errorf("(-want +got)\n%s\n%+v", d, r)
			}
			if len(r.Totals) != 1 || len(r.Notes) != 1 || r.Rows != 6 || *r.Line != 2 || len(r.Passed) != 0 {
				t.Errorf("report %+v", r)
			}
			again, err := Import(dir, data, fills(name))
			if err != nil || again.Rows != 0 || again.Already != 6 || again.Line != nil {
				t.Errorf("once more: %+v, %v", again, err)
			}
			if u, err := book.Undo(dir); err != nil || u.Rows != 6 {
				t.Errorf("undo: %+v, %v", u, err)
			}
			if got := rowsOf(t, dir, odometer); len(got) != 0 {
				t.Errorf("after undo %v", got)
			}
		})
	}
}

// rowsOf reads the file's rows as text: date, odometer, volume, full, cost, note.
func rowsOf(t *testing.T, dir, odometer string) [][]string {
	t.Helper()
	b, err := book.Read(dir)
	if err != nil || len(b.Problems) > 0 {
		t.Fatal(err, b.Problems)
	}
	var rows [][]string
	for _, f := range b.Fills {
		row, err := book.RowAt(dir, book.FillsFile, f.Line)
		if err != nil {
			t.Fatal(err)
		}
		cell := func(name string) string {
			text, _ := row.Cell(name)
			return text
		}
		rows = append(rows, []string{cell("date"), cell("odometer_"+odometer) + " " + odometer, cell("volume_l") + " l", cell("full"), cell("cost"), cell("note")})
	}
	return rows
}

// Rows of the log are recognised though they are written otherwise, each answers once, and trips without readings are counted.
func TestKnownRows(t *testing.T) {
	dir := logbook(t, book.UK, "2024-02-25,48213,52.31,yes,,E5,,,,,,,,,", "2024-02-26,,30,no,,E5,,,,,,,,,", "2024-02-27,48500,40,yes,,E5,,,,,,,,,")
	for _, c := range []struct {
		name, file, sheet    string
		rows, already, twice int
	}{
		{"the very rows, in any order", book.FillsFile, lines("Date,Odo,Litres", "27/02/2024,48500,40", "25/02/2024,48213,52.31"), 0, 2, 0},
		{"in km and rounded", book.FillsFile, lines("Date,Odo (km),Litres", "25/02/2024,77591,52.3"), 0, 1, 0},
		{"in gallons", book.FillsFile, lines("Date,Odo,Gal (UK)", "25/02/2024,48213,11.507"), 0, 1, 0},
		{"with a time", book.FillsFile, lines("Date,Odo,Litres", "25/02/2024 17:40,48213,52.31"), 0, 1, 0},
		{"with an odometer that the log lacks", book.FillsFile, lines("Date,Odo,Litres", "26/02/2024,48300,30"), 0, 1, 0},
		{"without an odometer that the log has", book.FillsFile, lines("Date,Odo,Litres", "25/02/2024,,52.31", "28/02/2024,48700,40"), 1, 1, 0},
		{"twice in the sheet", book.FillsFile, lines("Date,Odo,Litres", "25/02/2024,48213,52.31", "25/02/2024,48213,52.31", "28/02/2024,48700,40", "28/02/2024,48700,40"), 1, 1, 2},
		{"another day", book.FillsFile, lines("Date,Odo,Litres", "24/02/2024,48213,52.31"), 1, 0, 0},
		{"a second fill of the day", book.FillsFile, lines("Date,Odo,Litres", "25/02/2024,48230,52.31"), 1, 0, 0},
		{"there and back", book.TripsFile, lines("Date,Distance,Road", "25/02/2024,12,town", "25/02/2024,12,town"), 2, 0, 0},
		{"jobs by their words", book.WorkFile, lines("Date,Work done", "25/02/2024,Oil & filter", "25/02/2024,Oil and filter"), 2, 0, 0},
	} {
		r, err := Rehearse(dir, []byte(c.sheet), fills("sheet.csv").as(c.file))
		if err != nil || r.Rows != c.rows || r.Already != c.already || len(r.Twice) != c.twice {
			t.Errorf("%s: %+v, %v", c.name, r, err)
		}
	}
	for file, sheet := range map[string]string{
		book.TripsFile: lines("Date,Distance,Road", "25/02/2024,12,town", "25/02/2024,12,town", "25/02/2024,12,open"),
		book.WorkFile:  lines("Date,Odo,Work done,Cost", "25/02/2024,48000,Oil & filter,30", "26/02/2024,,Oil & filter,30"),
	} {
		first, err := Import(dir, []byte(sheet), fills("sheet.csv").as(file))
		if err != nil {
			t.Fatal(err)
		}
		again, err := Import(dir, []byte(sheet), fills("sheet.csv").as(file))
		if err != nil || again.Rows != 0 || again.Already != first.Rows {
			t.Errorf("%s: %+v, then %+v, %v", file, first, again, err)
		}
	}
}

func (o Options) as(file string) Options {
	o.File = file
	return o
}

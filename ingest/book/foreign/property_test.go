package foreign

import (
	"fmt"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"golang.org/x/text/encoding/charmap"
	"golang.org/x/text/encoding/unicode"
	"pgregory.net/rapid"

	"brimlog/ingest/book"
)

// A dialect is a way to write a sheet.
type dialect struct {
	separator, decimal, thousands, date, encoding string
	title, units, totals                          bool
}

func drawDialect(t *rapid.T) dialect {
	d := dialect{
		separator: rapid.SampledFrom([]string{",", ";", "\t", "|"}).Draw(t, "separator"),
		decimal:   rapid.SampledFrom([]string{".", ","}).Draw(t, "decimal"),
		date:      rapid.SampledFrom([]string{"02/01/2006", "1/2/2006", "2.1.2006", "2006-01-02", "2 Jan 2006", "02-01-06"}).Draw(t, "date"),
		encoding:  rapid.SampledFrom([]string{"utf-8", "mark", "utf-16", "windows"}).Draw(t, "encoding"),
		title:     rapid.Bool().Draw(t, "title"), units: rapid.Bool().Draw(t, "units"), totals: rapid.Bool().Draw(t, "totals"),
	}
	marks := []string{"", "'", "\u00a0", map[string]string{".": ",", ",": "."}[d.decimal]}
	d.thousands = rapid.SampledFrom(marks).Draw(t, "thousands")
	return d
}

// told are the options that leave nothing open.
func (d dialect) told(o Options) Options {
	o.Decimal = map[string]string{".": "point", ",": "comma"}[d.decimal]
	o.Dates = map[string]string{"1/2/2006": "mdy", "2006-01-02": "ymd"}[d.date]
	if o.Dates == "" {
		o.Dates = "dmy"
	}
	return o
}

func (d dialect) number(x float64, decimals int) string {
	whole, fraction, _ := strings.Cut(fmt.Sprintf("%.*f", decimals, x), ".")
	if whole = group(whole, d.thousands); fraction != "" {
		whole += d.decimal + fraction
	}
	return d.quoted(whole)
}

func (d dialect) quoted(text string) string {
	if strings.ContainsAny(text, d.separator+"\"\n") {
		return `"` + strings.ReplaceAll(text, `"`, `""`) + `"`
	}
	return text
}

func (d dialect) row(cells ...string) string { return strings.Join(cells, d.separator) + "\r\n" }

func (d dialect) write(t *rapid.T, rows []book.Fill) []byte {
	var b strings.Builder
	if d.title {
		b.WriteString(d.row("What it drank", "", "", "", ""))
	}
	if d.units {
		b.WriteString(d.row("When", "Odo", "Volume", "Paid", "Remarks") + d.row("", "km", "l", "€", ""))
	} else {
		b.WriteString(d.row("Date", "Odo (km)", "Litres", "Cost", "Remarks"))
	}
	litres := 0.0
	for _, f := range rows {
		litres += f.Litres
		b.WriteString(d.row(f.Date.Format(d.date), d.number(f.Odometer, 0), d.number(f.Litres, 2), d.number(f.Cost, 2), d.quoted(f.Note)))
	}
	if d.totals {
		b.WriteString(d.row("Total", "", d.number(litres, 2), "", ""))
	}
	text := b.String()
	var err error
	switch d.encoding {
	case "mark":
		text = "\ufeff" + text
	case "utf-16":
		text, err = unicode.UTF16(unicode.LittleEndian, unicode.UseBOM).NewEncoder().String(text)
	case "windows":
		text, err = charmap.Windows1252.NewEncoder().String(text)
	}
	if err != nil {
		t.Fatal(err)
	}
	return []byte(text)
}

func drawFills(t *rapid.T) []book.Fill {
	day, odometer := time.Date(2019, 3, 1, 0, 0, 0, 0, time.UTC), 900.0
	rows := make([]book.Fill, rapid.IntRange(1, 12).Draw(t, "rows"))
	for i := range rows {
		day = day.AddDate(0, 0, rapid.IntRange(1, 40).Draw(t, "days"))
		odometer += float64(rapid.IntRange(150, 700).Draw(t, "km"))
		rows[i] = book.Fill{Date: book.Moment{Time: day}, Odometer: odometer, Litres: float64(rapid.IntRange(2000, 7000).Draw(t, "centilitres")) / 100,
			Cost: float64(rapid.IntRange(100, 999999).Draw(t, "cents")) / 100,
			Note: strings.TrimSpace(rapid.StringOfN(rapid.SampledFrom([]rune("ab=+-@'\",;|\té 5")), 0, 8, -1).Draw(t, "note"))}
	}
	return rows
}

// A sheet in whatever dialect comes back row for row when nothing is left open, and else comes back the same or is refused. What
// is written is no formula to a spreadsheet, and one undo takes all of it back.
func TestDialectsReadBack(t *testing.T) {
	dir := logbook(t, book.Metric)
	empty, err := os.ReadFile(filepath.Join(dir, book.FillsFile))
	if err != nil {
		t.Fatal(err)
	}
	refused, taken := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		d, rows := drawDialect(t), drawFills(t)
		sheet, o := d.write(t, rows), fills("sheet.csv")
		if r, err := Rehearse(dir, sheet, o); err == nil && r.Rows != len(rows) {
			t.Fatalf("%d rows of %d are taken: %+v", r.Rows, len(rows), r)
		}
		told := rapid.Bool().Draw(t, "told")
		if told {
			o = d.told(o)
		}
		_, err := Import(dir, sheet, o)
		if err != nil && !told && strings.Contains(err.Error(), "want one reading") {
			refused++
			return
		}
		if err != nil {
			t.Fatalf("%v\n%s", err, sheet)
		}
		taken++
		b, err := book.Read(dir)
		if err != nil || len(b.Problems) > 0 || !slices.EqualFunc(rows, b.Fills, sameFill) {
			t.Fatalf("%v %v\n got %+v\nwant %+v\n%s", err, b.Problems, b.Fills, rows, sheet)
		}
		for _, f := range b.Fills {
			row, err := book.RowAt(dir, book.FillsFile, f.Line)
			if err != nil {
				t.Fatal(err)
			}
			for _, c := range row.Cells {
				if c != "" && strings.ContainsRune("=+-@\t\r", rune(c[0])) && !plainNumber(c) {
					t.Fatalf("a spreadsheet takes %q for a formula", c)
				}
			}
		}
		if u, err := book.Undo(dir); err != nil || u.Rows != len(rows) {
			t.Fatal(u, err)
		}
		if now, err := os.ReadFile(filepath.Join(dir, book.FillsFile)); err != nil || string(now) != string(empty) {
			t.Fatalf("after undo %q, %v", now, err)
		}
	})
	if taken < refused {
		t.Errorf("%d sheets were taken, %d refused", taken, refused)
	}
}

func sameFill(want, got book.Fill) bool {
	near := func(a, b float64) bool { return math.Abs(a-b) < 1e-9 }
	return want.Date.Equal(got.Date.Time) && near(want.Odometer, got.Odometer) && near(want.Litres, got.Litres) && near(want.Cost, got.Cost) && want.Note == got.Note
}

// plainNumber tells whether a cell with a sign is a number and no more, which no spreadsheet reckons with.
func plainNumber(s string) bool {
	return strings.Trim(s, "+-.0123456789") == "" && strings.LastIndexAny(s, "+-") <= 0
}

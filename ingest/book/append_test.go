package book

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func content(tb testing.TB, dir, file string) string {
	tb.Helper()
	data, err := os.ReadFile(filepath.Join(dir, file))
	if err != nil {
		tb.Fatal(err)
	}
	return string(data)
}

// Every byte that an addition does not concern stays: mark, line ends, quotes, own columns, an open last line.
func TestAppend(t *testing.T) {
	const ukFills = "date,odometer_mi,volume_l\n"
	for _, c := range []struct {
		name, file, before string
		cells              Cells
		after              string
		line               int
	}{
		{"in the file's own order", FillsFile, "volume_l,my own,date,odometer_mi\n\"1\",\"a \"\"b\"\"\",2024-01-01,7\n",
			Cells{"date": "2024-02-11", "odometer": "48213", "volume": "52.31"},
			"volume_l,my own,date,odometer_mi\n\"1\",\"a \"\"b\"\"\",2024-01-01,7\n52.31,,2024-02-11,48213\n", 3},
		{"after a mark, with carriage returns", FillsFile, "\ufeffdate,odometer_mi,volume_l\r\n2024-01-01,7,1\r\n",
			Cells{"date": "2024-02-11", "odometer_mi": "48213", "volume_l": "52.31"},
			"\ufeffdate,odometer_mi,volume_l\r\n2024-01-01,7,1\r\n2024-02-11,48213,52.31\r\n", 3},
		{"behind an open last line", FillsFile, ukFills + "2024-01-01,7,1",
			Cells{"date": "2024-02-11", "odometer": "48213", "volume": "52.31"}, ukFills + "2024-01-01,7,1\n2024-02-11,48213,52.31", 3},
		{"behind a header alone", FillsFile, "date,odometer_mi,volume_l",
			Cells{"date": "2024-02-11", "odometer": "48213", "volume": "52.31"}, ukFills[:len(ukFills)-1] + "\n2024-02-11,48213,52.31", 2},
		{"with the file's own unit typed", FillsFile, ukFills,
			Cells{"date": "2024-02-11", "odometer": "48213 miles", "volume": "52.31l"}, ukFills + "2024-02-11,48213,52.31\n", 2},
		{"with another unit", FillsFile, ukFills,
			Cells{"date": "2024-02-11", "odometer_km": "412", "volume": "9.9 gal_uk"}, ukFills + "2024-02-11,412 km,9.9 gal_uk\n", 2},
		{"into the column of the unit", FillsFile, "date,odometer_km,odometer_mi,volume_l\n",
			Cells{"date": "2024-02-11", "odometer": "412 mi", "volume": "9"}, "date,odometer_km,odometer_mi,volume_l\n2024-02-11,,412,9\n", 2},
		{"with a new column, which every row gets", FillsFile, "date,odometer_mi,volume_l\n2024-01-01,7,\"1\"\n2024-01-02,8\nno \"csv\n\n",
			Cells{"date": "2024-02-11", "odometer": "9", "volume": "2", "gauge": "1/4"},
			"date,odometer_mi,volume_l,gauge\n2024-01-01,7,\"1\",\n2024-01-02,8,,\nno \"csv\n\n2024-02-11,9,2,1/4\n", 6},
		{"an own column", FillsFile, "date,odometer_mi,volume_l,Weather\n",
			Cells{"date": "2024-02-11", "odometer": "9", "volume": "2", "weather": "fog, then sun"},
			"date,odometer_mi,volume_l,Weather\n2024-02-11,9,2,\"fog, then sun\"\n", 2},
		{"what looks like a formula", FillsFile, "date,odometer_mi,volume_l,note,own,gauge\n",
			Cells{"date": "2024-02-11", "odometer": "9", "volume": "2", "note": "=1+1", "own": "@x", "gauge": "+0.5"},
			"date,odometer_mi,volume_l,note,own,gauge\n2024-02-11,9,2,'=1+1,'@x,+0.5\n", 2},
		{"cold with a unit, which would look like a formula", TripsFile, "date,air_f,distance_mi\n",
			Cells{"date": "2024-02-11", "air": "-10 c"}, "date,air_f,distance_mi\n2024-02-11,14,\n", 2},
		{"cold without", TripsFile, "date,air_c\n", Cells{"date": "2024-02-11", "air": "-10"}, "date,air_c\n2024-02-11,-10\n", 2},
		{"a job with a list and a long note", WorkFile, "id,date,kind,area,readings,note\n",
			Cells{"id": "a", "date": "2024-02-11", "kind": "fit", "area": "fuel/intake", "readings": "lambda=0.9;co_pct=2", "note": "one\r\ntwo \"x\""},
			"id,date,kind,area,readings,note\na,2024-02-11,fit,fuel/intake,lambda=0.9;co_pct=2,\"one\ntwo \"\"x\"\"\"\n", 2},
	} {
		t.Run(c.name, func(t *testing.T) {
			dir := logbook(t, map[string]string{c.file: c.before})
			draft, err := Draft(dir, c.file, c.cells)
			if err != nil || content(t, dir, c.file) != c.before {
				t.Fatalf("the draft: %v, %q", err, content(t, dir, c.file))
			}
			line, err := Append(dir, c.file, c.cells)
			if got := content(t, dir, c.file); err != nil || got != c.after || line != c.line {
				t.Fatalf("line %d, %v\n got %q\nwant %q", line, err, got, c.after)
			}
			rows := append(append(placesOf(draft.Fills), placesOf(draft.Trips)...), placesOf(draft.Jobs)...)
			if len(rows) != 1 || rows[0] != (Place{c.file, c.line}) {
				t.Errorf("the draft stands at %v", rows)
			}
			if u, err := Undo(dir); err != nil || u.Line != c.line || u.Rows != 1 {
				t.Fatalf("undo: %+v, %v", u, err)
			}
			if got := content(t, dir, c.file); got != c.before && !strings.Contains(c.name, "new column") {
				t.Errorf("after undo\n got %q\nwant %q", got, c.before)
			}
		})
	}
}

func placesOf[R interface{ place() Place }](rows []R) []Place {
	var places []Place
	for _, r := range rows {
		places = append(places, r.place())
	}
	return places
}

func (p Place) place() Place { return p }

// A file that is not there begins with its usual header, in the units of the fills.
func TestAppendBeginsAFile(t *testing.T) {
	for head, want := range map[string]string{
		"date,odometer_mi,volume_l":      "date,odometer_start_mi,odometer_end_mi,distance_mi,road,pace,cruise_kmh,air_c,",
		"date,odometer_mi,volume_gal_us": "date,odometer_start_mi,odometer_end_mi,distance_mi,road,pace,cruise_kmh,air_f,",
		"date,odometer_km,volume_l":      "date,odometer_start_km,odometer_end_km,distance_km,road,pace,cruise_kmh,air_c,",
	} {
		dir := logbook(t, map[string]string{FillsFile: head + "\n"})
		line, err := Append(dir, TripsFile, Cells{"date": "2024-02-11", "distance": "30"}, Cells{"date": "2024-02-12", "distance": "31"})
		if err != nil || line != 2 {
			t.Fatal(line, err)
		}
		if got := content(t, dir, TripsFile); !strings.HasPrefix(got, want) {
			t.Errorf("begun as %q, want %q", got, want)
		}
		if b, err := Read(dir); err != nil || len(b.Trips) != 2 || len(b.Problems) > 0 {
			t.Errorf("reads %+v, %v", b, err)
		}
		if u, err := Undo(dir); err != nil || u.Rows != 2 {
			t.Errorf("undo: %+v, %v", u, err)
		}
		if b, err := Read(dir); err != nil || len(b.Trips) != 0 {
			t.Errorf("after undo %+v, %v", b, err)
		}
	}
}

func TestAppendRefuses(t *testing.T) {
	before := map[string]string{FillsFile: "date,odometer_mi,odometer_km,volume_l,note,own\n2024-01-01,1,,1,,\n", WorkFile: "id,date,kind,readings\nclutch,2024-01-01,fit,\n"}
	good := func(more Cells) Cells {
		c := Cells{"date": "2024-02-11", "odometer_mi": "2", "volume": "1"}
		for k, v := range more {
			c[k] = v
		}
		return c
	}
	for _, c := range []struct {
		file  string
		cells Cells
		want  string
	}{
		{"notes.csv", good(nil), `notes.csv: want fills.csv, trips.csv or work.csv`},
		{VehicleFile, good(nil), `edit other files by hand`},
		{FillsFile, Cells{}, `fills.csv:3: want a row with something in it`},
		{FillsFile, Cells{"date": "2024-02-11"}, `fills.csv:3: column "volume_l": want a volume, got an empty cell`},
		{FillsFile, Cells{"odometer_mi": "1", "volume": "1"}, `column "date": want a date`},
		{FillsFile, good(Cells{"volume": "1,234"}), `fills.csv:3: column "volume_l": want one reading`},
		{FillsFile, good(Cells{"volume": "9 gal"}), `write gal_uk (4.546 L) or gal_us (3.785 L)`},
		{FillsFile, good(Cells{"full": "perhaps"}), `column "full": want yes or no`},
		{FillsFile, Cells{"date": "2024-02-11", "odometer": "2", "volume": "1"}, `want a unit behind "2", since the file has odometer_mi and odometer_km`},
		{FillsFile, good(Cells{"odometer_km": "3"}), `want one of odometer_mi and odometer_km filled`},
		{FillsFile, good(Cells{"Odometer_MI": "3"}), `want it once, got it under two names`},
		{FillsFile, good(Cells{"vloume": "3"}), `column "vloume": the file has no such column: is it "volume"?`},
		{FillsFile, good(Cells{"note": "a\x00b"}), `column "note": want plain text`},
		{FillsFile, good(Cells{"own": "a\x1b[2Jb"}), `column "own": want plain text`},
		{FillsFile, good(Cells{"own": "caf\xe9"}), `another encoding`},
		{FillsFile, good(Cells{"own": strings.Repeat("x", longestCell+1)}), `want at most 10000 bytes`},
		{WorkFile, Cells{"id": "clutch", "date": "2024-02-11", "kind": "fit"}, `got "clutch", which line 2 has: give another, such as "clutch-3"`},
		{WorkFile, Cells{"id": "b", "date": "2024-02-11", "kind": "fit", "readings": "lambda=rich"}, `reading lambda`},
	} {
		dir := logbook(t, before)
		_, err := Append(dir, c.file, c.cells)
		_, drafted := Draft(dir, c.file, c.cells)
		for _, err := range []error{err, drafted} {
			if err == nil || !strings.Contains(err.Error(), c.want) || strings.Contains(err.Error(), "\n") {
				t.Errorf("%v: %v, want %q", c.cells, err, c.want)
			}
		}
		for file, was := range before {
			if got := content(t, dir, file); got != was {
				t.Errorf("%v left %s as %q", c.cells, file, got)
			}
		}
	}
	dir := logbook(t, before)
	if _, err := Append(dir, FillsFile, good(nil), good(Cells{"volume": "x"})); err == nil || content(t, dir, FillsFile) != before[FillsFile] {
		t.Errorf("one bad row of two: %v", err)
	}
	if _, err := Append(dir, FillsFile); err == nil {
		t.Error("no row at all is added")
	}
	if line, err := Append(dir, FillsFile, Cells{"date": "2024-02-11", "volume": "9", "full": "no"}); err != nil || line != 3 {
		t.Errorf("a partial fill without odometer: %v", err)
	}
}

// What is written reads back the same, and no cell of it is a formula to a spreadsheet.
func TestWrittenReadsBack(t *testing.T) {
	dir := t.TempDir()
	alphabet := []rune("ab=+-@'\",;\n \t1.5°é")
	rapid.Check(t, func(t *rapid.T) {
		note := rapid.StringOfN(rapid.RuneFrom(alphabet), 0, 12, -1).Draw(t, "note")
		litres := rapid.Float64Range(0.01, 200).Draw(t, "litres")
		o := Options{Name: "Heron", Units: rapid.SampledFrom([]Units{UK, US, Metric}).Draw(t, "units")}
		texts, err := o.files()
		if err != nil {
			t.Fatal(err)
		}
		for name, text := range texts {
			if err := os.WriteFile(filepath.Join(dir, name), text, 0o644); err != nil {
				t.Fatal(err)
			}
		}
		_, err = Append(dir, FillsFile, Cells{"date": "2024-02-11", "odometer": "100", "volume": figure(litres) + " l", "note": note, "station": note})
		if err != nil {
			t.Fatal(err)
		}
		b, err := Read(dir)
		if err != nil || len(b.Fills) != 1 || len(b.Problems) > 0 {
			t.Fatal(b, err)
		}
		if got := b.Fills[0]; got.Note != strings.TrimSpace(note) || got.Station != got.Note || got.Litres/litres > 1+1e-9 || got.Litres/litres < 1-1e-9 {
			t.Fatalf("%q and %v L read back as %+v", note, litres, got)
		}
		row, err := RowAt(dir, FillsFile, 2)
		if err != nil {
			t.Fatal(err)
		}
		for _, c := range row.Cells {
			if c != "" && strings.ContainsRune("=+-@\t\r", rune(c[0])) && !plainNumber(c) {
				t.Fatalf("a spreadsheet takes %q for a formula", c)
			}
		}
	})
}

func plainNumber(s string) bool {
	return strings.Trim(s, "+-.0123456789") == "" && strings.LastIndexAny(s, "+-") <= 0
}

func TestGuardIsUndone(t *testing.T) {
	for _, s := range []string{"", "a", "'a", "=1", "'=1", "''=1", "-", "'", "''", "@x", "+1", "\t=1"} {
		if got := plainText(guarded(s)); got != s {
			t.Errorf("%q comes back as %q", s, got)
		}
		if g := guarded(s); g != "" && strings.IndexByte(formulaSigns, g[0]) >= 0 {
			t.Errorf("%q is written %q", s, g)
		}
	}
}

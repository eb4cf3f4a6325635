package book

import (
	"errors"
	"fmt"
	"iter"
	"strings"
	"testing"
)

// counting yields n fills, in one map, and then an error where there is one.
func counting(n int, err error) iter.Seq2[Cells, error] {
	return func(yield func(Cells, error) bool) {
		cells := Cells{"date": "2024-02-11"}
		for i := range n {
			cells["odometer_mi"], cells["volume_l"] = fmt.Sprint(100+i), "40"
			if i == 1 {
				cells["gauge"] = "1/4" // a column that the file lacks
			}
			if !yield(cells, nil) {
				return
			}
			delete(cells, "gauge")
		}
		if err != nil {
			yield(nil, err)
		}
	}
}

// A sequence is taken whole or not at all, and one undo takes all of it back.
func TestAppendAll(t *testing.T) {
	const before = "date,odometer_mi,volume_l\n2024-01-01,7,1\n"
	dir := logbook(t, map[string]string{FillsFile: before})
	for name, f := range map[string]func(string, string, iter.Seq2[Cells, error]) (int, int, error){"write": AppendAll, "draft": DraftAll} {
		wrong := errors.New("the sheet is torn")
		if _, _, err := f(dir, FillsFile, counting(3, wrong)); !errors.Is(err, wrong) || content(t, dir, FillsFile) != before {
			t.Errorf("%s: %v leaves %q", name, err, content(t, dir, FillsFile))
		}
		if _, _, err := f(dir, FillsFile, counting(0, nil)); !errors.Is(err, ErrNoRow) || content(t, dir, FillsFile) != before {
			t.Errorf("%s: no row: %v", name, err)
		}
	}
	if line, n, err := DraftAll(dir, FillsFile, counting(3, nil)); line != 3 || n != 3 || err != nil || content(t, dir, FillsFile) != before {
		t.Errorf("a draft: line %d, %d rows, %v", line, n, err)
	}
	line, n, err := AppendAll(dir, FillsFile, counting(3, nil))
	want := "date,odometer_mi,volume_l,gauge\n2024-01-01,7,1,\n2024-02-11,100,40,\n2024-02-11,101,40,1/4\n2024-02-11,102,40,\n"
	if got := content(t, dir, FillsFile); line != 3 || n != 3 || err != nil || got != want {
		t.Fatalf("line %d, %d rows, %v\n got %q\nwant %q", line, n, err, got, want)
	}
	u, err := Undo(dir)
	if err != nil || u.Rows != 3 || u.Line != 3 || !strings.HasPrefix(u.Was, "2024-02-11,100,40,\n") {
		t.Errorf("undo: %+v, %v", u, err)
	}
	if got := content(t, dir, FillsFile); got != "date,odometer_mi,volume_l,gauge\n2024-01-01,7,1,\n" {
		t.Errorf("after undo %q", got)
	}
}

// A cell is tried by itself: what is wrong with it is told, what the row lacks is not.
func TestTry(t *testing.T) {
	dir := logbook(t, map[string]string{FillsFile: "date,odometer_mi,volume_l\n", WorkFile: "id,date,kind\nclutch,2024-01-01,fit\n"})
	for _, c := range []struct{ file, column, text, want, meant string }{
		{FillsFile, "volume", "52.31", "", ""},
		{FillsFile, "volume", "9 gal_uk", "", ""},
		{FillsFile, "date", "2024-02-11", "", ""},
		{FillsFile, "gauge", "1/4", "", ""},
		{FillsFile, "volume", "", "", ""},
		{FillsFile, "volume", "52,310", "want one reading", ""},
		{FillsFile, "volume", "0", "want a volume above zero", ""},
		{FillsFile, "date", "25/02/2024", "want a date such as", "2024-02-25"},
		{FillsFile, "pace", "birsk", "want easy, usual or brisk", "brisk"},
		{FillsFile, "weather", "fog", "the file has no such column: want one of date, odometer", ""},
		{FillsFile, "note", "a\x00b", "want plain text", ""},
		{WorkFile, "id", "clutch", "want an id that no other job has", "clutch-3"},
		{WorkFile, "id", "gearbox", "", ""},
		{WorkFile, "readings", "lambda=rich", "reading lambda", ""},
		{TripsFile, "air", "-3 c", "", ""},
		{"notes.csv", "a", "b", "want fills.csv, trips.csv or work.csv", ""},
	} {
		err := Try(dir, c.file, c.column, c.text)
		if (err == nil) != (c.want == "") || err != nil && !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s %q: %v, want %q", c.column, c.text, err, c.want)
		}
		var p Problem
		if errors.As(err, &p) && (p.Suggestion == nil) == (c.meant != "") || p.Suggestion != nil && *p.Suggestion != c.meant {
			t.Errorf("%s %q: %+v, want the suggestion %q", c.column, c.text, p, c.meant)
		}
	}
}

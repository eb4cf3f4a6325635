package book

import (
	"path/filepath"
	"strings"
	"testing"
)

func TestEditAndDrop(t *testing.T) {
	const before = "\ufeffdate,odometer_mi,volume_l,note\r\n2024-01-01,1,\"1\",\"a, \"\"b\"\"\nc\"\r\n2024-01-02,bad,2\r\n\r\n2024-01-03,3,3,x"
	at := func(line int) (string, Row) {
		dir := logbook(t, map[string]string{FillsFile: before})
		row, err := RowAt(dir, FillsFile, line)
		if err != nil {
			t.Fatal(err)
		}
		return dir, row
	}
	for _, c := range []struct {
		line        int
		cells       Cells
		from, to    string
		want        string // of the error
		cell, holds string
	}{
		{2, Cells{"volume": "52.31"}, `2024-01-01,1,"1",`, `2024-01-01,1,52.31,`, "", "note", "a, \"b\"\nc"},
		{2, Cells{"note": "- d"}, "\"a, \"\"b\"\"\nc\"", `'- d`, "", "volume_l", "1"},
		{2, Cells{"note": ""}, "\"a, \"\"b\"\"\nc\"", ``, "", "date", "2024-01-01"},
		{4, Cells{"note": "new"}, "bad,2\r\n", "bad,2,new\r\n", "", "note", ""}, // the odometer was bad before
		{4, Cells{"odometer": "2 mi", "date": "2024-01-02T08:00"}, "2024-01-02,bad", "2024-01-02T08:00,2", "", "odometer_mi", "bad"},
		{6, Cells{"odometer_km": "3"}, "2024-01-03,3,3", "2024-01-03,3 km,3", "", "volume_l", "3"},
		{6, Cells{"volume": "x"}, "", "", `fills.csv:6: column "volume_l": want a number`, "volume_l", "3"},
		{6, Cells{"date": ""}, "", "", `want a date`, "date", "2024-01-03"},
		{6, Cells{"nothing": "1"}, "", "", `the file has no such column`, "note", "x"},
	} {
		dir, row := at(c.line)
		if got, ok := row.Cell(c.cell); !ok || got != c.holds {
			t.Errorf("line %d holds %q in %s, want %q", c.line, got, c.cell, c.holds)
		}
		err := Edit(dir, row, c.cells)
		want := strings.Replace(before, c.from, c.to, 1)
		if got := content(t, dir, FillsFile); got != want || (err == nil) != (c.want == "") {
			t.Errorf("edit %d %v: %v\n got %q\nwant %q", c.line, c.cells, err, got, want)
		}
		if c.want != "" && (err == nil || !strings.Contains(err.Error(), c.want)) {
			t.Errorf("edit %d %v: %v, want %q", c.line, c.cells, err, c.want)
		}
	}
	for line, gone := range map[int]string{2: "2024-01-01,1,\"1\",\"a, \"\"b\"\"\nc\"\r\n", 4: "2024-01-02,bad,2\r\n", 6: "\r\n2024-01-03,3,3,x"} {
		dir, row := at(line)
		err := Drop(dir, row)
		if got, want := content(t, dir, FillsFile), strings.Replace(before, gone, "", 1); err != nil || got != want {
			t.Errorf("drop %d: %v\n got %q\nwant %q", line, err, got, want)
		}
		if err := Drop(dir, row); err == nil {
			t.Errorf("line %d is dropped twice", line)
		}
	}
	dir, row := at(6)
	write(t, filepath.Join(dir, FillsFile), []byte(strings.Replace(before, "3,3,x", "3,4,x", 1)))
	for _, err := range []error{Edit(dir, row, Cells{"note": "y"}), Drop(dir, row)} {
		if err == nil || !strings.Contains(err.Error(), "fills.csv:6: want the row as it was read, got another") {
			t.Errorf("a row changed meanwhile: %v", err)
		}
	}
	for _, line := range []int{0, 1, 3, 5, 7} {
		if _, err := RowAt(dir, FillsFile, line); err == nil || !strings.Contains(err.Error(), "want one from 2 to 6") {
			t.Errorf("line %d: %v", line, err)
		}
	}
}

func TestEditWidensTheFile(t *testing.T) {
	dir := logbook(t, map[string]string{FillsFile: "date,odometer_mi,volume_l\n2024-01-01,1,1\n2024-01-02,2,2\n"})
	row, err := RowAt(dir, FillsFile, 3)
	if err != nil {
		t.Fatal(err)
	}
	err = Edit(dir, row, Cells{"missed": "yes", "volume": "2.5"})
	if got, want := content(t, dir, FillsFile), "date,odometer_mi,volume_l,missed\n2024-01-01,1,1,\n2024-01-02,2,2.5,yes\n"; err != nil || got != want {
		t.Errorf("%v\n got %q\nwant %q", err, got, want)
	}
}

func TestUndoRefuses(t *testing.T) {
	dir := logbook(t, map[string]string{FillsFile: "date,odometer_mi,volume_l\n"})
	refuses := func(why, want string) {
		t.Helper()
		was := content(t, dir, FillsFile)
		if _, err := Undo(dir); err == nil || !strings.Contains(err.Error(), want) || content(t, dir, FillsFile) != was {
			t.Errorf("%s: %v, want %q", why, err, want)
		}
	}
	refuses("nothing was added", "nothing to take back")
	row := Cells{"date": "2024-02-11", "odometer": "9", "volume": "2"}
	add := func() {
		t.Helper()
		if _, err := Append(dir, FillsFile, row); err != nil {
			t.Fatal(err)
		}
	}
	add()
	if _, err := Undo(dir); err != nil {
		t.Fatal(err)
	}
	refuses("it was taken back", "nothing to take back")
	add()
	write(t, filepath.Join(dir, FillsFile), []byte(strings.Replace(content(t, dir, FillsFile), "9,2", "9,3", 1)))
	refuses("the row was changed by hand", "fills.csv:2: want the row that was added last")
	add()
	write(t, filepath.Join(dir, FillsFile), []byte(content(t, dir, FillsFile)+"2024-02-12,10,2\n"))
	refuses("a row came behind it", "want the row that was added last")
	write(t, filepath.Join(dir, memoryName), []byte("{"))
	refuses("what was remembered is broken", "got something else")
}

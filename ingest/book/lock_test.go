package book

import (
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"testing"
	"time"
)

// The lock is the folder's own: no file is left behind that, made by one user, would shut the others out.
func TestLockLeavesNoFile(t *testing.T) {
	if runtime.GOOS == "windows" {
		t.Skip("only files are locked here")
	}
	dir := logbook(t, nil)
	if err := os.WriteFile(filepath.Join(dir, lockName), nil, 0); err != nil { // somebody else's
		t.Fatal(err)
	}
	if _, err := Append(dir, FillsFile, Cells{"date": "2024-02-11", "odometer": "9", "volume": "2"}); err != nil {
		t.Fatal(err)
	}
	if err := os.Remove(filepath.Join(dir, lockName)); err != nil {
		t.Fatal(err)
	}
	if err := Drop(dir, rowAt(t, dir, FillsFile, 2)); err != nil {
		t.Fatal(err)
	}
	names, err := osDisk{}.names(dir)
	if slices.Sort(names); err != nil || !slices.Equal(names, []string{memoryName, FillsFile, VehicleFile}) {
		t.Errorf("left in the folder: %v, %v", names, err)
	}
}

func rowAt(t *testing.T, dir, file string, line int) Row {
	t.Helper()
	row, err := RowAt(dir, file, line)
	if err != nil {
		t.Fatal(err)
	}
	return row
}

// Two locks of one folder exclude each other, of two folders they don't.
func TestLockExcludes(t *testing.T) {
	dir := t.TempDir()
	unlock, err := osDisk{}.lock(dir)
	if err != nil {
		t.Fatal(err)
	}
	other, err := osDisk{}.lock(t.TempDir())
	if err != nil {
		t.Fatal(err)
	}
	other()
	second := make(chan error, 1)
	go func() {
		again, err := osDisk{}.lock(dir)
		if err == nil {
			again()
		}
		second <- err
	}()
	select {
	case err := <-second:
		t.Fatalf("the folder is locked twice: %v", err)
	case <-time.After(50 * time.Millisecond):
	}
	unlock()
	if err := <-second; err != nil {
		t.Error(err)
	}
}

// Where only a file can be locked, anybody may lock it, whatever the umask of the one who made it, and also where it cannot be written.
func TestLockFileIsEverybodys(t *testing.T) {
	dir := t.TempDir()
	f, err := openLockFile(dir)
	if err != nil {
		t.Fatal(err)
	}
	info, err := f.Stat()
	f.Close()
	if err != nil || runtime.GOOS != "windows" && info.Mode().Perm() != 0o666 {
		t.Errorf("mode %v, %v", info.Mode(), err)
	}
	if err := os.Chmod(filepath.Join(dir, lockName), 0o444); err != nil {
		t.Fatal(err)
	}
	if f, err = openLockFile(dir); err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	if held, err := tryLock(f); !held || err != nil {
		t.Errorf("not locked: %v, %v", held, err)
	}
}

// Edit and Drop can be undone, once, and the file is byte for byte as before; a row that was dropped comes back where it stood.
func TestUndoOfEditAndDrop(t *testing.T) {
	const before = "\ufeffdate,odometer_mi,volume_l,note\r\n2024-01-01,1,\"1\",\"a, \"\"b\"\"\nc\"\r\n2024-01-02,bad,2\r\n\r\n2024-01-03,3,3,caf\xe9"
	for _, line := range []int{2, 4, 6} {
		for name, do := range map[string]func(dir string, row Row) error{
			Edited:  func(dir string, row Row) error { return Edit(dir, row, Cells{"volume": "52.31", "date": "2024-02-01"}) },
			Dropped: Drop,
		} {
			dir := logbook(t, map[string]string{FillsFile: before})
			if _, err := Append(dir, TripsFile, Cells{"date": "2024-02-11", "distance": "9"}); err != nil {
				t.Fatal(err)
			}
			row := rowAt(t, dir, FillsFile, line)
			if err := do(dir, row); err != nil || content(t, dir, FillsFile) == before {
				t.Fatalf("%s %d: %v", name, line, err)
			}
			u, err := Undo(dir)
			if got := content(t, dir, FillsFile); err != nil || got != before || u.Did != name || u.Line != line || u.Now != row.Text() {
				t.Errorf("undo of %s %d: %+v, %v\n got %q\nwant %q", name, line, u, err, got, before)
			}
			if _, err := Undo(dir); err == nil {
				t.Errorf("the row added before is taken back as well")
			}
		}
	}
	dir := logbook(t, map[string]string{FillsFile: before})
	if err := Drop(dir, rowAt(t, dir, FillsFile, 4)); err != nil {
		t.Fatal(err)
	}
	write(t, filepath.Join(dir, FillsFile), []byte(content(t, dir, FillsFile)+" "))
	if _, err := Undo(dir); err == nil || !strings.Contains(err.Error(), "put the row back by hand; it read 2024-01-02,bad,2") {
		t.Errorf("the file was changed by hand: %v", err)
	}
}

func TestVisible(t *testing.T) {
	for text, want := range map[string]string{
		"a,\"b, \"\"c\"\"\",é €": "a,\"b, \"\"c\"\"\",é €", "\x1b[2J": `\x1b[2J`, "a\nb\tc\r": `a\nb\tc\r`, "caf\xe9": `caf\xe9`, "\u202eabc": `\u202eabc`, `'`: `'`, `\`: `\`,
		"\u009b1m": `\u009b1m`, "\ufeff": `\ufeff`,
	} {
		if got := Visible(text); got != want {
			t.Errorf("%q is shown as %q, want %q", text, got, want)
		}
	}
}

// What is kept for undo holds rows of the file: who may not read the one may not read the other.
func TestMemoryIsAsPrivateAsTheFile(t *testing.T) {
	if runtime.GOOS == "windows" {
		t.Skip("no modes here")
	}
	dir := logbook(t, map[string]string{FillsFile: "date,odometer_mi,volume_l\n2024-02-11,9,2\n"})
	if err := os.Chmod(filepath.Join(dir, FillsFile), 0o600); err != nil {
		t.Fatal(err)
	}
	if err := Drop(dir, rowAt(t, dir, FillsFile, 2)); err != nil {
		t.Fatal(err)
	}
	if info, err := os.Stat(filepath.Join(dir, memoryName)); err != nil || info.Mode().Perm() != 0o600 {
		t.Errorf("%v, %v", info, err)
	}
}

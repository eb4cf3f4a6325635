package book

import (
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

const (
	memFills = "\ufeffdate,odometer_mi,volume_l,own\r\n2024-01-01,1,1,\"a\nb\"\r\n2024-01-02,2,2,c"
	memAdded = memFills + "\r\n2024-01-03,3,3,"
)

// The changes that are put through every fault, each with what the file is before and after.
var changes = []struct {
	name          string
	before, after string
	last          *deed
	do            func(d disk) error
}{
	{"append", memFills, memAdded, nil, func(d disk) error {
		_, err := appendTo(d, "b", FillsFile, []Cells{{"date": "2024-01-03", "odometer": "3", "volume": "3"}})
		return err
	}},
	{"begin a file", "", "date,odometer_km,volume_l,full,cost,fuel,missed,gauge,station,town_share,short_trips,pace,weak_low,weak_high,note\n" +
		"2024-01-03,3,3,,,,,,,,,,,,\n", nil, func(d disk) error {
		_, err := appendTo(d, "b", FillsFile, []Cells{{"date": "2024-01-03", "odometer": "3", "volume": "3"}})
		return err
	}},
	{"edit", memFills, strings.Replace(memFills, ",2,2,", ",2,2.5,", 1), nil, func(d disk) error {
		return edit(d, "b", Row{Place: Place{FillsFile, 4}, raw: "2024-01-02,2,2,c"}, Cells{"volume": "2.5"})
	}},
	{"drop", memFills, "\ufeffdate,odometer_mi,volume_l,own\r\n2024-01-01,1,1,\"a\nb\"", nil, func(d disk) error {
		return drop(d, "b", Row{Place: Place{FillsFile, 4}, raw: "2024-01-02,2,2,c"})
	}},
	{"undo", memAdded, memFills, &deed{Did: Added, File: FillsFile, Line: 5, Rows: 1, Size: len("2024-01-03,3,3,"), Sum: sum([]byte("2024-01-03,3,3,"))}, undoOn},
	{"undo of an edit", strings.Replace(memFills, ",2,2,", ",2,2.5,", 1), memFills, &deed{Did: Edited, File: FillsFile, Line: 4, Rows: 1,
		At: strings.Index(memFills, "2024-01-02") - len(mark), Size: len("2024-01-02,2,2.5,c"), Was: []byte("2024-01-02,2,2,c"),
		After: sum([]byte(strings.Replace(memFills, ",2,2,", ",2,2.5,", 1)))}, undoOn},
	{"undo of a drop", strings.Replace(memFills, "2024-01-01,1,1,\"a\nb\"\r\n", "", 1), memFills, &deed{Did: Dropped, File: FillsFile, Line: 2, Rows: 1,
		At: strings.Index(memFills, "2024-01-01") - len(mark), Was: []byte("2024-01-01,1,1,\"a\nb\"\r\n"),
		After: sum([]byte(strings.Replace(memFills, "2024-01-01,1,1,\"a\nb\"\r\n", "", 1)))}, undoOn},
}

func undoOn(d disk) error {
	_, err := undo(d, "b")
	return err
}

func memLogbook(before string, last *deed) *memDisk {
	files := map[string]string{"b/" + VehicleFile: heron, "b/.brimlog-fills.csv-OLD.tmp": "left by one that was killed"}
	if before != "" {
		files["b/"+FillsFile] = before
	}
	if last != nil {
		text, _ := json.Marshal(last) // it marshals in every run
		files["b/"+memoryName] = string(text)
	}
	return newMemDisk(files)
}

func (d *memDisk) fills() string {
	if f := d.now["b/"+FillsFile]; f != nil {
		return string(f.data)
	}
	return ""
}

// run tells whether the change ended, and with what error; it did not when the power went.
func run(d *memDisk, do func(disk) error) (err error, ended bool) {
	defer func() {
		if r := recover(); r != nil && r != errPower {
			panic(r)
		}
	}()
	err = do(d)
	return err, true
}

// goesOn checks that the disk takes a further row and is clean after that, however it was left.
func goesOn(t *testing.T, d *memDisk, at string) {
	t.Helper()
	was := d.fills()
	d.failAt, d.crashAt, d.held = 0, 0, false // the system lets go of a dead program's lock
	if _, err := appendTo(d, "b", FillsFile, []Cells{{"date": "2024-03-01", "odometer": "9", "volume": "9"}}); err != nil {
		t.Errorf("%s: a row more: %v", at, err)
	}
	if got := d.fills(); !strings.HasPrefix(got, was) || !strings.Contains(got[len(was):], "2024-03-01,9,9") {
		t.Errorf("%s: a row more makes %q of %q", at, got, was)
	}
	if left := d.temporaries(); len(left) > 0 {
		t.Errorf("%s: left behind: %v", at, left)
	}
}

// Every step of every change fails in turn: with an error the file is as it was, without one it is as it should be, also after
// the power goes at once.
func TestEveryStepFails(t *testing.T) {
	for _, c := range changes {
		clean := memLogbook(c.before, c.last)
		if err, _ := run(clean, c.do); err != nil || clean.fills() != c.after || len(clean.temporaries()) > 0 {
			t.Fatalf("%s: %v\n got %q\nwant %q", c.name, err, clean.fills(), c.after)
		}
		if f := clean.now["b/"+FillsFile]; c.before != "" && f.mode != 0o640 {
			t.Errorf("%s: the mode is now %o", c.name, f.mode)
		}
		failed := 0
		for k := 1; k <= clean.steps; k++ {
			at := fmt.Sprintf("%s, step %d of %d", c.name, k, clean.steps)
			d := memLogbook(c.before, c.last)
			d.failAt = k
			err, _ := run(d, c.do)
			want := c.after
			if err != nil {
				want = c.before
				failed++
				if !strings.Contains(err.Error(), "no space left on device") || strings.Contains(err.Error(), "\n") {
					t.Errorf("%s: %v", at, err)
				}
			}
			for _, left := range d.temporaries() {
				if !strings.HasSuffix(left, "-OLD.tmp") {
					t.Errorf("%s: left behind: %s", at, left)
				}
			}
			for _, seen := range []*memDisk{d, d.afterCrash(lazy), d.afterCrash(eager), d.afterCrash(torn)} {
				if seen.fills() != want {
					t.Errorf("%s: %v\n got %q\nwant %q", at, err, seen.fills(), want)
				}
				goesOn(t, seen, at)
			}
		}
		if failed < 8 {
			t.Errorf("%s: only %d of %d steps matter", c.name, failed, clean.steps)
		}
	}
}

// From one step on everything fails: the error never says that the file is as it was when it is not.
func TestEverythingFailsFromAStepOn(t *testing.T) {
	for _, c := range changes {
		for k := 1; ; k++ {
			d := memLogbook(c.before, c.last)
			d.failAt, d.onwards = k, true
			err, _ := run(d, c.do)
			if d.steps < k {
				break
			}
			unsure := err != nil && strings.Contains(err.Error(), "look what it holds")
			if got := d.fills(); got != c.before && !unsure && err != nil || got != c.after && err == nil {
				t.Errorf("%s, from step %d on: %v, and the file is %q", c.name, k, err, got)
			}
		}
	}
}

// The power goes before every step in turn: the file is the old one or the new one, whatever the system kept.
func TestPowerGoes(t *testing.T) {
	for _, c := range changes {
		clean := memLogbook(c.before, c.last)
		if err, _ := run(clean, c.do); err != nil {
			t.Fatal(err)
		}
		for k := 1; k <= clean.steps+1; k++ {
			for _, v := range []view{lazy, eager, torn} {
				at := fmt.Sprintf("%s, power gone before step %d of %d, %s", c.name, k, clean.steps, v)
				d := memLogbook(c.before, c.last)
				d.crashAt = k
				_, ended := run(d, c.do)
				after := d.afterCrash(v)
				got := after.fills()
				if got != c.after && (ended || got != c.before) {
					t.Errorf("%s: the file is %q", at, got)
				}
				goesOn(t, after, at)
			}
		}
	}
}

// Whatever step of a change fails, and wherever the power goes, undo takes back exactly the last change that was acknowledged: the
// failed one is none, and the row added before it goes.
func TestUndoTakesBackWhatWasAcknowledged(t *testing.T) {
	older := memFills + "\r\n2024-01-02,2,2,older"
	for _, c := range changes[:4] {
		if c.before == "" {
			continue
		}
		for k := 1; ; k++ {
			steps := 0
			for _, how := range []string{"fails", "fails with all after it", "is the last before the power goes"} {
				d := memLogbook(memFills, nil)
				if _, err := appendTo(d, "b", FillsFile, []Cells{{"date": "2024-01-02", "odometer": "2", "volume": "2", "own": "older"}}); err != nil || d.fills() != older {
					t.Fatal(err, d.fills())
				}
				d.steps = 0
				switch how {
				case "fails":
					d.failAt = k
				case "fails with all after it":
					d.failAt, d.onwards = k, true
				default:
					d.crashAt = k + 1
				}
				err, ended := run(d, c.do)
				steps = max(steps, d.steps)
				seen := []*memDisk{d, d.afterCrash(lazy), d.afterCrash(eager), d.afterCrash(torn)}
				if d.crashAt > 0 {
					seen = seen[1:]
				}
				for i, d := range seen {
					at := fmt.Sprintf("%s, step %d %s (%v), view %d", c.name, k, how, err, i)
					d.failAt, d.crashAt, d.onwards, d.held = 0, 0, false, false
					was, want := d.fills(), older
					switch {
					case was == older:
						want = memFills
					case err != nil && !strings.Contains(err.Error(), "look what it holds"), ended && err == nil && was == older:
						t.Errorf("%s: the file is %q", at, was)
					}
					if undone := undoOn(d); undone != nil || d.fills() != want {
						t.Errorf("%s: undo (%v)\n of %q\n left %q\n want %q", at, undone, was, d.fills(), want)
					}
				}
			}
			if steps < k {
				break
			}
		}
	}
}

func TestLockedSpreadsheetReadOnly(t *testing.T) {
	d := memLogbook(memFills, nil)
	d.held = true
	if err, _ := run(d, changes[0].do); err == nil || !strings.Contains(err.Error(), "another program is writing to it): wait until it is done") {
		t.Errorf("locked: %v", err)
	}
	d = memLogbook(memFills, nil)
	d.now["b/.~lock.fills.csv#"] = &memFile{}
	if err, _ := run(d, changes[0].do); err == nil || !strings.Contains(err.Error(), "it is open in a spreadsheet") || d.fills() != memFills {
		t.Errorf("open in a spreadsheet: %v", err)
	}
	d = memLogbook(memFills, nil)
	d.now["b/"+FillsFile].mode = 0o444
	if err, _ := run(d, changes[0].do); err == nil || !strings.Contains(err.Error(), "read-only") || d.fills() != memFills {
		t.Errorf("read-only: %v", err)
	}
}

// On a real disk: links are followed and stay links, the mode stays, nothing is left behind.
func TestLinksAndMode(t *testing.T) {
	dir := logbook(t, nil)
	store := t.TempDir()
	target := filepath.Join(store, "heron-fills.csv")
	write(t, target, []byte("date,odometer_mi,volume_l\n"))
	if err := os.Chmod(target, 0o604); err != nil {
		t.Fatal(err)
	}
	if err := os.Symlink(target, filepath.Join(dir, FillsFile)); err != nil {
		t.Skip("no links here:", err)
	}
	other := filepath.Join(t.TempDir(), "heron")
	if err := os.Symlink(dir, other); err != nil {
		t.Fatal(err)
	}
	row := Cells{"date": "2024-02-11", "odometer": "9", "volume": "2"}
	for _, d := range []string{dir, other} {
		if _, err := Append(d, FillsFile, row); err != nil {
			t.Fatal(err)
		}
	}
	info, err := os.Lstat(filepath.Join(dir, FillsFile))
	if err != nil || info.Mode()&os.ModeSymlink == 0 {
		t.Errorf("the link is now %v, %v", info.Mode(), err)
	}
	info, err = os.Stat(target)
	if err != nil || info.Mode().Perm() != 0o604 || content(t, store, "heron-fills.csv") != "date,odometer_mi,volume_l\n2024-02-11,9,2\n2024-02-11,9,2\n" {
		t.Errorf("the file is now %v, %v, %q", info.Mode(), err, content(t, store, "heron-fills.csv"))
	}
	for _, d := range []string{dir, store} {
		if left, _ := filepath.Glob(filepath.Join(d, tempStart+"*")); len(left) > 0 {
			t.Errorf("left behind: %v", left)
		}
	}
	if _, err := Undo(other); err != nil {
		t.Error(err)
	}
	if err := os.Symlink(filepath.Join(store, "nothing"), filepath.Join(dir, TripsFile)); err != nil {
		t.Fatal(err)
	}
	if _, err := Append(dir, TripsFile, Cells{"date": "2024-02-11"}); err == nil || !strings.Contains(err.Error(), "a link to a file that is not there") {
		t.Errorf("a link to nothing: %v", err)
	}
	if _, err := Append(filepath.Join(dir, "none"), FillsFile, row); err == nil || !strings.Contains(err.Error(), "check the path") {
		t.Errorf("no folder: %v", err)
	}
}

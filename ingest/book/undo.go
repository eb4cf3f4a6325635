package book

import (
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"path/filepath"
)

// An Undone is what Undo took back.
type Undone struct {
	File string
	Line int    // where it began
	Rows int    // one, or as many as one Append added
	Text string // as it stood in the file
}

// An addition is what Append added last, kept beside the lock: not the text itself, which may be long, but what tells
// whether it still stands.
type addition struct {
	File string `json:"file"`
	Line int    `json:"line"`
	Rows int    `json:"rows"`
	Size int    `json:"size"` // bytes, without the last line end
	Sum  string `json:"sha256"`
}

func (a *addition) seal(text string) { a.Size, a.Sum = len(text), sum(text) }

func sum(text string) string {
	s := sha256.Sum256([]byte(text))
	return hex.EncodeToString(s[:])
}

// remember keeps what is about to be added. It comes before the change itself: were it the other way round, a program killed in
// between would leave an older addition to be taken back in place of the newest.
func remember(t *target, dir string, a addition) error {
	folder, err := t.disk.resolve(dir)
	if err != nil {
		return refuse(t.file, err)
	}
	data, err := json.Marshal(a)
	if err != nil {
		return err
	}
	if err := t.install(filepath.Join(folder, addedName), append(data, '\n')); err != nil {
		return refuse(t.file, err)
	}
	return nil
}

// Undo takes back what the last Append to any file of the logbook added, as long as it still stands at the file's end just as
// it was written. It reaches back one addition.
func Undo(dir string) (Undone, error) { return undo(osDisk{}, dir) }

func undo(d disk, dir string) (Undone, error) {
	a, err := lastAddition(d, dir)
	if err != nil {
		return Undone{}, err
	}
	u := Undone{File: a.File, Line: a.Line, Rows: a.Rows}
	err = change(d, dir, a.File, func(t *target) ([]byte, error) {
		switch again, err := lastAddition(d, dir); {
		case err != nil:
			return nil, err
		case again != a:
			return nil, errors.New("undo: another program has just added a row: look at it first")
		}
		l, err := newLayout(t.file, t.old)
		if err != nil {
			return nil, err
		}
		from, ok := l.endsWith(a)
		if !ok {
			return nil, lineProblem(a.File, a.Line,
				"want the row that was added last at the end of the file, got another: the file was changed since, so drop it by its line")
		}
		u.Text = string(l.data[from : from+a.Size])
		l.drop(from, from+a.Size)
		return l.bytes(), nil
	})
	if err != nil {
		return Undone{}, err
	}
	// Should this fail, the next Undo finds that the row is gone and refuses.
	if folder, err := d.resolve(dir); err == nil {
		_ = d.remove(filepath.Join(folder, addedName))
	}
	return u, nil
}

// endsWith finds where an addition begins, when it is the last thing in the file.
func (l *layout) endsWith(a addition) (from int, ok bool) {
	l.rows(func(s span) bool {
		if s.line == a.Line {
			from, ok = s.from, true
		}
		return s.line < a.Line
	})
	if !ok {
		return 0, false
	}
	end := from + a.Size
	if a.Size <= 0 || end > len(l.data) || sum(string(l.data[from:end])) != a.Sum {
		return 0, false
	}
	return from, len(l.data) == end+len(lineEnd(l.data[end:]))
}

func lastAddition(d disk, dir string) (a addition, err error) {
	data, _, err := d.read(filepath.Join(dir, addedName))
	if errors.Is(err, fs.ErrNotExist) {
		return a, errors.New("undo: nothing to take back: no row was added, or the last one was taken back already")
	}
	if err != nil {
		return a, refuse("undo", err)
	}
	if json.Unmarshal(data, &a) != nil {
		return a, fmt.Errorf("undo: want what was added last in %s, got something else: drop the row by its line", addedName)
	}
	_, err = formOf(a.File)
	return a, err
}

package book

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"path/filepath"
)

// What a change did to a file of the logbook.
const (
	Added   = "added"
	Edited  = "edited"
	Dropped = "dropped"
	undone  = "undone" // the change was itself an undo
)

// A deed is one change as Undo needs it, kept in the logbook's folder. Of added rows it keeps not the text, which may be
// long, but what tells whether they still stand; of an edited or dropped one, what stood there before.
//
// It is written before the change, with the deed before it inside: were it written after, a program killed in between would leave
// an older one to be taken back in place of the newest. Whether the change came about, the file itself tells: where it failed
// the file is still the one that Before stands for.
type deed struct {
	Did     string `json:"did"`
	File    string `json:"file"`
	Line    int    `json:"line"`
	Rows    int    `json:"rows"`
	At      int    `json:"at,omitempty"`     // bytes before it, without the byte order mark; of added rows the end tells
	Size    int    `json:"size"`             // bytes that stand there since; of added rows without the last line end
	Sum     string `json:"sha256,omitempty"` // of them
	Was     []byte `json:"was,omitempty"`    // what stood in their place
	Before  string `json:"before"`           // of the whole file
	After   string `json:"after"`
	Earlier *deed  `json:"earlier,omitempty"`
}

func (a *deed) seal(text string) { a.Size, a.Sum = len(text), sum([]byte(text)) }

func (a *deed) same(b *deed) bool {
	return b != nil && a.Did == b.Did && a.File == b.File && a.Before == b.Before && a.After == b.After
}

func sum(data []byte) string {
	s := sha256.Sum256(data)
	return hex.EncodeToString(s[:])
}

// carryOut puts data in the file's place and remembers it as what Undo takes back.
func (t *target) carryOut(folder string, data []byte) error {
	a := *t.deed
	if bytes.Equal(data, t.old) && t.there {
		return nil // nothing changes, so there is nothing to take back either
	}
	a.Before, a.After = sum(t.old), sum(data)
	a.Earlier, _ = lastDeed(t.disk, folder) // what cannot be read can't be taken back
	if a.Earlier != nil {
		a.Earlier.Earlier = nil
	}
	if err := t.remember(folder, a); err != nil {
		return refuse(t.file, err)
	}
	if err := t.replace(data); err != nil {
		return err
	}
	// From here on nothing is lost where a step fails: the file shows that the change came about.
	if a.Did == undone {
		_ = t.disk.remove(filepath.Join(folder, memoryName))
		return nil
	}
	a.Earlier = nil
	_ = t.remember(folder, a)
	return nil
}

// remember keeps a deed, to be read by those alone who may read the file. Where the file lies in another folder, as a link, the change does not sync this one.
func (t *target) remember(folder string, a deed) error {
	data, err := json.Marshal(a)
	if err != nil {
		return err
	}
	if err := t.install(filepath.Join(folder, memoryName), t.path, append(data, '\n')); err != nil {
		return err
	}
	if filepath.Dir(t.path) != folder {
		return t.disk.syncFolder(folder)
	}
	return nil
}

// lastDeed is the last change that came about; nil where there is none, or where it was undone.
func lastDeed(d disk, dir string) (*deed, error) {
	data, _, err := d.read(filepath.Join(dir, memoryName))
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	if err != nil {
		return nil, refuse("undo", err)
	}
	a := &deed{}
	if json.Unmarshal(data, a) != nil {
		return nil, fmt.Errorf("undo: want what was changed last in %s, got something else: mend the row with brimlog edit or drop", memoryName)
	}
	if _, err := formOf(a.File); err != nil {
		return nil, err
	}
	now, _, err := d.read(filepath.Join(dir, a.File))
	switch {
	case err != nil && !errors.Is(err, fs.ErrNotExist):
		return nil, refuse("undo", err)
	case sum(now) == a.Before: // it failed
		return a.Earlier, nil
	case a.Did == undone:
		return nil, nil
	}
	return a, nil
}

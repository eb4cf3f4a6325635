package book

import (
	"bytes"
	"errors"
	"io/fs"
	"maps"
	"path"
	"slices"
	"strings"
	"testing"
)

// A memDisk is a file system in memory that knows the difference between what was written and what is on the platter: data
// is kept by Sync, names are kept by syncFolder. It counts its steps and can fail or lose power at any of them.
type memDisk struct {
	now, kept map[string]*memFile
	steps     int
	failAt    int  // this step fails
	onwards   bool // and all after it
	crashAt   int  // the power goes before this step
	held      bool
}

type memFile struct {
	data, synced []byte
	saved        bool
	mode         fs.FileMode
}

var (
	errFault = errors.New("no space left on device")
	errPower = errors.New("the power went")
)

// newMemDisk holds files that have been there for long.
func newMemDisk(files map[string]string) *memDisk {
	d := &memDisk{now: map[string]*memFile{}}
	for name, text := range files {
		d.now[name] = &memFile{data: []byte(text), synced: []byte(text), saved: true, mode: 0o640}
	}
	d.kept = maps.Clone(d.now)
	return d
}

func (d *memDisk) step() error {
	d.steps++
	if d.steps == d.crashAt {
		panic(errPower)
	}
	if d.steps == d.failAt || d.onwards && d.failAt > 0 && d.steps > d.failAt {
		return errFault
	}
	return nil
}

// A view is what a file system may find after the power went.
type view string

const (
	lazy  view = "nothing but what was synced"
	eager view = "names that were not synced, but no data"
	torn  view = "names that were not synced, and half of the data"
)

func (d *memDisk) afterCrash(v view) *memDisk {
	names := d.now
	if v == lazy {
		names = d.kept
	}
	after := newMemDisk(nil)
	for name, f := range names {
		data := f.synced
		if v == torn && !f.saved {
			data = f.data[:len(f.data)/2]
		}
		after.now[name] = &memFile{data: bytes.Clone(data), synced: bytes.Clone(data), saved: true, mode: f.mode}
	}
	after.kept = maps.Clone(after.now)
	return after
}

func (d *memDisk) resolve(p string) (string, error) { return path.Clean(p), d.step() }
func (d *memDisk) makeFolder(string) error          { return d.step() }

func (d *memDisk) lock(string) (func(), error) {
	if d.held {
		return nil, errLocked
	}
	if err := d.step(); err != nil {
		return nil, err
	}
	d.held = true
	return func() { d.held = false }, nil
}

func (d *memDisk) read(p string) ([]byte, fs.FileMode, error) {
	if err := d.step(); err != nil {
		return nil, 0, err
	}
	f := d.now[p]
	if f == nil {
		return nil, 0, &fs.PathError{Op: "open", Path: p, Err: fs.ErrNotExist}
	}
	return bytes.Clone(f.data), f.mode, nil
}

func (d *memDisk) create(p, like string) (file, error) {
	if err := d.step(); err != nil {
		return nil, err
	}
	if d.now[p] != nil {
		return nil, fs.ErrExist
	}
	f := &memFile{mode: 0o644}
	if old := d.now[like]; old != nil {
		f.mode = old.mode
	}
	d.now[p] = f
	return &memHandle{d, f}, nil
}

func (d *memDisk) rename(from, to string) error {
	if err := d.step(); err != nil {
		return err
	}
	d.now[to] = d.now[from]
	delete(d.now, from)
	return nil
}

func (d *memDisk) remove(p string) error {
	if err := d.step(); err != nil {
		return err
	}
	delete(d.now, p)
	return nil
}

func (d *memDisk) names(folder string) (names []string, err error) {
	if err := d.step(); err != nil {
		return nil, err
	}
	for p := range d.now {
		if path.Dir(p) == folder {
			names = append(names, path.Base(p))
		}
	}
	slices.Sort(names)
	return names, nil
}

func (d *memDisk) syncFolder(folder string) error {
	if err := d.step(); err != nil {
		return err
	}
	in := func(p string, _ *memFile) bool { return path.Dir(p) == folder }
	maps.DeleteFunc(d.kept, in)
	for p, f := range d.now {
		if in(p, f) {
			d.kept[p] = f
		}
	}
	return nil
}

type memHandle struct {
	disk *memDisk
	file *memFile
}

func (h *memHandle) Write(p []byte) (int, error) {
	if err := h.disk.step(); err != nil {
		h.file.data = append(h.file.data, p[:len(p)/2]...)
		return len(p) / 2, err
	}
	h.file.data = append(h.file.data, p...)
	return len(p), nil
}

func (h *memHandle) Sync() error {
	if err := h.disk.step(); err != nil {
		return err
	}
	h.file.synced, h.file.saved = bytes.Clone(h.file.data), true
	return nil
}

func (h *memHandle) Close() error { return h.disk.step() }

// temporaries are the program's own files that should not be left behind.
func (d *memDisk) temporaries() (left []string) {
	for p := range d.now {
		if strings.HasSuffix(p, tempEnd) {
			left = append(left, p)
		}
	}
	return left
}

// The disk itself forgets: without Sync the data, without syncFolder the name.
func TestMemDiskForgets(t *testing.T) {
	d := newMemDisk(map[string]string{"b/old": "old"})
	f, err := d.create("b/new", "b/old")
	if err != nil {
		t.Fatal(err)
	}
	if _, err := f.Write([]byte("data")); err != nil {
		t.Fatal(err)
	}
	if c := d.afterCrash(lazy); c.now["b/new"] != nil {
		t.Error("a name was kept that was not synced")
	}
	if c := d.afterCrash(eager); len(c.now["b/new"].data) != 0 {
		t.Error("data was kept that was not synced")
	}
	if c := d.afterCrash(torn); string(c.now["b/new"].data) != "da" {
		t.Error("data was not torn")
	}
	if err := errors.Join(f.Sync(), d.syncFolder("b")); err != nil {
		t.Fatal(err)
	}
	if c := d.afterCrash(lazy); string(c.now["b/new"].data) != "data" || string(c.now["b/old"].data) != "old" {
		t.Error("what was synced was lost")
	}
}

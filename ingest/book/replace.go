package book

import (
	"crypto/rand"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
)

// Files of the program's own in a logbook's folder. None of them is needed to read the logbook.
const (
	lockName   = ".brimlog.lock" // only where the folder itself cannot be locked
	memoryName = ".brimlog.last" // what Undo takes back
	tempStart  = ".brimlog-"
	tempEnd    = ".tmp"
)

// A target is a file under its lock, as it was when the lock was taken.
type target struct {
	disk  disk
	file  string // for messages
	path  string // links followed
	there bool
	old   []byte
	deed  *deed // what the change is, for Undo; nil for one that cannot be undone
}

// change does one change to a file of the logbook: lock, read, work out what the file is to be, replace it. Where it fails
// the file is as it was.
func change(d disk, dir, file string, work func(t *target) ([]byte, error)) error {
	folder, err := d.resolve(dir)
	if err != nil {
		return refuse(dir, err)
	}
	unlock, err := d.lock(folder)
	if err != nil {
		return refuse(file, err)
	}
	defer unlock()
	path, err := d.resolve(filepath.Join(folder, file))
	if err != nil {
		return refuse(file, err)
	}
	if elsewhere := filepath.Dir(path); elsewhere != folder { // a link: lock out those who come by another way
		unlock, err := d.lock(elsewhere)
		if err != nil {
			return refuse(file, err)
		}
		defer unlock()
	}
	t := &target{disk: d, file: file, path: path}
	if err := t.open(); err != nil {
		return err
	}
	data, err := work(t)
	if err != nil {
		return err
	}
	if t.deed == nil {
		return t.replace(data)
	}
	return t.carryOut(folder, data)
}

// open reads the file, sweeps what a killed program left, and refuses a file that somebody else holds or protects.
func (t *target) open() error {
	folder, name := filepath.Split(t.path)
	names, err := t.disk.names(filepath.Clean(folder))
	if err != nil {
		return refuse(t.file, err)
	}
	for _, n := range names {
		if strings.HasPrefix(n, tempStart) && strings.HasSuffix(n, tempEnd) {
			_ = t.disk.remove(filepath.Join(folder, n)) // the next one tries again
		}
		if n == ".~lock."+name+"#" {
			return fmt.Errorf("%s: it is open in a spreadsheet, which would overwrite the change: close it there first "+
				"(or remove %s, where that was left behind)", t.file, n)
		}
	}
	data, mode, err := t.disk.read(t.path)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil
	case err != nil:
		return refuse(t.file, err)
	case mode&0o222 == 0:
		return fmt.Errorf("%s: it is read-only: make it writable first", t.file)
	}
	t.old, t.there = data, true
	return nil
}

// replace puts data in the file's place. When the folder cannot be synced after that, the old file is put back, so that an
// error always means that the file is as it was.
func (t *target) replace(data []byte) error {
	if err := t.install(t.path, t.path, data); err != nil {
		return refuse(t.file, err)
	}
	folder := filepath.Dir(t.path)
	err := t.disk.syncFolder(folder)
	if err == nil {
		return nil
	}
	if back := t.putBack(); back != nil {
		return fmt.Errorf("%s: cannot be sure of the disk (%w), nor put the file back (%w): look what it holds before you go on",
			t.file, err, back)
	}
	return refuse(t.file, err)
}

func (t *target) putBack() error {
	if !t.there {
		return t.disk.remove(t.path)
	}
	return t.install(t.path, t.path, t.old)
}

// install writes a temporary beside path, syncs it and renames it over path: until the rename nothing has changed, after it
// everything. It gets the mode and owner of the file like.
func (t *target) install(path, like string, data []byte) (err error) {
	temp := filepath.Join(filepath.Dir(path), tempStart+filepath.Base(path)+"-"+rand.Text()[:12]+tempEnd)
	f, err := t.disk.create(temp, like)
	if err != nil {
		return err
	}
	defer func() {
		if err != nil {
			_ = t.disk.remove(temp) // else the next change sweeps it
		}
	}()
	_, err = f.Write(data)
	if err == nil {
		err = f.Sync()
	}
	if closed := f.Close(); err == nil {
		err = closed
	}
	if err != nil {
		return err
	}
	return t.disk.rename(temp, path)
}

// refuse words an error of the disk: what it is, that nothing has changed, what to do.
func refuse(file string, err error) error {
	do := "check that the folder can be written to and the disk is not full"
	switch {
	case errors.Is(err, errLocked):
		do = "wait until it is done, and try again"
	case errors.Is(err, fs.ErrPermission):
		do = "check whose folder it is, and that no other program holds the file open"
	case errors.Is(err, fs.ErrNotExist):
		do = "check the path"
	}
	return fmt.Errorf("%s: not changed (%w): %s", file, bare(err), do)
}

// bare takes the paths of temporaries off an error.
func bare(err error) error {
	var path *fs.PathError
	var link *os.LinkError
	switch {
	case errors.As(err, &path):
		return path.Err
	case errors.As(err, &link):
		return link.Err
	}
	return err
}

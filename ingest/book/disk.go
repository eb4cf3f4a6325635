package book

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
)

// A disk is what safe writing needs of a file system, so that tests can bring one that fails and forgets.
type disk interface {
	// resolve follows links. Of a file that is not there yet it follows those of the folder.
	resolve(path string) (string, error)
	// lock waits for the lock of a folder and gives what unlocks it; errLocked when it is held for too long.
	lock(folder string) (unlock func(), err error)
	read(path string) ([]byte, fs.FileMode, error)
	// create makes a new file, with mode and owner of the file like where there is one; it fails where path exists.
	create(path, like string) (file, error)
	rename(from, to string) error
	remove(path string) error
	names(folder string) ([]string, error)
	syncFolder(path string) error
	makeFolder(path string) error
}

type file interface {
	io.Writer
	Sync() error
	Close() error
}

var errLocked = errors.New("another program is writing to it")

// osDisk is the computer's own.
type osDisk struct{}

func (osDisk) resolve(path string) (string, error) {
	whole, err := filepath.EvalSymlinks(path)
	if !errors.Is(err, fs.ErrNotExist) {
		return whole, err
	}
	if _, err := os.Lstat(path); err == nil {
		return "", fmt.Errorf("it is a link to a file that is not there: %w", fs.ErrNotExist)
	}
	folder, err := filepath.EvalSymlinks(filepath.Dir(path))
	return filepath.Join(folder, filepath.Base(path)), err
}

func (osDisk) read(path string) ([]byte, fs.FileMode, error) {
	info, err := os.Stat(path)
	if err != nil {
		return nil, 0, err
	}
	if !info.Mode().IsRegular() || info.Size() > largestFile {
		return nil, 0, fmt.Errorf("want a file of at most %d MiB, got a %s of %d MiB",
			largestFile>>20, fileType(info.Mode()), info.Size()>>20)
	}
	data, err := os.ReadFile(path)
	return data, info.Mode().Perm(), err
}

// create sets the mode again, since the process's umask may have taken bits off.
func (osDisk) create(path, like string) (file, error) {
	info, err := os.Stat(like)
	mode := fs.FileMode(0o666)
	if err == nil {
		mode = info.Mode().Perm()
	}
	f, failed := os.OpenFile(path, os.O_WRONLY|os.O_CREATE|os.O_EXCL, mode)
	switch {
	case failed != nil:
		return f, failed
	case err != nil:
		likeFolder(f, filepath.Dir(path))
		return f, nil
	}
	if err := f.Chmod(mode); err != nil {
		f.Close()
		os.Remove(path)
		return nil, err
	}
	sameOwner(f, info)
	return f, nil
}

func (osDisk) remove(path string) error { return os.Remove(path) }

// makeFolder syncs each folder that it makes one in: a row in a folder that is forgotten is forgotten too.
func (d osDisk) makeFolder(path string) error {
	if info, err := os.Stat(path); err == nil && info.IsDir() {
		return nil
	}
	above := filepath.Dir(filepath.Clean(path))
	if above != filepath.Clean(path) {
		if err := d.makeFolder(above); err != nil {
			return err
		}
	}
	if err := os.Mkdir(path, 0o777); err != nil && !errors.Is(err, fs.ErrExist) {
		return err
	}
	return d.syncFolder(above)
}

func (osDisk) names(folder string) ([]string, error) {
	entries, err := os.ReadDir(folder)
	names := make([]string, len(entries))
	for i, e := range entries {
		names[i] = e.Name()
	}
	return names, err
}

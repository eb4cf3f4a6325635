package book

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"time"
)

// The lock is asked for again and again: a program that died has let go of it, one that hangs must not hang the next.
const (
	lockWait  = 10 * time.Second
	lockPause = 3 * time.Millisecond
)

// lock takes the folder's own lock where the system has one, which leaves no file behind and asks nobody whose file it is; else
// that of a lock file in it.
func (osDisk) lock(folder string) (func(), error) {
	f, err := openFolder(folder)
	if err != nil {
		if f, err = openLockFile(folder); err != nil {
			return nil, err
		}
	}
	for end := time.Now().Add(lockWait); ; time.Sleep(lockPause) {
		switch held, err := tryLock(f); {
		case err != nil:
			f.Close()
			return nil, err
		case held:
			return func() { f.Close() }, nil
		case time.Now().After(end):
			f.Close()
			return nil, errLocked
		}
	}
}

// openLockFile opens the lock file, which everybody who can reach the folder may lock, whoever made it.
func openLockFile(folder string) (*os.File, error) {
	path := filepath.Join(folder, lockName)
	f, err := os.OpenFile(path, os.O_RDWR|os.O_CREATE|os.O_EXCL, 0o666)
	if err == nil {
		_ = f.Chmod(0o666) // the umask may have taken bits off
		likeFolder(f, folder)
		return f, nil
	}
	if !errors.Is(err, fs.ErrExist) {
		return nil, err
	}
	if f, err = os.OpenFile(path, os.O_RDWR, 0); errors.Is(err, fs.ErrPermission) {
		return os.Open(path) // many systems lock what is open for reading as well
	}
	return f, err
}

// likeFolder gives a new file of the administrator's to the owner of the folder: a logbook that was once written by sudo stays
// its owner's.
func likeFolder(f *os.File, folder string) {
	if info, err := os.Stat(folder); err == nil && os.Geteuid() == 0 {
		sameOwner(f, info)
	}
}

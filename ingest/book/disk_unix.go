//go:build unix

package book

import (
	"errors"
	"io/fs"
	"os"
	"syscall"

	"golang.org/x/sys/unix"
)

// tryLock takes the lock that belongs to the open file; the system lets go of it when the file is closed or its program dies.
func tryLock(f *os.File) (bool, error) {
	for {
		err := unix.Flock(int(f.Fd()), unix.LOCK_EX|unix.LOCK_NB)
		switch {
		case err == nil:
			return true, nil
		case errors.Is(err, unix.EWOULDBLOCK):
			return false, nil
		case !errors.Is(err, unix.EINTR):
			return false, os.NewSyscallError("flock", err)
		}
	}
}

// openFolder opens a folder to lock it. The error is for file systems that know no such lock, as some in a network; where one program
// finds that, all do.
func openFolder(folder string) (*os.File, error) {
	f, err := os.Open(folder)
	if err != nil {
		return nil, err
	}
	held, err := tryLock(f)
	if held {
		err = unix.Flock(int(f.Fd()), unix.LOCK_UN) // it can be locked: lock will
	}
	if err != nil {
		f.Close()
		return nil, err
	}
	return f, nil
}

func (osDisk) rename(from, to string) error { return os.Rename(from, to) }

// syncFolder makes a rename in the folder outlive a power cut.
func (osDisk) syncFolder(path string) error {
	f, err := os.Open(path)
	if err != nil {
		return err
	}
	defer f.Close()
	return f.Sync()
}

// sameOwner gives a file the owner and group of another, where the system lets us: a logbook that was once written by the
// administrator stays its owner's.
func sameOwner(f *os.File, other fs.FileInfo) {
	if owner, ok := other.Sys().(*syscall.Stat_t); ok {
		_ = f.Chown(int(owner.Uid), int(owner.Gid))
	}
}

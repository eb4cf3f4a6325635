package book

import (
	"errors"
	"os"
	"time"

	"golang.org/x/sys/windows"
)

// tryLock takes the lock that belongs to the open file; the system lets go of it when the file is closed or its program dies.
func tryLock(f *os.File) (bool, error) {
	const flags = windows.LOCKFILE_EXCLUSIVE_LOCK | windows.LOCKFILE_FAIL_IMMEDIATELY
	err := windows.LockFileEx(windows.Handle(f.Fd()), flags, 0, 1, 0, new(windows.Overlapped))
	switch {
	case err == nil:
		return true, nil
	case errors.Is(err, windows.ERROR_LOCK_VIOLATION):
		return false, nil
	}
	return false, os.NewSyscallError("LockFileEx", err)
}

// openFolder always fails: on Windows only files are locked.
func openFolder(string) (*os.File, error) { return nil, errors.ErrUnsupported }

// rename tries for a second: while another program reads the file, Windows lets nobody replace it.
func (osDisk) rename(from, to string) error {
	for end := time.Now().Add(time.Second); ; time.Sleep(10 * time.Millisecond) {
		err := os.Rename(from, to)
		held := errors.Is(err, windows.ERROR_ACCESS_DENIED) || errors.Is(err, windows.ERROR_SHARING_VIOLATION)
		if !held || time.Now().After(end) {
			return err
		}
	}
}

// syncFolder does nothing: Windows has no such call, its file systems keep a journal of renames.
func (osDisk) syncFolder(string) error { return nil }

// sameOwner does nothing: on Windows a new file belongs to the folder's owner by inheritance.
func sameOwner(*os.File, os.FileInfo) {}

package book

import (
	"errors"
	"os"

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

// syncFolder does nothing: Windows has no such call, its file systems keep a journal of renames.
func (osDisk) syncFolder(string) error { return nil }

// sameOwner does nothing: on Windows a new file belongs to the folder's owner by inheritance.
func sameOwner(*os.File, os.FileInfo) {}

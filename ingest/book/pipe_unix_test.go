//go:build unix

package book

import (
	"path/filepath"
	"strings"
	"testing"

	"golang.org/x/sys/unix"
)

// A pipe in a file's place is refused, not waited for.
func TestPipeIsNoFile(t *testing.T) {
	dir := logbook(t, nil)
	if err := unix.Mkfifo(filepath.Join(dir, TripsFile), 0o644); err != nil {
		t.Skip("no pipes here:", err)
	}
	_, read := Read(dir)
	_, added := Append(dir, TripsFile, Cells{"date": "2024-02-11", "distance": "9"})
	for _, err := range []error{read, added} {
		if err == nil || !strings.Contains(err.Error(), "device or pipe") {
			t.Errorf("%v", err)
		}
	}
}

package main

import (
	"flag"
	"os"
	"path/filepath"
	"testing"

	"github.com/google/go-cmp/cmp"
)

var update = flag.Bool("update", false, "write the golden files anew: go test ./cmd/brimlog -update")

// golden compares text with testdata/golden/name.
func golden(t *testing.T, name, got string) {
	t.Helper()
	path := filepath.Join(top, "testdata", "golden", name)
	if *update {
		if err := os.WriteFile(path, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if d := cmp.Diff(string(want), got); d != "" {
		t.Errorf("%s (-want +got); if it is better so, run with -update:\n%s", name, d)
	}
}

// top is the repository, absolute: the tests call the program from other folders.
var top = func() string {
	dir, err := filepath.Abs("../..")
	if err != nil {
		panic(err)
	}
	return dir
}()

// plover is a small logbook that never changes: 17 weeks, a saving of an eighth after nine of them.
var plover = filepath.Join(top, "testdata", "plover")

func TestGoldenText(t *testing.T) {
	for _, c := range []struct {
		file string
		args []string
	}{
		{"tanks.txt", []string{"tanks"}},
		{"tanks-metric.txt", []string{"tanks", "--economy", "l_100km", "--as-of", "2023-04-14"}},
		{"prove.txt", []string{"prove"}},
		{"prove-retime.txt", []string{"prove", "retime"}},
	} {
		golden(t, c.file, sound(t, append(c.args, "-b", plover)...))
	}
}

//go:build unix

package main

import (
	"bytes"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// At a terminal a line tells how far a club's logbooks are, and is gone before each answer and at the end.
func TestProgressOverSeveral(t *testing.T) {
	club := t.TempDir()
	for _, name := range []string{"a", "b", "c"} {
		if err := os.CopyFS(filepath.Join(club, name), os.DirFS(steadyLog(t))); err != nil {
			t.Fatal(err)
		}
	}
	shown, status := atTerminal(t, club, []string{"tanks", "--json"})
	if status != statusDone {
		t.Fatalf("exit status %d: %s", status, shown)
	}
	if !strings.HasPrefix(shown, "0 of 3 logbooks\r\x1b[K{") {
		t.Errorf("begins %q", shown[:min(len(shown), 60)])
	}
	for _, line := range strings.Split(shown, "\n") {
		progress, left, wiped := strings.Cut(line, "\r\x1b[K")
		if !wiped || !strings.HasSuffix(progress, " of 3 logbooks") || left != "" && !strings.HasPrefix(left, "{") {
			t.Errorf("a line of the screen is %q", line[:min(len(line), 60)])
		}
	}
	if !strings.HasSuffix(shown, "\r\x1b[K") {
		t.Errorf("ends %q", shown[max(0, len(shown)-60):])
	}
}

// Where the program itself fails over one logbook, the others have their answers, and it is said whose fault it is.
func TestFaultStopsNoOther(t *testing.T) {
	var answers, told bytes.Buffer
	a := &app{out: &answers, err: &told, books: []string{"a", "b", "c"}}
	err := a.each(func(one *app) error {
		fmt.Fprintf(one.out, "begins %s\n", one.dir)
		if one.dir == "b" {
			var none []int
			_ = none[len(one.dir)]
		}
		return nil
	})
	if want := "a\nbegins a\n\nc\nbegins c\n"; answers.String() != want {
		t.Errorf("got %q, want %q", answers.String(), want)
	}
	if err == nil || !strings.Contains(err.Error(), "1 of 3 logbooks") {
		t.Errorf("error %v", err)
	}
	for _, part := range []string{"brimlog: b: ", "fault of the program itself", "index out of range [1]", "several_test.go:", "send it"} {
		if !strings.Contains(told.String(), part) {
			t.Errorf("told %q, want %q in it", told.String(), part)
		}
	}
}

// What is told of a logbook at the side holds nothing that a terminal would obey, wherever it comes from.
func TestSeveralErrorsAreHarmless(t *testing.T) {
	club := t.TempDir()
	for _, name := range []string{"a", "b\x1b[31m"} {
		if err := os.Mkdir(filepath.Join(club, name), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(filepath.Join(club, name, "vehicle.toml"), []byte("name ="), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	var told bytes.Buffer
	if status := (&app{out: io.Discard, err: &told}).run([]string{"tanks", "--book", club}); status != statusFailed {
		t.Errorf("exit status %d", status)
	}
	if strings.Count(told.String(), "\n") != 3 || strings.ContainsRune(told.String(), '\x1b') || !strings.Contains(told.String(), `b\x1b[31m`) {
		t.Errorf("told %q", told.String())
	}
}

package main

import (
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"testing"
)

// opensWith puts a command in the place of the platform's own for one test.
func opensWith(t *testing.T, command ...string) {
	t.Helper()
	before := opener
	opener = command
	t.Cleanup(func() { opener = before })
}

func script(t *testing.T, text string) string {
	t.Helper()
	if runtime.GOOS == "windows" {
		t.Skip("the stand-in for the opener is a shell script")
	}
	path := filepath.Join(t.TempDir(), "opener")
	if err := os.WriteFile(path, []byte("#!/bin/sh\n"+text), 0o755); err != nil {
		t.Fatal(err)
	}
	return path
}

// The opener gets the page's full path as its last word, once the page is written; the path may hold anything.
func TestPageOpens(t *testing.T) {
	seen := filepath.Join(t.TempDir(), "seen")
	opensWith(t, script(t, `test -s "$2" && printf '%s|%s' "$1" "$2" > `+seen), "first")
	dir := logbook(t, with("fills.csv", brims(4)))
	page := filepath.Join(dir, "it's $HOME; -x.html")
	out := sound(t, "page", "-b", dir, "--output", page, "--open")
	check := func() {
		t.Helper()
		if told, _ := os.ReadFile(seen); string(told) != "first|"+page {
			t.Errorf("the opener was given %q, want first|%s", told, page)
		}
		_ = os.Remove(seen)
	}
	check()
	t.Chdir(dir)
	if err := openPage(filepath.Base(page)); err != nil {
		t.Error(err)
	}
	check()
	if strings.Count(out, "\n") != 1 {
		t.Errorf("told in %q, want one line", out)
	}
}

// Without an opener, or with one that fails, the page is there and one line says what to do.
func TestPageCannotOpen(t *testing.T) {
	for why, command := range map[string]string{"there is no no-such-opener here": "no-such-opener", "gives up with status 3": script(t, "exit 3")} {
		opensWith(t, command)
		dir := logbook(t, with("fills.csv", brims(4)))
		out, complaint, status := called(t, "page", "-b", dir, "--open")
		if status != statusFailed || out != "" || !strings.Contains(complaint, why) || !strings.Contains(complaint, "by hand") || strings.Count(complaint, "\n") != 1 {
			t.Errorf("%s: exit %d, %q, %q", why, status, out, complaint)
		}
		if _, err := os.Stat(filepath.Join(dir, "page.html")); err != nil {
			t.Errorf("%s: no page: %v", why, err)
		}
	}
}

// Each platform has its own way (common practice: freedesktop.org's xdg-utils, and what comes with macOS and Windows).
func TestOpenerOfPlatform(t *testing.T) {
	for platform, want := range map[string][]string{"linux": {"xdg-open"}, "freebsd": {"xdg-open"}, "darwin": {"open"}, "windows": {"rundll32", "url.dll,FileProtocolHandler"}} {
		if got := openerOf(platform); !slices.Equal(got, want) {
			t.Errorf("%s opens with %q, want %q", platform, got, want)
		}
	}
}

package main

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// A report that the disk has no room for is no answer: every command says so and fails. What goes into the logbook is on the disk by
// then, so there the status stays 0.
func TestFullDisk(t *testing.T) {
	full, err := os.OpenFile("/dev/full", os.O_WRONLY, 0)
	if err != nil {
		t.Skip("no device that is always full here:", err)
	}
	defer full.Close()
	dir := steadyLog(t)
	for _, c := range []struct {
		args   string
		status int
	}{
		{"tanks", 1}, {"tanks --json", 1}, {"prove", 1}, {"prove --json", 1}, {"watch", 1}, {"watch --flag-status", 1}, {"expect", 1}, {"suspects", 1},
		{"check", 1}, {"check --json", 1}, {"cam --teeth 40", 1}, {"tyre --original 175R14 --fitted 185R14", 1}, {"help", 1}, {"help fill", 1}, {"page", 1},
		{"demo " + filepath.Join(t.TempDir(), "heron"), 1},
		{"fill --date 2025-02-04 --odometer 56000 --volume 45.9", 0}, {"undo", 0}, {"edit fills 2 note=x", 0}, {"drop fills 41", 0},
		{"trip --date 2025-02-04 --distance 9 --json", 0}, {"work --id oil --date 2025-02-04 --kind service", 0},
		{"cam --card 20-60/60-20 --measured 12-64/64-12 --write", 0}, {"cam --card 20-60/60-20 --measured 12-64/64-12 --write --json", 0},
		{"tyre --original 175R14 --fitted 185R14 --write", 0}, {"tyre --original 175R14 --fitted 185R14 --write --json", 0},
		{"init " + filepath.Join(t.TempDir(), "new"), 0}, {"init --json " + filepath.Join(t.TempDir(), "new"), 0},
		{"edit fills 99 note=x", 1}, {"nothing", 2},
	} {
		var told bytes.Buffer
		args := append([]string{"-b", dir}, strings.Fields(c.args)...)
		status := (&app{in: strings.NewReader(""), out: full, err: &told}).run(args)
		if status != c.status || strings.Count(told.String(), "\n") != 1 {
			t.Errorf("%s: status %d, want %d; it says %q", c.args, status, c.status, &told)
		}
		if full := strings.Contains(told.String(), "standard output: cannot be written (no space left on device)"); full == (c.args == "nothing" || strings.HasPrefix(c.args, "edit fills 99")) {
			t.Errorf("%s says %q", c.args, &told)
		}
	}
}

package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// What the README shows of the demo is what the demo says.
func TestReadmeShowsTheDemo(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "heron")
	said := sound(t, "demo", dir) + sound(t, "suspects", "-b", dir)
	text, err := os.ReadFile(filepath.Join(top, "README.md"))
	if err != nil {
		t.Fatal(err)
	}
	_, shown, _ := strings.Cut(string(text), "$ brimlog --book heron prove\n")
	shown, _, _ = strings.Cut(shown, "```")
	lines := 0
	for line := range strings.Lines(shown) {
		if line = strings.TrimSpace(line); line == "..." || line == "" || strings.HasPrefix(line, "$ ") {
			continue
		}
		lines++
		if !strings.Contains(said, line) {
			t.Errorf("README shows %q; the demo does not say so", line)
		}
	}
	if lines < 10 {
		t.Errorf("found %d lines of the demo in the README", lines)
	}
}

package main

import (
	"strings"
	"testing"
)

// A drive without a distance is none, and an area may be cut short as other words may.
func TestWhatIsNeededAtTheTerminal(t *testing.T) {
	dir := steadyLog(t)
	shown, status := atTerminal(t, dir, []string{"trip", "--date", "2025-01-26", "--road", "town", "--pace", "easy"},
		lines("-", "", "", "-", "7", "", "", "", "")...)
	if status != 0 || strings.Count(shown, "this one is needed: write it, or stop with Ctrl-C\n  distance, miles: ") != 2 {
		t.Errorf("status %d\n%s", status, shown)
	}
	if got := lastLine(t, dir, "trips.csv"); !strings.HasPrefix(got, "2025-01-26,,,7,town,easy,,1,") {
		t.Errorf("the file ends in %q", got)
	}
	shown, status = atTerminal(t, dir, []string{"work", "--date", "2025-01-26", "--what", "points", "--kind", "adjust", "--odometer", "55800"},
		lines("Ign / fu", "points", "", "", "", "", "")...)
	if got := lastLine(t, dir, "work.csv"); status != 0 || !strings.HasPrefix(got, "points,2025-01-26,55800,adjust,ignition/fuel,points,") {
		t.Errorf("status %d, the file ends in %q\n%s", status, got, shown)
	}
}

package main

import (
	"testing"

	"brimlog/ingest/quantity"
	"brimlog/stats"
)

// What is written as nought has no sign.
func TestNoughtHasNoSign(t *testing.T) {
	for _, c := range []struct {
		x             float64
		change, plain string
	}{
		{-0.04, "0.0 %", "0.0"}, {0.04, "0.0 %", "0.0"}, {-0.06, "-0.1 %", "-0.1"}, {0.06, "+0.1 %", "0.1"}, {quantity.Unknown, "–", "–"},
	} {
		if change, plain := percent(stats.Figure(c.x)), number(stats.Figure(c.x), 1); change != c.change || plain != c.plain {
			t.Errorf("%g: %q and %q, want %q and %q", c.x, change, plain, c.change, c.plain)
		}
	}
}

package main

import (
	"bytes"
	"strings"
	"testing"
	"time"
)

// Work that lasts is told of while it does, and the line is wiped after it; quick work is not.
func TestPatience(t *testing.T) {
	var w bytes.Buffer
	patiently(&w, time.Hour, func() {})
	if w.Len() != 0 {
		t.Errorf("quick work is told of: %q", w.String())
	}
	patiently(&w, time.Millisecond, func() { time.Sleep(100 * time.Millisecond) })
	if s := w.String(); !strings.HasPrefix(s, underWay+"\r") || !strings.HasSuffix(s, " \r") {
		t.Errorf("work that lasts leaves %q", s)
	}
}

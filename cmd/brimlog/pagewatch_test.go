package main

import (
	"bytes"
	"context"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strings"
	"testing"
	"time"
)

// A vigil is a page --watch that runs beside the test.
type vigil struct {
	*testing.T
	dir      string
	out, err *screen
	end      func() error
}

// keeping starts it and waits for the first page.
func keeping(t *testing.T, dir string) *vigil {
	t.Helper()
	v := &vigil{T: t, dir: dir, out: &screen{}, err: &screen{}}
	ctx, stop := context.WithCancel(t.Context())
	ended := make(chan error, 1)
	go func() {
		ended <- (&app{in: strings.NewReader(""), out: v.out, err: v.err, dir: dir}).keepPage(ctx, v.page(), false)
	}()
	v.end = func() error { stop(); return <-ended }
	v.until("the first page", func() bool { return strings.Count(v.out.String(), "\n") == 1 })
	return v
}

func (v *vigil) page() string { return filepath.Join(v.dir, "page.html") }

func (v *vigil) until(what string, is func() bool) {
	v.Helper()
	for end := time.Now().Add(20 * time.Second); !is(); time.Sleep(5 * time.Millisecond) {
		if time.Now().After(end) {
			v.Fatalf("%s never came; told %q, complained %q", what, v.out, v.err)
		}
	}
}

func (v *vigil) save(name, text string) {
	v.Helper()
	if err := os.WriteFile(filepath.Join(v.dir, name), []byte(text), 0o600); err != nil {
		v.Fatal(err)
	}
}

func (v *vigil) read() []byte {
	v.Helper()
	text, err := os.ReadFile(v.page())
	if err != nil {
		v.Fatal(err)
	}
	return text
}

// Each change makes one page and one line; several saves in a row make one; what is not the log's makes none.
func TestPageIsKeptFresh(t *testing.T) {
	v := keeping(t, logbook(t, with("fills.csv", brims(6))))
	first := v.read()
	for n := 7; n <= 10; n++ {
		v.save("fills.csv", brims(n)) // in haste
	}
	v.save("notes.csv", "not, one, of, ours\n")
	v.until("the second line", func() bool { return strings.Count(v.out.String(), "\n") >= 2 })
	if got := v.out.String(); strings.Count(got, "\n") != 2 || !strings.Contains(got, "written anew") || !strings.Contains(got, "9 tanks") {
		t.Errorf("told %q", got)
	}
	if bytes.Equal(first, v.read()) {
		t.Error("the page is what it was")
	}
	v.save("fills.csv", brims(10)) // the same again
	v.save("vehicle.toml", "name = \"Raven\"\n")
	v.until("the third line", func() bool { return strings.Count(v.out.String(), "\n") >= 3 })
	if err := v.end(); err != nil {
		t.Error(err)
	}
	if got := v.out.String(); strings.Count(got, "\n") != 3 || v.err.String() != "" || !bytes.Contains(v.read(), []byte("Raven")) {
		t.Errorf("told %q, complained %q", got, v.err)
	}
}

// A save that cannot be read is told, leaves the good page alone, and the next good one is taken; so is a file replaced by another, as
// editors do.
func TestBrokenSaveLeavesThePage(t *testing.T) {
	v := keeping(t, logbook(t, with("fills.csv", brims(6))))
	good := v.read()
	for i, broken := range []func(){
		func() { v.save("vehicle.toml", "name = \"Rook\n[") },
		func() { v.save("vehicle.toml", name["vehicle.toml"]); v.save("fills.csv", "") },
		func() { _ = os.Remove(filepath.Join(v.dir, "fills.csv")); v.save("trips.csv", tripHeading) },
	} {
		broken()
		v.until("a complaint", func() bool { return strings.Count(v.err.String(), "\n") > i })
		if !bytes.Equal(good, v.read()) {
			t.Fatalf("break %d: the good page was overwritten; told %q", i, v.err)
		}
	}
	if lines := strings.Split(strings.TrimSpace(v.err.String()), "\n"); !strings.Contains(lines[0], "vehicle.toml") || !strings.Contains(lines[1], "fills.csv") || !strings.Contains(lines[0], "stays as it was") {
		t.Errorf("complained %q", lines)
	}
	other := filepath.Join(v.dir, "fills.csv~")
	if err := os.WriteFile(other, []byte(brims(8)), 0o600); err != nil {
		t.Fatal(err)
	}
	if err := os.Rename(other, filepath.Join(v.dir, "fills.csv")); err != nil {
		t.Fatal(err)
	}
	v.until("the page after the mend", func() bool { return strings.Contains(v.out.String(), "7 tanks") })
	if err := v.end(); err != nil {
		t.Error(err)
	}
}

// The log's files may be links to another folder.
func TestLinkedLogIsFollowed(t *testing.T) {
	real, dir := logbook(t, with("fills.csv", brims(6))), t.TempDir()
	for _, f := range []string{"vehicle.toml", "fills.csv"} {
		if err := os.Symlink(filepath.Join(real, f), filepath.Join(dir, f)); err != nil {
			t.Skip("no links here: ", err)
		}
	}
	v := keeping(t, dir)
	if err := os.WriteFile(filepath.Join(real, "fills.csv"), []byte(brims(8)), 0o600); err != nil {
		t.Fatal(err)
	}
	v.until("the page of the linked file", func() bool { return strings.Contains(v.out.String(), "7 tanks") })
	if err := v.end(); err != nil {
		t.Error(err)
	}
}

// ctrl-C ends it with status 0 and no further word; a log that cannot be read at the start is an error.
func TestInterruptEndsTheWatch(t *testing.T) {
	if runtime.GOOS == "windows" {
		t.Skip("no interrupt can be sent to a program here")
	}
	dir := logbook(t, with("fills.csv", brims(6)))
	exe, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	out, complaint := &screen{}, &screen{}
	c := exec.Command(exe, "page", "-b", dir, "--watch")
	c.Args[0], c.Stdout, c.Stderr = "brimlog", out, complaint
	if err := c.Start(); err != nil {
		t.Fatal(err)
	}
	v := &vigil{T: t, dir: dir, out: out, err: complaint}
	v.until("the first page", func() bool { return strings.Contains(out.String(), "\n") })
	if err := c.Process.Signal(os.Interrupt); err != nil {
		t.Fatal(err)
	}
	if err := c.Wait(); err != nil || complaint.String() != "" || strings.Count(out.String(), "\n") != 1 {
		t.Errorf("ends with %v, told %q, complained %q", err, out, complaint)
	}
	if _, complaint, status := called(t, "page", "-b", logbook(t, map[string]string{"fills.csv": brims(3), "vehicle.toml": "["}), "--watch"); status != statusFailed || !strings.Contains(complaint, "vehicle.toml") {
		t.Errorf("a log that cannot be read: exit %d, %q", status, complaint)
	}
}

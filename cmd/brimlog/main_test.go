package main

import (
	"encoding/json"
	"errors"
	"fmt"
	"math"
	"os"
	"os/exec"
	"strconv"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"
)

// The test binary is the program, too: scripts and terminals run it as brimlog.
func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){"brimlog": func() { os.Exit(run(os.Args[1:])) }})
}

func TestScripts(t *testing.T) {
	testscript.Run(t, testscript.Params{
		Dir:                 "../../testdata/scripts",
		RequireExplicitExec: true,
		Cmds:                map[string]func(*testscript.TestScript, bool, []string){"exits": exits, "answers": answers, "lines": lineCount},
		Setup: func(e *testscript.Env) error {
			e.Setenv("BRIMLOG_BOOK", "log")
			return nil
		},
	})
}

// exits runs a command that is to end with a status: exits 1 brimlog fill. Statuses other than 0 come with one line on
// standard error and nothing on standard output.
func exits(ts *testscript.TestScript, not bool, args []string) {
	if not || len(args) < 2 {
		ts.Fatalf("usage: exits status command ...")
	}
	status := 0
	var ended *exec.ExitError
	if err := ts.Exec(args[1], args[2:]...); errors.As(err, &ended) {
		status = ended.ExitCode()
	} else if err != nil {
		ts.Fatalf("%v", err)
	}
	if strconv.Itoa(status) != args[0] {
		ts.Fatalf("exit status %d, want %s", status, args[0])
	}
	if told := ts.ReadFile("stderr"); status == statusFailed && (strings.Count(told, "\n") != 1 || ts.ReadFile("stdout") != "") {
		ts.Fatalf("want one line on standard error alone, got %q", told)
	}
}

// answers looks into the JSON document that the last command printed: answers tank.number 1
func answers(ts *testscript.TestScript, not bool, args []string) {
	var doc any
	d := json.NewDecoder(strings.NewReader(ts.ReadFile("stdout")))
	if err := d.Decode(&doc); err != nil || d.More() {
		ts.Fatalf("want one JSON document: %v", err)
	}
	for key := range strings.SplitSeq(args[0], ".") {
		switch at := doc.(type) {
		case map[string]any:
			x, ok := at[key]
			if !ok {
				ts.Fatalf("no %s in %v", key, at)
			}
			doc = x
		case []any:
			n, err := strconv.Atoi(key)
			if err != nil || n >= len(at) {
				ts.Fatalf("no element %s of %d", key, len(at))
			}
			doc = at[n]
		default:
			ts.Fatalf("no %s in %v", key, doc)
		}
	}
	if list, ok := doc.([]any); ok && len(args) == 1 && len(list) == 0 {
		return
	}
	got, want := fmt.Sprint(doc), strings.Join(args[1:], " ")
	same := got == want
	if x, ok := doc.(float64); ok { // conversions are exact by definition, binary fractions are not
		y, err := strconv.ParseFloat(want, 64)
		same = err == nil && math.Abs(x-y) <= 1e-9*math.Abs(y)
	}
	if same == not {
		ts.Fatalf("%s is %s, want %s", args[0], got, want)
	}
}

// lineCount counts the lines of a file: lines 3 log/fills.csv
func lineCount(ts *testscript.TestScript, not bool, args []string) {
	if n := strings.Count(ts.ReadFile(args[1]), "\n"); strconv.Itoa(n) != args[0] || not {
		ts.Fatalf("%s has %d lines, want %s", args[1], n, args[0])
	}
}

// An error shows what was typed, and the terminal obeys none of it.
func TestErrorsAreHarmless(t *testing.T) {
	for _, args := range [][]string{{"no\x1b[2Jthing"}, {"-b", "no\x1bthing", "check"}, {"edit", "fi\x1blls", "2", "a=b"}, {"import", "a\x1b\nb", "--as", "fills"}} {
		var told strings.Builder
		if status := (&app{in: strings.NewReader(""), out: &told, err: &told}).run(args); status == statusDone || strings.Contains(told.String(), "\x1b") || strings.Count(told.String(), "\n") != 1 {
			t.Errorf("%q: status %d, %q", args, status, told.String())
		}
	}
}

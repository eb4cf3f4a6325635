// Brimlog is a fuel-economy and drivability logbook for a vehicle kept on the road at home: CSV files in, a
// verdict with its reasons and one offline page out.
//
// Each command is one file here: its flags, its exit status and its terminal text. What is said is decided
// in package stats and below.
package main

import (
	"errors"
	"fmt"
	"os"

	"brimlog/ingest/book"
)

func main() {
	os.Exit(run(os.Args[1:]))
}

// Exit statuses.
const (
	statusDone    = 0
	statusFailed  = 1
	statusUsage   = 2
	statusFlagged = 3
)

// run is one call of the program, with its exit status.
func run(args []string) int {
	return (&app{in: os.Stdin, out: os.Stdout, err: os.Stderr}).run(args)
}

func (a *app) run(args []string) int {
	out := &output{Writer: a.out}
	a.out = out
	root := a.root()
	root.SetArgs(args)
	err := a.ended(out, root.Execute())
	var usage usageError
	switch {
	case err == nil:
		return statusDone
	case errors.Is(err, errFlagged):
		return statusFlagged
	case errors.As(err, &usage):
		a.complain(err)
		return statusUsage
	}
	a.complain(err)
	return statusFailed
}

// complain says in one line what went wrong. What was typed, or stands in a file, may hold what a terminal would obey.
func (a *app) complain(err error) { fmt.Fprintf(a.err, "brimlog: %s\n", book.Visible(err.Error())) }

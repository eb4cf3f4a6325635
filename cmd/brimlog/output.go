package main

import (
	"errors"
	"fmt"
	"io"
	"os"
)

// An output is standard output, of which every write is watched: a report that was cut short by a full disk must not pass for a
// whole one.
type output struct {
	io.Writer
	err error
}

func (o *output) Write(p []byte) (int, error) {
	n, err := o.Writer.Write(p)
	if err != nil && o.err == nil {
		o.err = err
	}
	return n, err
}

// ended is the error of a command whose answer could not be written whole. What was written into the logbook before that is on the
// disk, and the exit status has to say so: there it is a remark alone.
func (a *app) ended(o *output, err error) error {
	if o.err == nil || err != nil && !errors.Is(err, errFlagged) && !errors.Is(err, pathless(o.err)) {
		return err
	}
	why := fmt.Errorf("standard output: cannot be written (%w): the answer is not whole; make room, or send it elsewhere", pathless(o.err))
	if a.landed {
		fmt.Fprintf(a.err, "brimlog: %v; what was asked for is done\n", why)
		if errors.Is(err, errFlagged) {
			return err
		}
		return nil
	}
	return why
}

// terminalOf is the file that a writer goes to.
func terminalOf(w io.Writer) (*os.File, bool) {
	if o, ok := w.(*output); ok {
		w = o.Writer
	}
	f, ok := w.(*os.File)
	return f, ok
}

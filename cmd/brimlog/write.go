package main

import (
	"errors"
	"fmt"

	"brimlog/ingest/book"
)

// look reads the log that the entry is held against. The stamp comes first: what is written between the two is seen as a change.
func (e *entry) look() (err error) {
	if e.stamp, err = book.Stamp(e.folder(), e.file); err == nil {
		e.log, err = book.Read(e.folder())
	}
	return err
}

// write adds the row to the very file that it was held against. Where another program has changed it since, the row is held against
// the file anew, and refused where the other one has written the same.
func (e *entry) write() (line int, err error) {
	const mostTries = 20
	for range mostTries {
		line, err = book.AppendAt(e.folder(), e.file, e.stamp, e.cells)
		if !errors.Is(err, book.ErrChanged) {
			return line, err
		}
		draft, err := book.Draft(e.folder(), e.file, e.cells)
		if err != nil {
			return 0, err
		}
		before := alike(e.log, draft)
		if err := e.look(); err != nil {
			return 0, err
		}
		if alike(e.log, draft) > before {
			return 0, fmt.Errorf("%s: not written: another program has just written the very same row: look at it, and say it again if it is another one", e.file)
		}
		if err := e.hold(); err != nil {
			return 0, err
		}
	}
	return 0, err
}

// alike counts the rows of a log that say what a draft's row says.
func alike(log, draft *book.Book) (n int) {
	say := func(row any) string { return fmt.Sprintf("%v", row) } // unknown figures are not equal, but they are written alike
	for _, d := range draft.Fills {
		for _, f := range log.Fills {
			if f.Place = d.Place; say(f) == say(d) {
				n++
			}
		}
	}
	for _, d := range draft.Trips {
		for _, t := range log.Trips {
			if t.Place = d.Place; say(t) == say(d) {
				n++
			}
		}
	}
	for _, d := range draft.Jobs {
		for _, j := range log.Jobs {
			if j.Place = d.Place; say(j) == say(d) {
				n++
			}
		}
	}
	return n
}

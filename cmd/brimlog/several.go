package main

import (
	"bytes"
	"cmp"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"sync/atomic"

	"github.com/spf13/cobra"

	"brimlog/ingest/ahead"
	"brimlog/ingest/book"
)

// Some commands answer for several logbooks in one call: --book given more than once, or a folder that holds logbooks. Each is
// answered for by itself, on all cores; answers come in the order of the folders, and one that cannot be read stops no other.

// several marks a command that takes more than one logbook.
const several = "several"

func takesSeveral(c *cobra.Command) *cobra.Command {
	c.Annotations = map[string]string{several: "yes"}
	return c
}

// pickBooks finds out which logbooks are meant, and refuses several where the command takes one.
func (a *app) pickBooks(c *cobra.Command) error {
	a.books = once(a.dirs)
	if len(a.books) == 0 {
		a.books = []string{cmp.Or(os.Getenv("BRIMLOG_BOOK"), ".")}
	}
	if c.Annotations[several] == "" {
		if err := a.onlyOne(c); err != nil {
			return err
		}
	} else {
		var all []string
		for _, dir := range a.books {
			all = append(all, booksIn(dir)...)
		}
		a.books = once(all)
	}
	a.dir = a.books[0]
	return nil
}

// onlyOne refuses more than one logbook, named or in a folder that is named.
func (a *app) onlyOne(c *cobra.Command) error {
	if len(a.books) > 1 {
		return usage("%s takes one logbook at a time, got %s", c.Name(), strings.Join(a.books, ", "))
	}
	if inside := booksIn(a.books[0]); inside[0] != a.books[0] && len(a.dirs) > 0 {
		return usage("%s takes one logbook at a time, and %s holds %d: give one of them, such as %s", c.Name(), a.books[0], len(inside), inside[0])
	}
	return nil
}

// once leaves out what has been named before.
func once(dirs []string) (out []string) {
	for _, d := range dirs {
		if !slices.Contains(out, d) {
			out = append(out, d)
		}
	}
	return out
}

// booksIn lists the logbooks of a folder: itself, or those in it where it is none.
func booksIn(dir string) []string {
	if isBook(dir) {
		return []string{dir}
	}
	var inside []string
	entries, _ := os.ReadDir(dir)
	for _, e := range entries {
		if path := filepath.Join(dir, e.Name()); isBook(path) {
			inside = append(inside, path)
		}
	}
	if len(inside) == 0 {
		return []string{dir} // reading it says what is missing
	}
	return inside
}

func isBook(dir string) bool {
	for _, name := range []string{book.VehicleFile, book.FillsFile} {
		if _, err := os.Stat(filepath.Join(dir, name)); err == nil {
			return true
		}
	}
	return false
}

// A said is what one of several logbooks was answered with.
type said struct {
	out bytes.Buffer
	err error
}

// each answers for every logbook that is meant.
func (a *app) each(answer func(*app) error) error {
	if len(a.books) < 2 {
		return answer(a)
	}
	answers := make([]chan *said, len(a.books))
	for i := range answers {
		answers[i] = make(chan *said, 1)
	}
	var next, done atomic.Int64
	for range runtime.GOMAXPROCS(0) {
		go func() {
			for {
				i := int(next.Add(1)) - 1
				if i >= len(a.books) {
					return
				}
				answers[i] <- a.answerFor(a.books[i], answer)
				done.Add(1)
			}
		}()
	}
	return a.tell(answers, &done)
}

// answerFor answers for one logbook. Where the program itself fails over it the others are to have their answers all the same.
func (a *app) answerFor(dir string, answer func(*app) error) (s *said) {
	s = &said{}
	one := *a
	one.dir, one.out, one.among = dir, &s.out, true
	defer func() {
		if fault := recover(); fault != nil {
			s.out.Reset()
			s.err = fmt.Errorf("want an answer, got a fault of the program itself (%s): the logbook is not to blame; send it, with this line, to whoever keeps the program", ahead.FaultOf(fault).String())
		}
	}()
	s.err = answer(&one)
	return s
}

// tell writes the answers in order as they come, and the errors to the side.
func (a *app) tell(answers []chan *said, done *atomic.Int64) error {
	told, failed, flagged := 0, 0, false
	progress := a.progress(len(answers))
	for i, c := range answers {
		s := <-c
		progress.clear()
		if a.json {
			a.out.Write(s.out.Bytes())
		} else if s.out.Len() > 0 {
			if told++; told > 1 {
				fmt.Fprintln(a.out)
			}
			fmt.Fprintf(a.out, "%s\n%s", a.books[i], s.out.Bytes())
		}
		var wrong usageError
		switch {
		case errors.As(s.err, &wrong):
			return s.err // the same for all
		case errors.Is(s.err, errFlagged):
			flagged = true
		case s.err != nil:
			failed++
			a.complain(fmt.Errorf("%s: %w", a.books[i], pathless(s.err)))
		}
		progress.show(int(done.Load()))
	}
	progress.clear()
	switch {
	case failed > 0:
		return fmt.Errorf("%d of %d logbooks could not be answered for", failed, len(answers))
	case flagged:
		return errFlagged
	}
	return nil
}

// A progressLine is rewritten in place on a terminal, and is nothing elsewhere.
type progressLine struct {
	on bool
	of int
	a  *app
}

func (a *app) progress(of int) progressLine {
	p := progressLine{onTerminal(a.err), of, a}
	p.show(0)
	return p
}

func (p progressLine) show(done int) {
	if p.on {
		fmt.Fprintf(p.a.err, "%d of %d logbooks", done, p.of)
	}
}

func (p progressLine) clear() {
	if p.on {
		fmt.Fprint(p.a.err, "\r\x1b[K")
	}
}

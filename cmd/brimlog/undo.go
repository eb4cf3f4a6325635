package main

import (
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"brimlog/ingest/book"
	"brimlog/stats"
)

// A changedDocument is what undo, edit and drop answer with --json. Rows are as they stand in the file, quotes included.
type changedDocument struct {
	stats.Head
	File string     `json:"file"`
	Line int        `json:"line"`
	Rows int        `json:"rows"`
	Was  []string   `json:"was"`           // the row, or rows, before; the first ten. None where undo put a dropped one back
	Is   []string   `json:"is"`            // the row after; none where it is gone
	Now  book.Cells `json:"now,omitempty"` // the cells that edit was told to change
	Did  string     `json:"took_back,omitempty"`

	Doubts []book.Problem `json:"doubts,omitempty"` // about the row as edit left it
}

// mostShown is how many rows are shown of many.
const mostShown = 10

func (a *app) undo() *cobra.Command {
	return &cobra.Command{
		Use:   "undo",
		Short: "Take back the last change: a row or an import that was added, an edit, a row that was dropped",
		Long: "Take back the last change that fill, trip, work, import, edit, drop or check --fix made: rows that were added go, a row that\n" +
			"was edited or dropped stands again as it was. It reaches back one change, and refuses where the file was changed since.",
		Args: cobra.NoArgs,
		RunE: func(*cobra.Command, []string) error {
			if err := a.onlyNow("undo"); err != nil {
				return err
			}
			u, err := book.Undo(a.folder())
			if err != nil {
				return err
			}
			d := changedDocument{File: u.File, Line: u.Line, Rows: u.Rows, Was: shownRows(u.Was), Is: shownRows(u.Now), Did: u.Did}
			return a.tellChange(d, sentenceOf(u))
		},
	}
}

// sentenceOf says what was taken back.
func sentenceOf(u book.Undone) string {
	switch {
	case u.Did == book.Edited:
		return fmt.Sprintf("%s:%d: the edit is taken back:", u.File, u.Line)
	case u.Did == book.Dropped:
		return fmt.Sprintf("%s:%d: the row that was dropped is back (the lines behind it moved down):", u.File, u.Line)
	case u.Rows > 1:
		return fmt.Sprintf("taken back from %s, the %d rows from line %d on:", u.File, u.Rows, u.Line)
	}
	return fmt.Sprintf("taken back from %s, the row of line %d:", u.File, u.Line)
}

// shownRows are rows as they stand in the file, as many as are shown.
func shownRows(text string) []string {
	if text == "" {
		return []string{}
	}
	lines := strings.Split(strings.ReplaceAll(text, "\r\n", "\n"), "\n")
	if len(lines) > mostShown {
		lines = append(lines[:mostShown:mostShown], "…")
	}
	return lines
}

// tellChange says what was changed. It is on the disk by now: nothing that goes wrong here is a failure.
func (a *app) tellChange(d changedDocument, sentence string) error {
	a.landed = true
	if a.json {
		d.Head = stats.Head{Notes: []string{}}
		if b, err := book.Read(a.folder()); err == nil {
			d.Book, d.AsOf = b.Vehicle.Name, b.Last().String()
		}
		_ = a.document(d)
		return nil
	}
	fmt.Fprintln(a.out, sentence)
	was, is := "  ", "  "
	if len(d.Was) > 0 && len(d.Is) > 0 {
		was, is = "  was  ", "  is   "
	}
	for _, line := range d.Was {
		fmt.Fprintln(a.out, was+book.Visible(line))
	}
	for _, line := range d.Is {
		fmt.Fprintln(a.out, is+book.Visible(line))
	}
	for _, p := range d.Doubts {
		a.sheet(book.Show{}).point("that looks like a slip: %s: %s (brimlog undo takes it back)", spaced(stemOf(p.Column)), p.Message)
	}
	return nil
}

// onlyNow refuses --as-of for what writes: the log is changed as it is.
func (a *app) onlyNow(command string) error {
	if a.asOf != "" {
		return usage("%s: it changes the log as it is today, so --as-of has no meaning here: leave it out", command)
	}
	return nil
}

package main

import (
	"fmt"
	"strings"
	"unicode"

	"github.com/spf13/cobra"

	"brimlog/ingest/book"
	"brimlog/stats"
)

// A changedDocument is what undo, edit and drop answer with --json.
type changedDocument struct {
	stats.Head
	File string     `json:"file"`
	Line int        `json:"line"`
	Rows int        `json:"rows"`
	Was  []string   `json:"was"`           // the row, or rows, as they stood; the first ten
	Now  book.Cells `json:"now,omitempty"` // the cells that were changed
}

// mostShown is how many rows are shown of many.
const mostShown = 10

func (a *app) undo() *cobra.Command {
	return &cobra.Command{
		Use:   "undo",
		Short: "Take back what was added last: one row, or all of an import",
		Args:  cobra.NoArgs,
		RunE: func(*cobra.Command, []string) error {
			u, err := book.Undo(a.folder())
			if err != nil {
				return err
			}
			rows := "the row"
			if u.Rows > 1 {
				rows = fmt.Sprintf("%d rows", u.Rows)
			}
			return a.tellChange(changedDocument{File: u.File, Line: u.Line, Rows: u.Rows, Was: shownRows(u.Text)},
				fmt.Sprintf("taken back from %s, %s of line %d:", u.File, rows, u.Line))
		},
	}
}

func shownRows(text string) []string {
	lines := strings.Split(strings.ReplaceAll(text, "\r\n", "\n"), "\n")
	if len(lines) > mostShown {
		lines = append(lines[:mostShown:mostShown], "…")
	}
	return lines
}

// tellChange says what was changed. It is on the disk by now: nothing that goes wrong here is a failure.
func (a *app) tellChange(d changedDocument, sentence string) error {
	if a.json {
		d.Head = stats.Head{Notes: []string{}}
		if b, err := book.Read(a.folder()); err == nil {
			d.Book, d.AsOf = b.Vehicle.Name, b.Last().String()
		}
		_ = a.document(d)
		return nil
	}
	fmt.Fprintln(a.out, sentence)
	for _, line := range d.Was {
		fmt.Fprintln(a.out, "  "+visible(line))
	}
	return nil
}

// visible is a line of a file with nothing in it that a terminal would obey.
func visible(line string) string {
	return strings.Map(func(r rune) rune {
		if unicode.IsControl(r) && r != '\t' {
			return unicode.ReplacementChar
		}
		return r
	}, line)
}

package main

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"github.com/spf13/cobra"

	"brimlog/ingest/book"
	"brimlog/ingest/slip"
)

func (a *app) edit() *cobra.Command {
	return &cobra.Command{
		Use:   "edit FILE LINE column=value ...",
		Short: "Change cells of one row, and nothing else of the file",
		Long: "Change cells of one row, and nothing else of the file. The line is the one that brimlog check names, and editors show;\n" +
			"column= empties a cell. brimlog undo puts the row back as it was.",
		Example: "  brimlog edit fills 57 odometer=48213 missed=yes",
		Args:    parts(3, math.MaxInt, "FILE, LINE and column=value, as in brimlog edit fills 57 volume=52.31"),
		RunE: func(_ *cobra.Command, args []string) error {
			if err := a.onlyNow("edit"); err != nil {
				return err
			}
			cells, err := cellsOf(args[2:])
			if err != nil {
				return err
			}
			row, err := a.rowAt("edit", args[0], args[1])
			if err != nil {
				return err
			}
			if err := book.Edit(a.folder(), row, cells); err != nil {
				return err
			}
			after, err := book.RowAt(a.folder(), row.File, row.Line)
			if err != nil {
				after = row
			}
			d := changedDocument{File: row.File, Line: row.Line, Rows: 1, Was: shownRows(row.Text()), Is: shownRows(after.Text()), Now: cells}
			d.Doubts = a.doubtsOf(after)
			return a.tellChange(d, changesOf(row, after))
		},
	}
}

// doubtsOf is what looks like a slip in a row that has just been written: who edits means what he says, and hears what it does.
func (a *app) doubtsOf(row book.Row) (doubts []book.Problem) {
	b, err := book.Read(a.folder())
	if err != nil {
		return nil
	}
	for _, p := range slip.Find(b, wallClock()) {
		if p.File == row.File && p.Line == row.Line {
			doubts = append(doubts, p)
		}
	}
	return doubts
}

// parts wants so many arguments, and says which.
func parts(least, most int, which string) cobra.PositionalArgs {
	return func(_ *cobra.Command, args []string) error {
		if len(args) < least || len(args) > most {
			return fmt.Errorf("want %s, got %d of them", which, len(args))
		}
		return nil
	}
}

// cellsOf reads column=value pairs.
func cellsOf(args []string) (book.Cells, error) {
	cells := book.Cells{}
	for _, text := range args {
		column, value, ok := strings.Cut(text, "=")
		column = strings.TrimSpace(column)
		if !ok || column == "" {
			return nil, usage("edit: want column=value behind the line, as in volume=52.31, got %q", text)
		}
		if _, twice := cells[column]; twice {
			return nil, usage("edit: want each column once, got %s twice: leave one out", column)
		}
		cells[column] = value
	}
	return cells, nil
}

// changesOf says which cells are others now, one a line.
func changesOf(was, is book.Row) string {
	var changed []string
	for _, column := range is.Header {
		before, _ := was.Cell(column)
		if now, _ := is.Cell(column); now != before {
			changed = append(changed, fmt.Sprintf("%s:%d: %s is now %q, was %q", is.File, is.Line, book.Visible(strings.TrimSpace(column)), now, before))
		}
	}
	if len(changed) == 0 {
		return fmt.Sprintf("%s:%d: nothing to change, the row reads so already:", is.File, is.Line)
	}
	return strings.Join(changed, "\n")
}

// rowAt finds the row that a file's name and a line mean: fills or fills.csv.
func (a *app) rowAt(command, file, line string) (book.Row, error) {
	n, err := strconv.Atoi(line)
	if err != nil {
		return book.Row{}, usage("%s: want FILE and then the number of the row's line, as brimlog check shows it, got %q", command, line)
	}
	return book.RowAt(a.folder(), csvFile(file), n)
}

// csvFile is a file's name, which may be given without its end.
func csvFile(name string) string {
	if strings.HasSuffix(name, ".csv") || name == book.VehicleFile {
		return name
	}
	return name + ".csv"
}

package main

import (
	"fmt"
	"strconv"
	"strings"

	"github.com/spf13/cobra"

	"brimlog/ingest/book"
)

func (a *app) edit() *cobra.Command {
	return &cobra.Command{
		Use:     "edit FILE LINE column=value ...",
		Short:   "Change cells of one row, and nothing else of the file",
		Example: "  brimlog edit fills 57 odometer=48213 missed=yes",
		Args:    cobra.MinimumNArgs(3),
		RunE: func(_ *cobra.Command, args []string) error {
			cells := book.Cells{}
			for _, text := range args[2:] {
				column, value, ok := strings.Cut(text, "=")
				column = strings.TrimSpace(column)
				if _, twice := cells[column]; !ok || column == "" || twice {
					return usage("edit: want each column once as column=value, got %q", text)
				}
				cells[column] = value
			}
			row, err := a.rowAt(args[0], args[1])
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
			if !a.json {
				for _, column := range after.Header {
					was, _ := row.Cell(column)
					if now, _ := after.Cell(column); now != was {
						fmt.Fprintf(a.out, "%s:%d: %s is now %q, was %q\n", row.File, row.Line, column, now, was)
					}
				}
				return nil
			}
			return a.tellChange(changedDocument{File: row.File, Line: row.Line, Rows: 1, Was: []string{strings.Join(row.Cells, ",")}, Now: cells}, "")
		},
	}
}

// rowAt finds the row that a file's name and a line mean: fills or fills.csv.
func (a *app) rowAt(file, line string) (book.Row, error) {
	n, err := strconv.Atoi(line)
	if err != nil {
		return book.Row{}, usage("want the row's line, a number, got %q", line)
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

package main

import (
	"fmt"

	"github.com/spf13/cobra"

	"brimlog/ingest/book"
)

func (a *app) drop() *cobra.Command {
	return &cobra.Command{
		Use:   "drop FILE LINE",
		Short: "Take one row out of a file",
		Long: "Take one row out of a file, and nothing else. The line is the one that brimlog check names, and editors show. brimlog undo\n" +
			"puts the row back where it stood.",
		Example: "  brimlog drop fills 57",
		Args:    parts(2, 2, "FILE and LINE, as in brimlog drop fills 57"),
		RunE: func(_ *cobra.Command, args []string) error {
			if err := a.onlyNow("drop"); err != nil {
				return err
			}
			row, err := a.rowAt("drop", args[0], args[1])
			if err != nil {
				return err
			}
			if err := book.Drop(a.folder(), row); err != nil {
				return err
			}
			return a.tellChange(changedDocument{File: row.File, Line: row.Line, Rows: 1, Was: shownRows(row.Text()), Is: []string{}},
				fmt.Sprintf("taken out of %s, line %d (the lines behind it moved up; brimlog undo puts it back):", row.File, row.Line))
		},
	}
}

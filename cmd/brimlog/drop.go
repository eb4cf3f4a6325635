package main

import (
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"brimlog/ingest/book"
)

func (a *app) drop() *cobra.Command {
	return &cobra.Command{
		Use:     "drop FILE LINE",
		Short:   "Take one row out of a file",
		Example: "  brimlog drop fills 57",
		Args:    cobra.ExactArgs(2),
		RunE: func(_ *cobra.Command, args []string) error {
			row, err := a.rowAt(args[0], args[1])
			if err != nil {
				return err
			}
			if err := book.Drop(a.folder(), row); err != nil {
				return err
			}
			return a.tellChange(changedDocument{File: row.File, Line: row.Line, Rows: 1, Was: []string{strings.Join(row.Cells, ",")}},
				fmt.Sprintf("taken out of %s, line %d (the lines behind it moved up):", row.File, row.Line))
		},
	}
}

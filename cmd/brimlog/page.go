package main

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"

	"github.com/spf13/cobra"

	"brimlog/charts"
	"brimlog/stats"
)

func (a *app) page() *cobra.Command {
	var output string
	c := &cobra.Command{
		Use:   "page",
		Short: "Write one self-contained HTML file with all of it, before and after",
		Args:  cobra.NoArgs,
		RunE: func(*cobra.Command, []string) error {
			if output == "" {
				output = filepath.Join(a.folder(), "page.html")
			}
			return a.writePage(output)
		},
	}
	c.Flags().StringVarP(&output, "output", "o", "", "the file (default: page.html in the logbook's folder)")
	return c
}

func (a *app) writePage(path string) error {
	r, err := a.review(stats.Options{Prove: true, Watch: true})
	if err != nil {
		return err
	}
	a.patiently("running the engine through its cycles", r.Reckon)
	var b bytes.Buffer
	if err := charts.Write(&b, r); err != nil {
		return err
	}
	if err := os.WriteFile(path, b.Bytes(), 0o644); err != nil {
		return err
	}
	if a.json {
		return a.document(map[string]any{"book": r.Book, "as_of": r.AsOf, "notes": r.Notes, "page": path, "bytes": b.Len()})
	}
	fmt.Fprintf(a.out, "%s: %d kB, opens without a network.\n", path, b.Len()/1000)
	return nil
}

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

// wholeReview asks for all that the page shows.
var wholeReview = stats.Options{Prove: true, Watch: true, Expect: true, Suspect: true}

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
			r, err := a.patientReview(wholeReview)
			if err != nil {
				return err
			}
			return a.writePage(r, output)
		},
	}
	c.Flags().StringVarP(&output, "output", "o", "", "the file (default: page.html in the logbook's folder)")
	return c
}

func (a *app) writePage(r *stats.Review, path string) error {
	n, err := savePage(r, path)
	if err != nil {
		return err
	}
	if a.json {
		return a.document(map[string]any{"book": r.Book, "as_of": r.AsOf, "notes": r.Notes, "page": path, "bytes": n})
	}
	fmt.Fprintf(a.out, "%s: %d kB, opens without a network.\n", path, n/1000)
	return nil
}

// savePage writes the page to a file and tells its size in bytes.
func savePage(r *stats.Review, path string) (int, error) {
	var b bytes.Buffer
	if err := charts.Write(&b, r); err != nil {
		return 0, err
	}
	return b.Len(), os.WriteFile(path, b.Bytes(), 0o644)
}

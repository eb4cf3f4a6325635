package main

import (
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"

	"github.com/spf13/cobra"

	"brimlog/ingest/book"
	"brimlog/ingest/book/foreign"
	"brimlog/stats"
)

// An importDocument is what import answers with --json.
type importDocument struct {
	stats.Head
	DryRun bool `json:"dry_run"`
	*foreign.Report
}

func (a *app) importing() *cobra.Command {
	var as string
	var dry bool
	var o foreign.Options
	c := &cobra.Command{
		Use:   "import FILE --as fills|trips|work",
		Short: "Take rows from somebody's spreadsheet export, whatever its headings, separator, decimal mark and dates",
		Long: "Take rows from a spreadsheet's export: CSV with commas, semicolons, tabs or bars, in UTF-8, UTF-16 or Windows-1252, headings\n" +
			"in the owner's words. Rows that the log has already are passed over. All rows are taken or none, and one undo takes them\n" +
			"back. What can be read in two ways is refused, with its line. FILE may be - for standard input.",
		Example: "  brimlog import garage.csv --as fills --dry-run\n  brimlog import garage.csv --as fills --dates dmy --map volume_gal_uk=Gal --map none=Weather",
		Args:    parts(1, 1, "FILE, the sheet, as in brimlog import garage.csv --as fills"),
		RunE: func(_ *cobra.Command, args []string) error {
			if err := a.onlyNow("import"); err != nil {
				return err
			}
			if as == "" {
				return usage("import: want --as fills, --as trips or --as work: what the rows of %s are", args[0])
			}
			if book.Columns(csvFile(as)) == nil {
				return usage("import: want --as fills, --as trips or --as work, got --as %s", as)
			}
			o.File, o.Name, o.Now = csvFile(as), filepath.Base(args[0]), wallClock()
			data, err := a.sheetData(args[0])
			if err != nil {
				return err
			}
			take := foreign.Import
			if dry {
				take = foreign.Rehearse
			}
			r, err := take(a.folder(), data, o)
			var option foreign.OptionError
			switch {
			case errors.As(err, &option):
				return usageError{err}
			case err != nil:
				return err
			}
			return a.tellImport(r, dry)
		},
	}
	f := c.Flags()
	f.StringVar(&as, "as", "", "what the rows are: fills, trips or work")
	f.BoolVar(&dry, "dry-run", false, "show how each column is read and the first rows, and write nothing")
	f.StringArrayVar(&o.Map, "map", nil, "column=heading, as odometer_mi=Clock; none=heading leaves one out; #3 is the third (repeatable)")
	f.StringVar(&o.Dates, "dates", "", "order of the dates: dmy, mdy or ymd (default: as the sheet tells)")
	f.StringVar(&o.Decimal, "decimal", "", "decimal mark: comma or point (default: as the sheet tells)")
	f.StringVar(&o.Odometer, "odometer", "", "the reading before the first row, of a sheet that has only the distance of each tank")
	return c
}

// sheetData reads the sheet whole, within its bound.
func (a *app) sheetData(path string) ([]byte, error) {
	in := a.in
	if path != "-" {
		f, err := os.Open(path)
		if err != nil {
			return nil, fmt.Errorf("%s: cannot be read (%w): check the path", path, pathless(err))
		}
		defer f.Close()
		if info, err := f.Stat(); err == nil && info.IsDir() {
			return nil, fmt.Errorf("%s: want a sheet saved as CSV, got a folder: give the file", path)
		}
		in = f
	}
	data, err := io.ReadAll(io.LimitReader(in, foreign.LargestSheet+1))
	if err != nil {
		return nil, fmt.Errorf("%s: cannot be read (%w): check the file", path, pathless(err))
	}
	return data, nil
}

// pathless takes the path off an error that is told with it anyway.
func pathless(err error) error {
	var p *os.PathError
	if errors.As(err, &p) {
		return p.Err
	}
	return err
}

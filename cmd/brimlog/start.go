package main

import (
	"fmt"
	"path/filepath"

	"github.com/spf13/cobra"

	"brimlog/ingest/book"
)

func (a *app) start() *cobra.Command {
	var name, units string
	c := &cobra.Command{
		Use:   "init DIR",
		Short: "Start a logbook: a folder with four plain files, headers in the units asked for",
		Args:  parts(1, 1, "DIR, the folder to begin, as in brimlog init mycar"),
		RunE: func(_ *cobra.Command, args []string) error {
			if err := a.onlyNow("init"); err != nil {
				return err
			}
			if u := book.Units(units); u != book.UK && u != book.US && u != book.Metric {
				return usage("--units: want uk, us or metric, got %q", units)
			}
			if name == "" {
				name = folderName(args[0])
			}
			if err := book.Create(args[0], book.Options{Name: name, Units: book.Units(units)}); err != nil {
				return err
			}
			a.landed = true
			if a.json {
				return a.document(map[string]any{"book": name, "as_of": nil, "notes": []string{}, "folder": args[0]})
			}
			fmt.Fprintf(a.out, "%s is ready. Next: fill to the pump's first click, then write it down in fills.csv; tell vehicle.toml what you know of the engine.\n", args[0])
			return nil
		},
	}
	c.Flags().StringVar(&name, "name", "", "what the vehicle is called (default: the folder's name)")
	c.Flags().StringVar(&units, "units", "uk", "uk (miles, litres, mpg), us (miles, US gallons) or metric")
	return c
}

// folderName is what a vehicle is called until its owner says otherwise.
func folderName(dir string) string {
	if path, err := filepath.Abs(dir); err == nil {
		return filepath.Base(path)
	}
	return filepath.Base(dir)
}

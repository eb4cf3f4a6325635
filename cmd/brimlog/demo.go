package main

import (
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"

	"github.com/spf13/cobra"

	"brimlog/testdata"
)

func (a *app) demo() *cobra.Command {
	return &cobra.Command{
		Use:   "demo [DIR]",
		Short: "Write the demo logbook and its page, and print the verdicts",
		Long: "Write the logbook of the Heron, an invented 1974 estate, and its page into DIR (default: heron in the current folder),\n" +
			"and print what its jobs did. A folder that holds anything but an earlier demo is refused.",
		Args: cobra.MaximumNArgs(1),
		RunE: func(_ *cobra.Command, args []string) error {
			if err := a.onlyNow("demo"); err != nil {
				return err
			}
			dir := "heron"
			if len(args) == 1 {
				dir = args[0]
			}
			if err := writeDemo(dir); err != nil {
				return err
			}
			a.dir = dir
			return a.tellDemo(dir)
		},
	}
}

// demoFiles are all that a demo's folder may hold, beside what the program itself leaves there.
var demoFiles = []string{"fills.csv", "trips.csv", "work.csv", "vehicle.toml", "page.html", "page.html.new", ".brimlog.lock", ".brimlog.last"}

func writeDemo(dir string) error {
	held, err := os.ReadDir(dir)
	if err != nil && !os.IsNotExist(err) {
		return err
	}
	for _, e := range held {
		if !slices.Contains(demoFiles, e.Name()) {
			return fmt.Errorf("%s: holds %s, which is no part of an earlier demo: give an empty folder, or one that does not exist", dir, e.Name())
		}
	}
	if len(held) > 0 && !earlierDemo(dir) {
		return fmt.Errorf("%s: holds a logbook that is not the demo's: give an empty folder, or one that does not exist", dir)
	}
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return err
	}
	return fs.WalkDir(testdata.Heron, "heron", func(path string, e fs.DirEntry, err error) error {
		if err != nil || e.IsDir() {
			return err
		}
		text, err := fs.ReadFile(testdata.Heron, path)
		if err != nil {
			return err
		}
		return os.WriteFile(filepath.Join(dir, e.Name()), text, 0o644)
	})
}

// earlierDemo tells whether the folder's files are the demo's own, as written or not yet written.
func earlierDemo(dir string) bool {
	for _, name := range []string{"fills.csv", "trips.csv", "work.csv", "vehicle.toml"} {
		mine, _ := os.ReadFile(filepath.Join(dir, name))
		demo, err := fs.ReadFile(testdata.Heron, "heron/"+name)
		if err != nil || (len(mine) > 0 && string(mine) != string(demo)) {
			return false
		}
	}
	return true
}

func (a *app) tellDemo(dir string) error {
	r, err := a.patientReview(wholeReview)
	if err != nil {
		return err
	}
	page := filepath.Join(dir, "page.html")
	if a.json {
		if _, err := savePage(r, page); err != nil {
			return err
		}
		return a.document(r.ProveDocument(""))
	}
	s := a.sheet(r.Show)
	s.jobs(r)
	s.gap()
	s.answer("%s", s.watchSentence(r))
	s.gap()
	if err := a.writePage(r, page); err != nil {
		return err
	}
	s.say("The logbook is in %s: open its CSV files, or ask brimlog --book %s prove retime.", dir, dir)
	return nil
}

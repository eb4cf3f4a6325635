package main

import (
	"errors"
	"fmt"
	"io"
	"strings"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"brimlog/ingest/book"
	"brimlog/ingest/quantity"
	"brimlog/stats"
)

// An app is one call: where it reads and writes, and what the global flags say.
type app struct {
	in       io.Reader
	out, err io.Writer

	dirs    []string // as --book has them
	books   []string // the logbooks that are meant
	dir     string   // the one that is answered for
	among   bool     // it is one of several
	json    bool
	asOf    string
	economy string

	landed bool // something was written into the logbook: what goes wrong after that is no failure
}

// errFlagged is no failure: done, and something was flagged, when --flag-status was asked for.
var errFlagged = errors.New("something was flagged")

// A usageError is a call that cannot be understood.
type usageError struct{ error }

func usage(format string, a ...any) error { return usageError{fmt.Errorf(format, a...)} }

func (a *app) root() *cobra.Command {
	c := &cobra.Command{
		Use:   "brimlog",
		Short: "A fuel-economy and drivability logbook that says what a job changed, and how sure one can be",
		Long: "A fuel-economy and drivability logbook for vehicles kept on the road at home. A logbook is a folder of plain\n" +
			"CSV files; fill to the same mark, note what you did, and ask what it changed.",
		SilenceUsage: true, SilenceErrors: true,
	}
	c.SetOut(a.out)
	c.SetErr(a.err)
	f := c.PersistentFlags()
	f.StringArrayVarP(&a.dirs, "book", "b", nil, "the logbook's folder (default: $BRIMLOG_BOOK, else the current folder); tanks, prove, watch and check\ntake it several times, or a folder of logbooks")
	f.BoolVar(&a.json, "json", false, "print one JSON document and nothing else; of several logbooks one a line")
	f.StringVar(&a.asOf, "as-of", "", "answer as if the log ended on that date")
	f.StringVar(&a.economy, "economy", "", "unit of consumption: mpg_uk, mpg_us, l_100km, km_l (default: vehicle.toml)")
	c.SetFlagErrorFunc(func(_ *cobra.Command, err error) error { return usageError{err} })
	c.SetGlobalNormalizationFunc(func(_ *pflag.FlagSet, name string) pflag.NormalizedName {
		return pflag.NormalizedName(strings.ReplaceAll(name, "_", "-"))
	})
	c.CompletionOptions.HiddenDefaultCmd = true
	c.PersistentPreRunE = func(cmd *cobra.Command, _ []string) error { return a.pickBooks(cmd) }
	c.AddCommand(a.tanks(), a.prove(), a.watch(), a.page(), a.demo(), a.start())
	c.AddCommand(a.expect(), a.cam(), a.tyre())
	c.AddCommand(a.suspects())
	c.AddCommand(a.fill(), a.trip(), a.work(), a.importing(), a.undo(), a.edit(), a.drop(), a.check())
	for _, sub := range c.Commands() {
		args := sub.Args
		sub.Args = func(cmd *cobra.Command, given []string) error {
			if err := args(cmd, given); err != nil {
				return usage("%s: %v: see brimlog help %s", cmd.Name(), err, cmd.Name())
			}
			return nil
		}
	}
	c.RunE = func(cmd *cobra.Command, args []string) error {
		if len(args) > 0 {
			return usage("no command %q: see brimlog help", args[0])
		}
		return cmd.Help()
	}
	c.Args = cobra.ArbitraryArgs
	return c
}

// folder is the logbook that is meant.
func (a *app) folder() string { return a.dir }

// review reads the logbook and reviews it, as far as asked.
func (a *app) review(o stats.Options) (*stats.Review, error) {
	if a.asOf != "" {
		m, err := book.ParseMoment(a.asOf)
		if err != nil {
			return nil, usage("--as-of: %v", err)
		}
		o.AsOf = m
	}
	if a.economy != "" {
		if u, ok := quantity.UnitNamed(a.economy); !ok || u.Base() != quantity.LPer100Km {
			return nil, usage("--economy: want mpg_uk, mpg_us, l_100km or km_l, got %q", a.economy)
		}
	}
	b, err := book.Read(a.folder())
	if err != nil {
		return nil, err
	}
	if a.economy != "" {
		b.Vehicle.Show.Economy = a.economy
	}
	r := stats.Look(b, o)
	if a.among {
		r.Folder = a.dir
	}
	return r, nil
}

// document prints one JSON document.
func (a *app) document(doc any) error {
	text, err := plainJSON(doc)
	if err == nil {
		_, err = a.out.Write(text)
	}
	return err
}

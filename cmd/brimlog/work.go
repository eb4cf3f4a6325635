package main

import (
	"strings"

	"github.com/spf13/cobra"

	"brimlog/ingest/book"
)

func (a *app) work() *cobra.Command {
	c := &cobra.Command{
		Use:   "work",
		Short: "Write down a job, or a measurement taken in the workshop",
		Long: "Write down a job, or a measurement: a measure changes nothing on the vehicle, anything else is a job whose effect prove\n" +
			"will weigh. What is needed and was not given by flags is asked for at a terminal. Working under or around the vehicle follows\n" +
			"its maker's handbook: stands and not the jack alone, cold before the cooling is opened, running engines outdoors, no flame near fuel.\n\n" +
			wrap("Readings that something is made of: "+strings.Join(book.KnownReadings(), ", ")+". Others are kept and shown.", ""),
		Example: "  brimlog work\n  brimlog work --id points --date today --kind adjust --area ignition --what \"points set\" --readings \"ignition_deg=0\"",
		Args:    cobra.NoArgs,
	}
	e := a.newEntry(c, book.WorkFile)
	c.RunE = func(*cobra.Command, []string) error {
		return e.run(c, nil, e.askWork)
	}
	return c
}

func (e *entry) askWork() error {
	e.greet()
	last := lastReading(e.log)
	for _, step := range []func() error{
		func() error { return e.ask("what", "what was done", "") },
		func() error { return e.choose("kind", "kind", e.words("kind"), "") },
		func() error { return e.ask("area", "area (ignition, fuel/intake)", "") },
		func() error { return e.ask("id", "a short name for it", freeID(e.log.Jobs, e.stem())) },
		func() error { return e.ask("date", "date", today(e)) },
		func() error { return e.askOdometer("odometer", "odometer", last, e.figure(last, "odometer")) },
		func() error { return e.ask("readings", "readings (ignition_deg=0;idle_vacuum_inhg=18)", "") },
		func() error { return e.ask("cost", "cost", "") },
		func() error { return e.ask("hours", "hours", "") },
		func() error { return e.ask("idle", "minutes that the engine idled for it", "") },
		func() error { return e.ask("note", "note", "") },
	} {
		if err := step(); err != nil {
			return err
		}
	}
	return nil
}

// stem is what a job's name begins with where its owner gives none: the area, else the kind.
func (e *entry) stem() string {
	area, _, _ := strings.Cut(e.cells["area"], "/")
	for _, s := range []string{strings.TrimSpace(area), e.cells["kind"]} {
		if s != "" {
			return s
		}
	}
	return "work"
}

// wholeAreas completes what was cut short, as far as only one area is meant: ign/fuel is ignition/fuel.
func wholeAreas(text string) string {
	parts := strings.Split(text, "/")
	for i, part := range parts {
		if word, ok := begins(strings.TrimSpace(part), book.Areas()); ok {
			parts[i] = word
		}
	}
	return strings.Join(parts, "/")
}

package main

import (
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"brimlog/ingest/book"
	"brimlog/ingest/quantity"
)

func (a *app) fill() *cobra.Command {
	c := &cobra.Command{
		Use:   "fill",
		Short: "Write down a visit to the pump, and hear what the tank gave",
		Long: "Write down a visit to the pump. What is needed and was not given by flags is asked for at a terminal; figures are in the\n" +
			"file's own units, or carry theirs: --volume \"11.5 gal_uk\". The entry is held against the log before it is written.\n" +
			"Never note at the pump what can wait: engine off, no phone at the nozzle, and no filling beyond the first click.",
		Example: "  brimlog fill\n  brimlog fill --date today --odometer 48213 --volume \"52.31 l\" --tank \"60 town, some short, brisk\"",
		Args:    cobra.NoArgs,
	}
	e := a.newEntry(c, book.FillsFile)
	c.Flags().StringVar(&e.line, "tank", "", "the tank's note in one line: \"60 town, some short, brisk, weak low trace\"")
	c.RunE = func(*cobra.Command, []string) error { return e.run(c, tankNote, e.askFill) }
	return c
}

// tankNote is tankLine, but for an answer that is meant for another question.
func tankNote(text string) (book.Cells, error) {
	switch strings.ToLower(strings.TrimSpace(text)) {
	case "yes", "no", "y", "n", "full":
		return nil, fmt.Errorf("want how the tank went, such as 60 town, some short, brisk, got %q: whether it was filled to the brim goes by itself, as in --full no", text)
	}
	return tankLine(text)
}

// askFill asks for a fill in the order in which a receipt and a cold hand give it.
func (e *entry) askFill() error {
	last := lastFill(e.log)
	e.greet()
	if err := e.ask("date", "date", today(e)); err != nil {
		return err
	}
	if err := e.askOdometer("odometer", "odometer", last.Odometer, ""); err != nil {
		return err
	}
	currency := ""
	if c := e.log.Vehicle.Show.Currency; c != "" {
		currency = ", " + c
	}
	for _, step := range []func() error{
		func() error { return e.ask("volume", "filled, "+e.unitOf("volume").Label(), "") },
		func() error { return e.ask("cost", "paid"+currency, "") },
		func() error { return e.choose("full", "to the brim, first click", []string{"yes", "no"}, "yes") },
		e.askGauge,
		func() error { return e.ask("fuel", "fuel", usualFuel(e.log)) },
		e.askStation,
		e.askTank,
	} {
		if err := step(); err != nil {
			return err
		}
	}
	return nil
}

// askGauge matters for part fills alone.
func (e *entry) askGauge() error {
	if e.cells["full"] != "no" {
		return nil
	}
	return e.ask("gauge", "gauge before filling (0 to 1, or 1/4)", "")
}

// askStation asks where the owner keeps note of it.
func (e *entry) askStation() error {
	noted := 0
	for _, f := range e.log.Fills {
		if f.Station != "" {
			noted++
		}
	}
	if noted*2 < len(e.log.Fills) || noted == 0 {
		return nil
	}
	return e.ask("station", "station", "")
}

// askTank asks for the tank's note where nothing of it was given.
func (e *entry) askTank() error {
	for _, column := range []string{"town_share", "short_trips", "pace", "weak_low", "weak_high"} {
		if e.has(column) {
			return nil
		}
	}
	return e.oneLine("how the tank went (60 % town, some short, brisk, weak low trace)", tankNote)
}

// lastFill is the newest fill by date that has an odometer; its figures are Unknown where there is none.
func lastFill(b *book.Book) book.Fill {
	last := book.Fill{Odometer: quantity.Unknown}
	for _, f := range b.Fills {
		if quantity.Known(f.Odometer) && !f.Date.Before(last.Date.Time) {
			last = f
		}
	}
	return last
}

// usualFuel is what most of the last fills were of.
func usualFuel(b *book.Book) string {
	const fills = 9
	usual, count := "", map[string]int{}
	for _, f := range b.Fills[max(0, len(b.Fills)-fills):] {
		if count[f.Fuel]++; f.Fuel != "" && count[f.Fuel] >= count[usual] {
			usual = f.Fuel
		}
	}
	return usual
}

func today(e *entry) string { return e.now.Format("2006-01-02") }

// greet says how to answer.
func (e *entry) greet() {
	fmt.Fprintln(e.talk.w, wrap(fmt.Sprintf("%s. Enter takes what stands in brackets, - leaves it out, Ctrl-C writes nothing. Any unit may stand behind a figure.",
		e.log.Vehicle.Name), ""))
}

// unitOf is the unit in which a plain figure of a column is read.
func (e *entry) unitOf(column string) quantity.Unit {
	header, err := book.Header(e.folder(), e.file)
	if err != nil {
		return quantity.Number
	}
	for _, h := range header {
		if stem, u := quantity.SplitColumn(h); stem == column {
			return u
		}
	}
	return quantity.Number
}

package main

import (
	"errors"
	"strconv"
	"strings"

	"github.com/spf13/cobra"

	"brimlog/ingest/book"
	"brimlog/ingest/quantity"
)

func (a *app) trip() *cobra.Command {
	c := &cobra.Command{
		Use:   "trip",
		Short: "Write down a drive: what kind, how cold, how it drove",
		Long: "Write down a drive, once it is over and parked. What is needed and was not given by flags is asked for at a terminal;\n" +
			"two of start, end and distance are enough. Stop and look before going on with fuel smells, heavy knock or overheating.",
		Example: "  brimlog trip\n  brimlog trip --date today --distance 12 --road town --air 4 --drove \"hesitation trace, else fine\"",
		Args:    cobra.NoArgs,
	}
	e := a.newEntry(c, book.TripsFile)
	c.Flags().StringVar(&e.line, "drove", "", "how it drove in one line: \"hesitation trace, else fine\"")
	c.RunE = func(*cobra.Command, []string) error { return e.run(c, droveLine, e.askTrip) }
	return c
}

// askTrip asks for what most drives have to tell; the rest has its flags.
func (e *entry) askTrip() error {
	e.greet()
	for _, step := range []func() error{
		func() error { return e.ask("date", "date", today(e)) },
		e.askWay,
		func() error { return e.choose("road", "road", e.words("road"), "") },
		func() error { return e.choose("pace", "pace", e.words("pace"), "usual") },
		func() error { return e.ask("air", "air outside, "+e.unitOf("air").Label(), "") },
		func() error { return e.ask("cold_starts", "starts from cold", "1") },
		e.askDrove,
		func() error { return e.ask("note", "note", "") },
	} {
		if err := step(); err != nil {
			return err
		}
	}
	return nil
}

// words are those that a column's cells may hold.
func (e *entry) words(column string) []string {
	for _, c := range book.Columns(e.file) {
		if c.Name == column {
			return c.Words
		}
	}
	return nil
}

// askWay asks for start and end, or for the distance where one of the two is not known.
func (e *entry) askWay() error {
	if e.has("distance") {
		return nil
	}
	last := lastReading(e.log)
	if err := e.askOdometer("odometer_start", "odometer at the start", last, e.figure(last, "odometer_start")); err != nil {
		return err
	}
	start, err := quantity.Parse(book.Plain("odometer", e.cells["odometer_start"]), e.unitOf("odometer_start"))
	if err != nil {
		start = quantity.Unknown
	}
	if err := e.askOdometer("odometer_end", "odometer at the end", start, ""); err != nil {
		return err
	}
	if e.has("odometer_start") && e.has("odometer_end") {
		return nil
	}
	return e.ask("distance", "distance, "+e.unitOf("distance").Label(), "")
}

// askDrove asks for the symptoms where none was given.
func (e *entry) askDrove() error {
	for s := range book.SymptomCount {
		if e.has(s.String()) {
			return nil
		}
	}
	return e.oneLine("how it drove (fine; or hesitation trace, else fine)", droveLine)
}

// askOdometer asks for a reading; +190 adds to the last one.
func (e *entry) askOdometer(column, question string, last float64, otherwise string) error {
	if e.has(column) {
		return nil
	}
	unit := e.unitOf(column)
	question += ", " + unit.Label()
	if otherwise == "" && quantity.Known(last) {
		question += " (from " + e.figure(last, column) + "; +190 adds to it)"
	}
	return e.talk.until(question, otherwise, func(text string) (string, error) {
		if text == "" {
			if e.needs(column) {
				return "", errors.New("this one is needed: write it, or stop with Ctrl-C")
			}
			return "", nil
		}
		if more, ok := strings.CutPrefix(text, "+"); ok && quantity.Known(last) {
			x, err := quantity.Parse(book.Plain("odometer", more), unit)
			if err != nil {
				return asProblem(err)
			}
			text = e.figure(last+x, column)
			e.talk.say("that makes %s", text)
		}
		if err := book.Try(e.folder(), e.file, column, text); err != nil {
			return asProblem(err)
		}
		e.cells[column] = text
		return "", nil
	})
}

// figure writes km as a column has them; empty where they are not known.
func (e *entry) figure(km float64, column string) string {
	if !quantity.Known(km) {
		return ""
	}
	x := e.unitOf(column).FromBase(km)
	return strconv.FormatFloat(float64(int64(x*10+0.5))/10, 'f', -1, 64)
}

// lastReading is the highest reading of the last day that has one, fills and drives alike.
func lastReading(b *book.Book) float64 {
	fill := lastFill(b)
	day, km := fill.Date, fill.Odometer
	for _, t := range b.Trips {
		if quantity.Known(t.End) && (t.Date.After(day.Time) || t.Date.Equal(day.Time) && !(t.End < km)) {
			day, km = t.Date, t.End
		}
	}
	return km
}

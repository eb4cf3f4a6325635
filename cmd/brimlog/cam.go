package main

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"brimlog/ingest/book"
	"brimlog/ingest/quantity"
	"brimlog/stats/engine"
)

// camFlags are what a call of cam tells.
type camFlags struct {
	card, lift, drive, spark  string
	rounds                    []string
	teeth, offset, out, phase degrees
	measure                   measure
}

// A camDocument is the answer of cam with its head.
type camDocument struct {
	bookless
	engine.CamAnswer
	Written *measured `json:"written,omitempty"`
}

func (a *app) cam() *cobra.Command {
	f := camFlags{teeth: unknownDegrees(), offset: unknownDegrees(), out: unknownDegrees(), phase: unknownDegrees()}
	c := &cobra.Command{
		Use:   "cam",
		Short: "Cam timing: from degree-wheel readings or the sprocket to the phase error against the card",
		Long: "Say where the cam stands against its timing card: from degree-wheel readings of both flanks of a lobe at one lift, from\n" +
			"an offset or teeth at the sprocket, or from a phase that is known: one of these. At a terminal it asks for what no flag\n" +
			"tells. The card is that of vehicle.toml, or --card; no logbook is needed then.\n\n" +
			"  brimlog cam --measured 12-64/64-12 --measured 13-63 --measured 12-65\n" +
			"  brimlog cam --card 20-60/60-20 --teeth 40 --offset 4",
		Args: cobra.NoArgs,
		RunE: func(*cobra.Command, []string) error { return a.answerCam(f) },
	}
	fl := c.Flags()
	fl.StringVar(&f.card, "card", "", "timing card: intake opens-closes/exhaust opens-closes, as 20-60/60-20 (default: vehicle.toml)")
	fl.StringArrayVar(&f.rounds, "measured", nil, "a round of readings in the card's order and at one lift: 25-55/65-15, or 25-55 for the intake alone, or /65-15 (repeat for each round)")
	fl.StringVar(&f.lift, "lift", "", "lift at which the flanks were read, as 1.25 mm or 0.05 in")
	fl.Var(&f.teeth, "teeth", "teeth of the cam's sprocket (default: vehicle.toml)")
	fl.Var(&f.offset, "offset", "cam degrees that the sprocket stands ahead of its mark; behind is negative")
	fl.Var(&f.out, "teeth-out", "whole teeth that it stands ahead of its mark; behind is negative")
	fl.Var(&f.phase, "phase", "crank degrees that the cam is known to be advanced; late is negative")
	fl.StringVar(&f.spark, "ignition", "unknown", "the spark since the cam moved: moved (the distributor turns with the cam and was not set again), reset (set again, or not driven by the cam), unknown; --write notes it too")
	fl.StringVar(&f.drive, "drive", "chain", "what turns the cam: chain, belt or gears")
	f.measure.flags(c, "the phase error")
	return c
}

func (a *app) answerCam(f camFlags) error {
	if err := f.measure.onlyNow(a, "cam"); err != nil {
		return err
	}
	b, err := a.withBook()
	if err != nil && (f.card == "" || f.measure.write) {
		return err
	}
	q, err := f.question(b)
	if err != nil {
		return err
	}
	var owner *talk
	if !f.told() && !a.json {
		owner = a.talker()
	}
	if owner != nil {
		if err := owner.askCam(&q); err != nil {
			return err
		}
	}
	answer, err := q.Answer()
	if err != nil {
		if b != nil && f.card == "" && engine.Card(vehicleNow(b).Engine.Cam).Check() != nil {
			return a.outOfBounds(err)
		}
		return usageError{err}
	}
	doc := camDocument{bookless: a.headOf(b), CamAnswer: answer}
	if f.measure.write {
		if doc.Written, err = a.writeCam(f, b, q, answer); err != nil {
			return err
		}
	}
	if a.json {
		return a.document(doc)
	}
	s := a.sheet(book.Show{})
	s.cam(q, doc)
	if owner == nil || b == nil || a.asOf != "" || doc.Written != nil || answer.Reading() == "" {
		return nil
	}
	yes, err := owner.choose("write "+answer.Reading()+" into work.csv, as a measure", []string{"yes", "no"}, "no")
	if err != nil || yes != "yes" {
		return err
	}
	if doc.Written, err = a.writeCam(f, b, q, answer); err == nil {
		s.wrote(doc.Written)
	}
	return err
}

// writeCam adds the phase error to the log.
func (a *app) writeCam(f camFlags, b *book.Book, q engine.CamQuestion, answer engine.CamAnswer) (*measured, error) {
	switch {
	case b == nil:
		return nil, fmt.Errorf("--write: want a logbook to write into, got none in %s: give its folder with --book", a.folder())
	case answer.Reading() == "":
		return nil, fmt.Errorf("--write: want a phase error to write, got none: give the card and a round of readings")
	}
	if err := answer.Check(); err != nil {
		return nil, usage("--write: %v", err)
	}
	what := "Cam timing by the sprocket"
	if answer.Repeats > 0 {
		what = fmt.Sprintf("Cam timing by the degree wheel, %s", counted(answer.Repeats, "round"))
	}
	return f.measure.add(a, b, "cam-reading", "camshaft", what, answer.Reading(), camRemark(q, answer))
}

// camRemark is what the row's note says of the reading.
func camRemark(q engine.CamQuestion, c engine.CamAnswer) string {
	var parts []string
	if sd := float64(c.PhaseErrorSd); quantity.Known(sd) {
		parts = append(parts, fmt.Sprintf("good to %.1f degrees", sd))
	}
	if quantity.Known(q.LiftMM) {
		parts = append(parts, fmt.Sprintf("read at %g mm lift", q.LiftMM))
	}
	return strings.Join(parts, ", ")
}

// told tells whether the flags say where the cam stands.
func (f camFlags) told() bool { return len(f.ways()) > 0 }

// question puts the flags and the vehicle's card together.
func (f camFlags) question(b *book.Book) (engine.CamQuestion, error) {
	q := engine.NewCamQuestion(engine.UnknownCard())
	if b != nil {
		q.Card = engine.Card(vehicleNow(b).Engine.Cam)
	}
	if f.card != "" {
		card, err := parseCard(f.card, q.Card.SprocketTeeth)
		if err != nil {
			return q, usage("--card: %v", err)
		}
		q.Card = card
	}
	for _, text := range f.rounds {
		in, ex, err := parseRound(text)
		if err != nil {
			return q, usage("--measured: %v", err)
		}
		q.Intake, q.Exhaust = append(q.Intake, in...), append(q.Exhaust, ex...)
	}
	if f.lift != "" {
		mm, err := parseLift(f.lift)
		if err != nil {
			return q, usage("--lift: %v", err)
		}
		q.LiftMM = mm
	}
	drive, ok := map[string]engine.Drive{"chain": engine.Chain, "belt": engine.Belt, "gears": engine.Gears}[f.drive]
	if !ok {
		return q, usage("--drive: want chain, belt or gears, got %q", f.drive)
	}
	q.Drive = drive
	if q.Ignition, ok = engine.SparkWords[f.spark]; !ok {
		return q, usage("--ignition: want moved, reset or unknown, got %q", f.spark)
	}
	q.Card.SprocketTeeth = quantity.Or(float64(f.teeth), q.Card.SprocketTeeth)
	q.SprocketOffset, q.Teeth, q.Phase = float64(f.offset), float64(f.out), float64(f.phase)
	return q, f.lacks(q)
}

// ways are the flags that were given of those that say where the cam stands.
func (f camFlags) ways() (given []string) {
	add := func(name string, told bool) {
		if told {
			given = append(given, name)
		}
	}
	add("--measured", len(f.rounds) > 0)
	add("--offset", quantity.Known(float64(f.offset)))
	add("--teeth-out", quantity.Known(float64(f.out)))
	add("--phase", quantity.Known(float64(f.phase)))
	return given
}

// lacks refuses flags that tell nothing for want of another, and those that tell one thing twice.
func (f camFlags) lacks(q engine.CamQuestion) error {
	switch ways := f.ways(); {
	case len(ways) > 1:
		return usage("%s: want one way of saying where the cam stands, got %d: leave out all but one", strings.Join(ways, ", "), len(ways))
	case quantity.Known(q.Teeth) && !quantity.Known(q.Card.SprocketTeeth):
		return usage("--teeth-out: how far a tooth is depends on their number: give --teeth, or sprocket_teeth under [engine] cam in vehicle.toml")
	case len(f.rounds) > 0 && !quantity.Known(q.Card.IntakeDuration()):
		return usage("--measured: nothing to hold it against: give --card, or [engine] cam in vehicle.toml")
	}
	return nil
}

// named tells whether the call or its surroundings name a logbook; holdsBook, whether the folder is one.
func (a *app) named() bool { return len(a.dirs) > 0 || os.Getenv("BRIMLOG_BOOK") != "" }

func (a *app) holdsBook() bool {
	_, err := os.Stat(filepath.Join(a.folder(), book.VehicleFile))
	return err == nil
}

package main

import (
	"fmt"

	"github.com/spf13/cobra"

	"brimlog/ingest/book"
	"brimlog/ingest/quantity"
	"brimlog/stats"
	"brimlog/stats/expect"
)

// tyreFlags are what a call of tyre tells.
type tyreFlags struct {
	original, fitted, real, shown string
	before                        degrees
	measure                       measure
}

// A tyreDocument is the answer of tyre with its head.
type tyreDocument struct {
	bookless
	Notes           []string     `json:"notes"`
	Original        *tyreSize    `json:"original"`
	Fitted          *tyreSize    `json:"fitted"`
	Correction      stats.Figure `json:"odometer_correction"` // true distance over shown distance
	Sd              stats.Figure `json:"sd"`
	ReadsTooHighPct stats.Figure `json:"reads_too_high_pct"` // consumption reckoned on the shown distance
	Reading         string       `json:"reading"`
	Written         *measured    `json:"written,omitempty"`
}

type tyreSize struct {
	Code           string  `json:"code"`
	DiameterMM     float64 `json:"diameter_mm"`
	CircumferenceM float64 `json:"circumference_m"`
}

func (a *app) tyre() *cobra.Command {
	f := tyreFlags{before: unknownDegrees()}
	c := &cobra.Command{
		Use:   "tyre",
		Short: "What other tyres do to the odometer: true distance for each one shown",
		Long: "Say by how much the odometer is wrong: from the tyre size that the vehicle was made for and the one that is fitted, or,\n" +
			"better, from a distance known to be true, between posts or by satellite. --write puts the reading odometer_correction\n" +
			"into work.csv; it holds back to the last job on tyres, driveline or odometer.\n\n" +
			"  brimlog tyre --original 205R16 --fitted 7.50R16\n" +
			"  brimlog tyre --true \"20 km\" --shown \"18.4 km\" --write",
		Args: cobra.NoArgs,
		RunE: func(*cobra.Command, []string) error { return a.answerTyre(f) },
	}
	fl := c.Flags()
	fl.StringVar(&f.original, "original", "", "the size that the instrument was made for, as 7.50-16, 165R13 or 185/70R14")
	fl.StringVar(&f.fitted, "fitted", "", "the size that is on it now")
	fl.Var(&f.before, "before", "the instrument's own correction on the original size (default: vehicle.toml, else 1)")
	fl.StringVar(&f.real, "true", "", "a distance known to be true, as 20 km or 12.4 mi")
	fl.StringVar(&f.shown, "shown", "", "what the odometer showed for it")
	f.measure.flags(c, "the correction")
	return c
}

func (a *app) answerTyre(f tyreFlags) error {
	if err := f.measure.onlyNow(a, "tyre"); err != nil {
		return err
	}
	b, err := a.withBook()
	if err != nil && f.measure.write {
		return err
	}
	distance := quantity.Km
	doc := tyreDocument{bookless: a.headOf(b), Notes: []string{}}
	if b != nil {
		if u, ok := quantity.UnitNamed(b.Vehicle.Show.Distance); ok {
			distance = u
		}
	}
	c, err := f.correction(&doc, b, distance)
	if err != nil {
		return err
	}
	doc.Correction, doc.Sd, doc.Reading = stats.Figure(c.Factor), stats.Figure(c.Sd), c.Reading()
	doc.ReadsTooHighPct = stats.Figure(c.ReadsTooHighPct())
	if f.measure.write {
		if b == nil {
			return fmt.Errorf("--write: want a logbook to write into, got none in %s: give its folder with --book", a.folder())
		}
		if doc.Written, err = f.measure.add(a, b, "odometer", "odometer", "True distance for each one shown", c.Reading(), c.Why); err != nil {
			return err
		}
	}
	if a.json {
		return a.document(doc)
	}
	a.sheet(book.Show{}).tyre(c, doc, reachesBackTo(b))
	return nil
}

// correction reckons from whichever pair was given.
func (f tyreFlags) correction(doc *tyreDocument, b *book.Book, distance quantity.Unit) (expect.Correction, error) {
	switch {
	case f.real != "" && f.shown != "" && f.original+f.fitted == "":
		return f.measured(distance)
	case f.original != "" && f.fitted != "" && f.real+f.shown == "":
		return f.sizes(doc, b)
	}
	return expect.Correction{}, usage("tyre: want --original and --fitted, or --true and --shown: see brimlog help tyre")
}

func (f tyreFlags) measured(distance quantity.Unit) (expect.Correction, error) {
	km := [2]float64{}
	for i, given := range [2]struct{ flag, text string }{{"--true", f.real}, {"--shown", f.shown}} {
		x, err := quantity.Parse(given.text, distance)
		if err != nil {
			return expect.Correction{}, usage("%s: %v", given.flag, err)
		}
		km[i] = x
	}
	c, err := expect.ForMeasured(km[0], km[1])
	if err != nil {
		return c, usageError{err}
	}
	c.Why = fmt.Sprintf("%s true, %s shown", cellOf(km[0], distance), cellOf(km[1], distance))
	return c, nil
}

// cellOf writes a distance with its unit, as exactly as it was given.
func cellOf(km float64, u quantity.Unit) string { return quantity.Cell(km, u) + " " + u.Label() }

func (f tyreFlags) sizes(doc *tyreDocument, b *book.Book) (expect.Correction, error) {
	was, err := expect.ParseTyre(f.original)
	if err != nil {
		return expect.Correction{}, usage("--original: %v", err)
	}
	now, err := expect.ParseTyre(f.fitted)
	if err != nil {
		return expect.Correction{}, usage("--fitted: %v", err)
	}
	doc.Original, doc.Fitted = &tyreSize{was.Code, was.DiameterMM, was.Circumference()}, &tyreSize{now.Code, now.DiameterMM, now.Circumference()}
	before := float64(f.before)
	if b != nil {
		before = quantity.Or(before, b.Vehicle.Odometer.Correction)
	}
	if quantity.Or(before, 1) == 1 {
		doc.Notes = append(doc.Notes, "the instrument is taken to be right on the original size, which few are: a measured stretch of 20 km is worth more than any code")
	}
	c, err := expect.ForTyres(was, now, before)
	if err != nil {
		return c, usageError{err}
	}
	return c, nil
}

// reachesBackTo is the job that a measured correction holds back to, nil for the log's beginning.
func reachesBackTo(b *book.Book) *book.Job {
	if b == nil {
		return nil
	}
	var last *book.Job
	for i, j := range b.Jobs {
		for _, area := range j.Areas {
			touches := area == "tyres" || area == "driveline" || area == "odometer"
			if touches && !j.Measure() && (last == nil || !j.Date.Before(last.Date.Time)) {
				last = &b.Jobs[i]
			}
		}
	}
	return last
}

func (s *sheet) tyre(c expect.Correction, doc tyreDocument, back *book.Job) {
	off := c.ReadsTooHighPct()
	switch {
	case off > 0.05:
		s.answer("It goes %.3f for each one shown: consumption reckoned on the odometer reads %.1f %% too high.", c.Factor, off)
	case off < -0.05:
		s.answer("It goes %.3f for each one shown: consumption reckoned on the odometer reads %.1f %% too low.", c.Factor, -off)
	default:
		s.answer("The odometer is right: it goes %.3f for each one shown.", c.Factor)
	}
	s.point("%s", c.Why)
	s.point("good to %.1f %% (standard uncertainty)", 100*c.Sd)
	for _, n := range doc.Notes {
		s.point("%s", n)
	}
	s.wrote(doc.Written)
	if doc.Written == nil {
		s.point("as a reading in work.csv: %s (--write puts it there, as a measure)", c.Reading())
	}
	if back != nil {
		s.point("there it holds from %s on (%s), the last job on tyres, driveline or odometer", back.ID, back.Date.String())
	} else if doc.Book != nil {
		s.point("there it holds for the whole log, since no job on tyres, driveline or odometer is noted: note the day of the change first, if the log goes back beyond it")
	}
	s.gap()
	s.say("To measure: on a quiet road with posts, or by satellite, tyres warm and at their pressures, a passenger reading; 20 km tell a fifth of a percent, one km only a few percent.")
}

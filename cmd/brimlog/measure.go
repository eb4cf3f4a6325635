package main

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"brimlog/ingest/book"
	"brimlog/ingest/quantity"
)

// A measure is a reading on its way into work.csv: as a job of kind measure, which changes nothing on the vehicle.
type measure struct {
	write                    bool
	id, date, odometer, note string
}

// A measured is where it was written.
type measured struct {
	File string `json:"file"`
	Line int    `json:"line"`
	ID   string `json:"id"`
}

func (m *measure) flags(c *cobra.Command, reading string) {
	f := c.Flags()
	f.BoolVar(&m.write, "write", false, "write "+reading+" into work.csv, as a measure")
	f.StringVar(&m.id, "id", "", "the measure's id (default: one that is free)")
	f.StringVar(&m.date, "date", "", "when it was taken (default: today)")
	f.StringVar(&m.odometer, "odometer", "", "what the odometer showed")
	f.StringVar(&m.note, "note", "", "a remark of your own")
}

// onlyNow refuses --as-of for a reading that is to be written.
func (m *measure) onlyNow(a *app, command string) error {
	if !m.write {
		return nil
	}
	return a.onlyNow(command + " --write")
}

// add writes the reading. stem is what its id is made of where none was given.
func (m *measure) add(a *app, b *book.Book, stem, area, what, readings, told string) (*measured, error) {
	id, date := m.id, m.date
	if id == "" {
		id = freeID(b.Jobs, stem)
	}
	if date == "" || date == "today" {
		date = time.Now().Format(time.DateOnly)
	}
	note := strings.Trim(strings.Join([]string{told, m.note}, ". "), ". ")
	line, err := book.Append(a.folder(), book.WorkFile, book.Cells{
		"id": id, "date": date, "odometer": m.odometer, "kind": "measure", "area": area, "what": what, "readings": readings, "note": note,
	})
	if err != nil {
		return nil, err
	}
	a.landed = true
	return &measured{book.WorkFile, line, id}, nil
}

// freeID is the stem, with a number behind it where jobs have it already.
func freeID(jobs []book.Job, stem string) string {
	taken := func(id string) bool { return slices.ContainsFunc(jobs, func(j book.Job) bool { return j.ID == id }) }
	id := stem
	for n := 2; taken(id); n++ {
		id = stem + "-" + strconv.Itoa(n)
	}
	return id
}

func (s *sheet) wrote(w *measured) {
	if w != nil {
		s.point("written into %s, line %d, as %s", w.File, w.Line, w.ID)
	}
}

// withBook reads the logbook where there is one: what needs none works outside of any. A folder that was named, and holds
// none, is an error.
func (a *app) withBook() (*book.Book, error) {
	b, err := book.Read(a.folder())
	switch {
	case err == nil && a.asOf != "":
		m, err := book.ParseMoment(a.asOf)
		if err != nil {
			return nil, usage("--as-of: %v", err)
		}
		return b.Until(m), nil
	case err != nil && !a.named() && !a.holdsBook():
		return nil, nil
	}
	return b, err
}

// A bookless is the head of a document that may stand without a logbook: then it is null.
type bookless struct {
	Book *string `json:"book"`
	AsOf *string `json:"as_of"`
}

func (a *app) headOf(b *book.Book) bookless {
	if b == nil {
		return bookless{}
	}
	asOf := a.asOf
	if asOf == "" {
		asOf = b.Last().String()
	}
	return bookless{&b.Vehicle.Name, &asOf}
}

// vehicleNow is the vehicle as the log's last job left it.
func vehicleNow(b *book.Book) book.Vehicle {
	return b.Vehicle.After(func(id string) bool {
		return slices.ContainsFunc(b.Jobs, func(j book.Job) bool { return j.ID == id })
	})
}

// A degrees is a flag for a number that may stay unknown.
type degrees float64

func unknownDegrees() degrees { return degrees(quantity.Unknown) }

func (d *degrees) Set(text string) error {
	x, err := strconv.ParseFloat(strings.TrimSpace(text), 64)
	if err != nil || !quantity.Known(x) {
		return fmt.Errorf("want a number, got %q", text)
	}
	*d = degrees(x)
	return nil
}

func (d *degrees) String() string {
	if !quantity.Known(float64(*d)) {
		return ""
	}
	return strconv.FormatFloat(float64(*d), 'g', -1, 64)
}

func (d *degrees) Type() string { return "number" }

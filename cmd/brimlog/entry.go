package main

import (
	"fmt"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"brimlog/ingest/book"
	"brimlog/ingest/quantity"
)

// An entry is a row on its way into a file of the logbook: told by flags, completed by answers, held against the log, written.
type entry struct {
	*app
	file   string
	flags  map[string]*string // by the column's name, with a unit or without
	own    []string           // --set column=value
	line   string             // the note of a tank, or how it drove, in one line
	yes    bool
	log    *book.Book
	stamp  string // of the file, as it was when the log was read or before
	cells  book.Cells
	now    time.Time
	talk   *talk
	notes  []string
	doubts []book.Problem
}

// newEntry gives a command the flags of its file's columns.
func (a *app) newEntry(c *cobra.Command, file string) *entry {
	e := &entry{app: a, file: file, flags: map[string]*string{}, cells: book.Cells{}, now: wallClock()}
	f := c.Flags()
	for _, column := range book.Columns(file) {
		e.flags[column.Name] = f.String(flagName(column.Name), "", usageOf(column))
		if column.Unit == quantity.Number || column.Unit == quantity.Percent || column.Name == "hours" {
			continue
		}
		for _, u := range column.Unit.Units() { // what is in the header is understood as well
			name := column.Name + "_" + u.String()
			e.flags[name] = f.String(flagName(name), "", "")
			_ = f.MarkHidden(flagName(name)) // it was defined in the line above
		}
	}
	f.StringArrayVar(&e.own, "set", nil, "fill a column of your own: column=value (repeatable)")
	f.BoolVar(&e.yes, "yes", false, "write it even if it looks like a slip")
	return e
}

func flagName(column string) string { return strings.ReplaceAll(column, "_", "-") }

// meanings are those of columns whose names don't tell a stranger what goes into them.
var meanings = map[string]string{
	"cost":        "what was paid in all",
	"fuel":        "what the pump says, as E5 or E10, or a label of your own",
	"full":        "filled to the brim, the nozzle's first click",
	"missed":      "a fill between this one and the last was not written down",
	"gauge":       "the gauge as you drove in, 0 to 1; of use with part fills",
	"town_share":  "share of the tank's distance in town",
	"short_trips": "drives too short to warm through",
	"weak_low":    "feeble when opened gently from low revs",
	"weak_high":   "feeble flat out at high revs",
	"weak_cruise": "feeble when held steady at a light throttle",
	"cold_starts": "starts with the engine cold",
	"idle":        "time spent idling",
	"load":        "load on top of the vehicle's usual mass",
	"tow":         "what was towed",
	"id":          "a short name for the job, as cam-fit",
	"area":        "what it was done to, several with /: " + strings.Join(book.Areas(), ", "),
	"readings":    "what was measured: name=value, several with ;",
	"hours":       "hours of your own",
	"fuel_lost":   "fuel drained or spilt",
	"air":         "air outside",
	"cruise":      "speed held for most of it",
	"odometer":    "what the odometer shows",
	"volume":      "what went in",
	"what":        "what was done",
	"station":     "where it was filled",
}

func usageOf(c book.Column) string {
	u := spaced(c.Name)
	if m, ok := meanings[c.Name]; ok {
		u = m
	}
	switch {
	case c.Words != nil:
		u += ": " + strings.Join(c.Words, ", ")
	case c.Name == "date":
		u = "2024-02-11, 2024-02-11T17:40, today or yesterday"
	case c.Unit == quantity.Percent:
		u += ", 0 to 100"
	case c.Unit != quantity.Number && c.Name != "hours":
		var units []string
		for _, v := range c.Unit.Units() {
			units = append(units, v.String())
		}
		u += ", with a unit behind it (" + strings.Join(units, ", ") + ") or in the file's own"
	}
	return u
}

// run is the whole of fill, trip and work. ask puts the command's questions.
func (e *entry) run(c *cobra.Command, lineOf func(string) (book.Cells, error), ask func() error) error {
	if err := e.onlyNow(c.Name()); err != nil {
		return err
	}
	if err := e.take(c, lineOf); err != nil {
		return err
	}
	if err := e.look(); err != nil {
		return err
	}
	var err error
	e.talk = e.talker()
	missing := e.missing()
	switch {
	case len(missing) > 0 && e.talk == nil:
		return e.want(missing)
	case len(missing) > 0:
		err = ask()
	}
	if err == nil {
		err = e.hold()
	}
	if err != nil {
		return err
	}
	line, err := e.write()
	if err != nil {
		return err
	}
	return e.tell(line)
}

// take reads the flags into cells.
func (e *entry) take(c *cobra.Command, lineOf func(string) (book.Cells, error)) error {
	for column, value := range e.flags {
		if c.Flags().Changed(flagName(column)) {
			e.cells[column] = *value
		}
	}
	if date, ok := e.cells["date"]; ok {
		e.cells["date"] = e.day(date)
	}
	for _, text := range e.own {
		column, value, ok := strings.Cut(text, "=")
		if column = strings.TrimSpace(column); !ok || column == "" {
			return usage("--set: want column=value, got %q", text)
		}
		if _, twice := e.cells[column]; twice {
			return usage("--set: want each column once, got %q again", column)
		}
		e.cells[column] = value
	}
	if e.line == "" {
		return nil
	}
	cells, err := lineOf(e.line)
	if err != nil {
		return fmt.Errorf("%s: not written: %w", e.file, err)
	}
	return e.add(cells)
}

// add puts cells beside those that are there already, which a flag or an answer named by itself.
func (e *entry) add(cells book.Cells) error {
	for column, value := range cells {
		if was, there := e.cells[column]; !there {
			e.cells[column] = value
		} else if was != value {
			return usage("want each column once, got %s as %q and as %q", column, was, value)
		}
	}
	return nil
}

// day reads the words for days that people type.
func (e *entry) day(text string) string {
	switch strings.ToLower(strings.TrimSpace(text)) {
	case "today", "now":
		return e.now.Format(time.DateOnly)
	case "yesterday":
		return e.now.AddDate(0, 0, -1).Format(time.DateOnly)
	}
	return text
}

// has tells whether a column was given, with whatever unit in its name.
func (e *entry) has(column string) bool {
	for name := range e.cells {
		if stem, _ := quantity.SplitColumn(name); name == column || stem == column {
			return true
		}
	}
	return false
}

// missing are the columns that a row needs and that were not given; an empty value is an answer.
func (e *entry) missing() []book.Column {
	var missing []book.Column
	for _, c := range book.Columns(e.file) {
		needed := c.Needed || c.Name == "distance" && !(e.has("odometer_start") && e.has("odometer_end"))
		if needed && !e.has(c.Name) {
			missing = append(missing, c)
		}
	}
	return missing
}

var examples = map[string]string{"date": "2024-02-11", "odometer": `"48213 mi"`, "volume": `"52.31 l"`, "id": "cam-fit", "distance": `"12 mi"`}

// andList writes a list: date, odometer and volume.
func andList(names []string) string {
	last := len(names) - 1
	if last < 1 {
		return strings.Join(names, "")
	}
	return strings.Join(names[:last], ", ") + " and " + names[last]
}

// want says what to give where nobody can be asked.
func (e *entry) want(missing []book.Column) error {
	var names, give []string
	for _, c := range missing {
		names = append(names, c.Name)
		give = append(give, "--"+flagName(c.Name)+" "+examples[c.Name])
	}
	is := "is"
	if len(names) > 1 {
		is = "are"
	}
	return fmt.Errorf("%s: not written: %s %s missing, and there is no terminal to ask at: give %s", e.file, andList(names), is, strings.Join(give, " "))
}

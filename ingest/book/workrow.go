package book

import (
	"fmt"
	"slices"
	"strings"
	"sync"

	"brimlog/ingest/quantity"
)

// A jobRow is what gocsv fills. It makes two of each row and copies them, so the cells stand behind a pointer and
// serve again: that makes reading a fifth faster.
type jobRow struct {
	Line int // gocsv refuses a row without a field that it can see
	*jobCells
}

type jobCells struct {
	row
	Job
	odometer, idle, lost string // the column that was filled
	readings             cell
}

var spareJobs = sync.Pool{New: func() any { return new(jobCells) }}

var workSchema = newSchema(WorkFile, []column[jobCells]{
	{"id", quantity.Number, true, func(r *jobCells, c cell) { r.ID = c.note() }},
	{"date", quantity.Number, true, func(r *jobCells, c cell) { r.Date = c.moment() }},
	{"odometer_*", quantity.Km, false, func(r *jobCells, c cell) { c.only(&r.Odometer, &r.odometer, 0, farthest) }},
	{"kind", quantity.Number, false, func(r *jobCells, c cell) { r.Kind = c.word(kindWords) }},
	{"area", quantity.Number, false, func(r *jobCells, c cell) { r.Areas = c.areas() }},
	{"what", quantity.Number, false, func(r *jobCells, c cell) { r.What = c.note() }},
	{"readings", quantity.Number, false, func(r *jobCells, c cell) { r.readings = c }},
	{"cost", quantity.Number, false, func(r *jobCells, c cell) { r.Cost = c.figure(0, mostPaid) }},
	{"hours", quantity.Hour, false, func(r *jobCells, c cell) { r.Hours = c.figure(0, 1e6) / 60 }},
	{"idle_*", quantity.Minute, false, func(r *jobCells, c cell) { c.only(&r.IdleMin, &r.idle, 0, 1e5) }},
	{"fuel_lost_*", quantity.Litre, false, func(r *jobCells, c cell) { c.only(&r.FuelLostL, &r.lost, 0, mostFuel) }},
	{"note", quantity.Number, false, func(r *jobCells, c cell) { r.Note = c.note() }},
})

var blankJob = jobCells{Job: Job{
	Odometer: unknown, Cost: unknown, Hours: unknown, IdleMin: unknown, FuelLostL: unknown}}

// UnmarshalCSVWithFields reads one cell; gocsv calls it with the column's code.
func (r *jobRow) UnmarshalCSVWithFields(code, text string) error {
	if r.jobCells == nil {
		r.jobCells = spareJobs.Get().(*jobCells)
		*r.jobCells = blankJob
	}
	workSchema.read(r.jobCells, &r.row, code, text)
	return nil
}

func (r *jobRow) done() { spareJobs.Put(r.jobCells) }

func (r *jobRow) room(b *Book, rows int) { b.Jobs = slices.Grow(b.Jobs, rows) }

// take ends the row's reading. A job keeps an id of its own whatever is in the cell, so that every job can be asked for.
func (r *jobCells) take(b *Book, place Place, p *pass) {
	j := &r.Job
	j.Place = place
	if r.readings.text != "" {
		c := r.readings
		c.row = &r.row
		j.Readings = c.parseReadings(p.odometer)
		r.misspelt(c, j.Readings)
	}
	if j.Date.IsZero() {
		if !r.unplaced {
			r.lacks("date", isError, "want a date, got an empty cell: write one such as 2024-02-11")
		}
		return
	}
	if j.Kind == "" && !slices.ContainsFunc(r.problems, func(q Problem) bool { return q.Column == "kind" }) {
		r.lacks("kind", isDoubt, "want "+listed(kindWords)+", got an empty cell: the job is taken for a change")
	}
	j.What, j.Note = p.own(j.What), p.own(j.Note)
	r.identify(b, p)
	b.Jobs = append(b.Jobs, *j)
}

// untilMended goes before the id that a job has for the time being.
const untilMended = ": until you change it, ask for this job as "

// identify gives the job an id that no job before it has. A row that says again what one with its id says is no job of its own.
func (r *jobCells) identify(b *Book, p *pass) {
	j, given := &r.Job, r.ID
	stem := p.own(given)
	if stem == "" {
		stem = "work"
	}
	j.ID = stem
	for p.ids[j.ID] > 0 || given == "" && j.ID == "work" {
		j.ID = fmt.Sprintf("%s-%d", stem, j.Line)
		stem += "-"
	}
	first := p.ids[given]
	p.ids[j.ID] = j.Line
	switch {
	case given == "":
		r.doubt("id", badValue, "want a short id, got an empty cell"+untilMended+quote(j.ID), j.ID)
	case j.ID == given:
	case b.repeats(j, given, first):
		r.problems = append(r.problems, Problem{Column: "id", Kind: duplicate, Severity: isDoubt,
			Message: fmt.Sprintf("the same job as in line %d, written twice; drop one of the two", first)})
	default:
		r.doubt("id", duplicate, fmt.Sprintf("want an id that no other job has, got %s, which line %d has%s%s",
			quote(given), first, untilMended, quote(j.ID)), j.ID)
	}
}

// repeats tells whether the job in a line says all that j does.
func (b *Book) repeats(j *Job, id string, line int) bool {
	at, found := slices.BinarySearchFunc(b.Jobs, line, func(k Job, line int) int { return k.Line - line })
	if !found {
		return false
	}
	text := func(j Job) string {
		j.ID, j.Place = id, Place{}
		return fmt.Sprintf("%v", j) // unknown figures are not equal, but they are written alike
	}
	return text(b.Jobs[at]) == text(*j)
}

// areas reads words split by a slash.
func (c cell) areas() []string {
	var areas []string
	for part := range strings.SplitSeq(c.text, "/") {
		part = strings.TrimSpace(part)
		if w, ok := oneOf(part, areaWords); ok {
			areas = append(areas, w)
		} else if part != "" {
			c.fault(unknownWord, fmt.Sprintf("want areas such as ignition or fuel/intake, got %s: it is one of %s",
				quote(part), listed(areaWords)), c.swapped(part, nearest(part, areaWords)))
		}
	}
	return areas
}

// swapped is the cell with one part written rightly; empty when that is not known.
func (c cell) swapped(part, right string) string {
	if right == "" {
		return ""
	}
	return strings.Replace(c.text, part, right, 1)
}

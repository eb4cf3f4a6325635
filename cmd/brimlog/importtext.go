package main

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"brimlog/ingest/book"
	"brimlog/ingest/book/foreign"
	"brimlog/stats"
)

// tellImport says what was taken. It is on the disk by now: nothing that goes wrong here is a failure.
func (a *app) tellImport(r *foreign.Report, dry bool) error {
	a.landed = !dry && r.Rows > 0
	if a.json {
		b, err := book.Read(a.folder())
		if err != nil {
			b = &book.Book{}
		}
		_ = a.document(importDocument{stats.Head{Book: b.Vehicle.Name, AsOf: b.Last().String(), Notes: notesOn(r)}, dry, r})
		return nil
	}
	s := a.sheet(book.Show{})
	s.answer("%s", taken(r, dry))
	s.point("%s, split by %s, headings in line %d", r.Encoding, separatorWords[r.Separator], r.Headings)
	s.point("decimal %s: %s", r.Decimal, r.DecimalBy)
	if r.DatesBy == foreign.NoDateOpen {
		s.point("dates: each can be read in one way only")
	} else {
		s.point("dates %s: %s", r.Dates, r.DatesBy)
	}
	for _, n := range notesOn(r) {
		s.point("%s", n)
	}
	if !dry {
		if r.Rows > 0 {
			s.point("brimlog check looks for slips in them; brimlog undo takes them back")
		}
		return nil
	}
	s.columnsRead(r)
	s.firstRows(r)
	return nil
}

var separatorWords = map[string]string{"comma": "commas", "semicolon": "semicolons", "tab": "tabs", "bar": "bars"}

// taken is the answer in one sentence.
func taken(r *foreign.Report, dry bool) string {
	already := ""
	if r.Already > 0 {
		already = fmt.Sprintf("; %s there already", counted(r.Already, "row is"))
		if r.Already > 1 {
			already = fmt.Sprintf("; %d rows are there already", r.Already)
		}
	}
	switch {
	case dry:
		return fmt.Sprintf("%s: %s would go into %s%s. Nothing is written.", r.Sheet, counted(r.Rows, "row"), r.File, already)
	case r.Rows == 0:
		return fmt.Sprintf("%s: nothing new for %s%s.", r.Sheet, r.File, already)
	}
	return fmt.Sprintf("%s: %s taken into %s, from line %d on%s.", r.Sheet, counted(r.Rows, "row"), r.File, *r.Line, already)
}

// notesOn is what the owner should know of the lines and headings that were not taken.
func notesOn(r *foreign.Report) []string {
	notes := []string{}
	for _, passed := range []struct {
		lines []int
		what  string
	}{{r.Totals, "totals passed over"}, {r.Notes, "notes between the rows passed over"}, {r.Twice, "rows that say again what another one says passed over"}} {
		if len(passed.lines) > 0 {
			notes = append(notes, fmt.Sprintf("%s: %s", passed.what, lineList(passed.lines)))
		}
	}
	for _, p := range r.Passed {
		notes = append(notes, fmt.Sprintf("%q is not taken: %s", p.Heading, p.Why))
	}
	return notes
}

// lineList writes lines of the sheet, as many as fit.
func lineList(lines []int) string {
	const most = 8
	var parts []string
	for _, n := range lines[:min(most, len(lines))] {
		parts = append(parts, strconv.Itoa(n))
	}
	if len(lines) > most {
		parts = append(parts, "…")
	}
	if len(lines) == 1 {
		return "line " + parts[0]
	}
	return "lines " + strings.Join(parts, ", ")
}

func (s *sheet) columnsRead(r *foreign.Report) {
	s.gap()
	rows := make([][]string, len(r.Columns))
	for i, c := range r.Columns {
		rows[i] = []string{c.Heading, c.Column, c.From, c.How}
	}
	s.table([]string{"heading ", "read as ", "first ", "how "}, rows)
}

// firstRows shows rows as they would stand in the logbook.
func (s *sheet) firstRows(r *foreign.Report) {
	if len(r.First) == 0 {
		return
	}
	var columns []string
	for _, c := range r.Columns {
		for _, row := range r.First {
			for name := range row {
				if stemOf(name) == stemOf(c.Column) && !slices.Contains(columns, name) {
					columns = append(columns, name)
				}
			}
		}
	}
	for _, row := range r.First { // what no column of the sheet holds as such: the cost of a price
		for name := range row {
			if !slices.Contains(columns, name) {
				columns = append(columns, name)
			}
		}
	}
	s.gap()
	heading := make([]string, len(columns))
	for i, name := range columns {
		heading[i] = name + " "
	}
	rows := make([][]string, len(r.First))
	for i, row := range r.First {
		for _, name := range columns {
			rows[i] = append(rows[i], clipped(row[name]))
		}
	}
	s.table(heading, rows)
}

// clipped keeps a cell within a table.
func clipped(text string) string {
	const most = 24
	text = strings.Join(strings.Fields(text), " ")
	if r := []rune(text); len(r) > most {
		return string(r[:most-1]) + "…"
	}
	return text
}

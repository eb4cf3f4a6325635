package main

import (
	"time"

	"brimlog/ingest/book"
	"brimlog/ingest/quantity"
	"brimlog/ingest/slip"
)

// judge holds drafted rows against the log that does not have them yet.
func judge(log, draft *book.Book, now time.Time) []book.Problem {
	var problems []book.Problem
	for _, f := range draft.Fills {
		problems = append(problems, slip.Entry(log, f, now)...)
	}
	for _, t := range draft.Trips {
		problems = append(problems, slip.Entry(log, t, now)...)
	}
	for _, j := range draft.Jobs {
		problems = append(problems, slip.Entry(log, j, now)...)
	}
	return problems
}

// stemOf is a column's name without its unit.
func stemOf(column string) string {
	stem, _ := quantity.SplitColumn(column)
	return stem
}

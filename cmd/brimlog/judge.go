package main

import (
	"time"

	"brimlog/ingest/book"
	"brimlog/ingest/quantity"
	"brimlog/ingest/slip"
)

// judge holds a drafted row against the log: what looks like a slip with it that did not without.
func judge(log, draft *book.Book, now time.Time) []book.Problem {
	was := slip.Find(log, now)
	with := *log
	with.Fills = append(log.Fills[:len(log.Fills):len(log.Fills)], draft.Fills...)
	with.Trips = append(log.Trips[:len(log.Trips):len(log.Trips)], draft.Trips...)
	with.Jobs = append(log.Jobs[:len(log.Jobs):len(log.Jobs)], draft.Jobs...)
	var fresh []book.Problem
	for _, p := range slip.Find(&with, now) {
		if !among(was, p) {
			fresh = append(fresh, p)
		}
	}
	return fresh
}

// among tells whether a problem was there before, in whatever words.
func among(problems []book.Problem, p book.Problem) bool {
	for _, q := range problems {
		if q.File == p.File && q.Line == p.Line && q.Column == p.Column {
			return true
		}
	}
	return false
}

func stemOf(column string) string {
	stem, _ := quantity.SplitColumn(column)
	return stem
}

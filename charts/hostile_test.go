package charts

import (
	"strings"

	"brimlog/ingest/book"
	"brimlog/stats"
)

// nasty are texts that have broken pages before.
var nasty = []string{
	`<script>alarm('script')</script>`,
	`"><img src=x onerror=alarm('image')>`,
	`'; alarm('quote'); '`,
	`</script><script>alarm('closed')</script>`,
	`<!-- <svg onload=alarm('svg')>`,
	"`${alarm('template')}`",
	`{{.}} {b} {a}`,
	"\u202eright to left שלום مرحبا",
	strings.Repeat("Donaudampfschifffahrt", 14),
	"bell\a nul\x00 half a rune \xe2\x82 line\u2028break",
	`javascript:alarm('link')`,
	`&lt;b&gt; &amp; ]]>`,
	"__f__function(){alarm('marker')}__f__",
	"$ink", "month",
}

// hostile is the Heron's log with nasty text in every field that an owner can write.
func hostile() *stats.Review {
	r := heron()
	n := 0
	next := func() string { n++; return nasty[n%len(nasty)] }
	r.Book = nasty[0] + nasty[7]
	r.AsOf, r.Show.Currency = next(), nasty[1]
	for i := range nasty {
		r.Notes = append(r.Notes, nasty[i])
		suggestion := nasty[i]
		r.Problems = append(r.Problems, book.Problem{Place: book.Place{File: next(), Line: i}, Column: next(), Kind: next(), Severity: next(),
			Message: nasty[i], Suggestion: &suggestion})
	}
	for i := range r.Tanks {
		r.Tanks[i].Note = next()
	}
	r.Tanks[3].FromDate, r.Tanks[5].ToDate = nasty[0], nasty[2]
	for i := range r.Jobs {
		j := &r.Jobs[i]
		j.ID, j.What, j.Area, j.TogetherWith, j.Notes = next(), next(), next(), nasty, nasty
		if j.Kind != "measure" {
			j.Kind = next()
		}
	}
	for i, s := range nasty {
		r.Expect.Readings = append(r.Expect.Readings, stats.Held{Name: s, Text: next(), Job: next()})
		r.Expect.Notes, r.Expect.Caution = append(r.Expect.Notes, nasty[i]), append(r.Expect.Caution, nasty[i])
	}
	r.Expect.Since.Job, r.Expect.Since.FromDate = next(), next()
	for i := range r.Watch.Shifts {
		r.Watch.Shifts[i].Jobs = nasty
	}
	r.Watch.Shifts = append(r.Watch.Shifts, stats.Shift{FromDate: next(), ToDate: next(), ChangePct: 5, LowPct: 2, HighPct: 9, OddsChanged: 40, Jobs: nasty, SinceTank: 9})
	r.Watch.Tanks[13].Reading, r.Watch.Tanks[14].ToDate = &nasty[0], nasty[1]
	odd := nasty[0]
	r.Jobs[0].Verdict, r.Jobs[1].Driveability.Verdict, r.Jobs[4].Date = &odd, &odd, odd
	r.Jobs[1].Path[2].Verdict, r.Jobs[1].Path[3].ToDate = odd, odd
	return r
}

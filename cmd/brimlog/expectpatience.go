package main

import (
	"fmt"
	"io"
	"strings"
	"time"
	"unicode/utf8"

	"brimlog/stats"
)

// patientReview is a review that may take a while; it tells somebody at a terminal when that is more than a second.
func (a *app) patientReview(o stats.Options) (r *stats.Review, err error) {
	if !onTerminal(a.err) {
		return a.review(o)
	}
	patiently(a.err, time.Second, func() { r, err = a.review(o) })
	return r, err
}

const underWay = "reading the log and running the engine through its cycles …"

// patiently does some work, and tells of it while it lasts longer than that.
func patiently(w io.Writer, long time.Duration, work func()) {
	told := make(chan bool)
	late := time.AfterFunc(long, func() { fmt.Fprint(w, underWay); close(told) })
	work()
	if !late.Stop() {
		<-told
		fmt.Fprintf(w, "\r%s\r", strings.Repeat(" ", utf8.RuneCountInString(underWay)))
	}
}

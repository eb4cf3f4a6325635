package slip

import (
	"fmt"
	"math"
	"slices"

	"brimlog/ingest/book"
	"brimlog/ingest/quantity"
)

// jobs finds the slips among the jobs: an odometer out of line with the date.
func (l *log) jobs() {
	for _, j := range l.book.Jobs {
		if j.Date.After(l.now) {
			l.future(j.Place, j.Date, j.Odometer)
			continue
		}
		if _, replaced := j.Reading("odometer_reset_to"); replaced || !l.astray(j.Date, j.Odometer) {
			continue
		}
		p := post{j.Place, "odometer", j.Date, j.Odometer, quantity.Unknown}
		best := l.meantBy(p)
		if dates := l.otherDates(j.Date, j.Odometer); len(dates) > 0 && (len(best) == 0 || dates[0].gain > best[0].gain) {
			best = dates
		}
		column, kind := "odometer", odometer
		if low, _ := l.between(j.Date); l.unrolled(int(dayOf(j.Date)), j.Odometer) < low {
			kind = backwards
		}
		message := l.againstJob(j)
		var cell *string
		if len(best) > 0 {
			column, kind = best[0].column, best[0].kind
		}
		if m := standing(best); m != nil {
			cell = &m.cell
			message += "; " + m.cell + " fits"
		}
		l.problem(j.Place, column, kind, isDoubt, cell, message)
	}
}

func (l *log) againstJob(j book.Job) string {
	u := l.odometerUnit()
	low, high := l.between(j.Date)
	offset := l.unrolled(int(dayOf(j.Date)), j.Odometer) - j.Odometer
	span := ""
	switch {
	case math.IsInf(low, 0):
		span = "at most " + quantity.Format(high-offset, u)
	case math.IsInf(high, 0):
		span = "at least " + quantity.Format(low-offset, u)
	default:
		span = "between " + quantity.FormatNumber(low-offset, u) + " and " + quantity.Format(high-offset, u)
	}
	return fmt.Sprintf("the odometer reads %s; by the fills around that day it is %s", quantity.Format(j.Odometer, u), span)
}

// future reports a date that has not come yet, with the one that was meant where the readings tell.
func (l *log) future(p book.Place, m book.Moment, shown ...float64) {
	shown = slices.DeleteFunc(shown, func(x float64) bool { return !quantity.Known(x) })
	message := fmt.Sprintf("%s has not come yet", m)
	var cell *string
	if len(shown) > 0 {
		if meant := standing(l.otherDates(m, shown...)); meant != nil {
			cell = &meant.cell
			message += "; " + meant.cell + " is in order"
		}
	}
	l.problem(p, "date", dateFuture, isDoubt, cell, message)
}

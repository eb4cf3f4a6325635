package foreign

import (
	"math"

	"brimlog/ingest/book"
	"brimlog/ingest/quantity"
)

// weighClock holds the sheet's odometer against the log's: it never stood lower on a later day.
func (p *plan) weighClock(log *book.Book, worse func(verdict, string, ...any)) {
	const near, tenth = 400, 0.1 // days; of the readings may be slips
	c := p.find(odometerColumn)
	for _, name := range []string{"odometer_start", "odometer_end"} {
		if c == nil {
			c = p.find(name)
		}
	}
	if c == nil || !c.assumed {
		return
	}
	against, held := 0, 0
	for _, r := range p.sample {
		d, ok := takeDay(p.find(dateColumn).cell(r.cells))
		km := p.value(c, r.cells, p.decimal)
		if !ok || !quantity.Known(km) {
			continue
		}
		when, err := book.ParseMoment(d.readings(p.options.Now)[p.order])
		if err != nil {
			continue
		}
		low, high := standing(log, when, near)
		if math.IsInf(low, 0) && math.IsInf(high, 0) {
			continue
		}
		held++
		if km < low-1 || km > high+1 {
			against++
		}
	}
	if held >= 2 && float64(against) > tenth*float64(held) && against >= 2 {
		worse(impossible, "the odometer would not go on from the log's: %d of %d readings lie on the wrong side of it", against, held)
	}
}

// standing are the readings, in km, that the log leaves for a day: no less than on earlier days, no more than on later ones, as far as
// it has some that are not too long ago.
func standing(log *book.Book, when book.Moment, days int) (low, high float64) {
	low, high = math.Inf(-1), math.Inf(1)
	day := dayOf(when)
	for _, f := range log.Fills {
		switch d := dayOf(f.Date); {
		case !quantity.Known(f.Odometer):
		case d < day && d > day-int32(days):
			low = max(low, f.Odometer)
		case d > day && d < day+int32(days):
			high = min(high, f.Odometer)
		}
	}
	return low, high
}

package slip

import (
	"slices"
	"time"

	"brimlog/ingest/book"
	"brimlog/ingest/quantity"
)

// A visit is a fill as far as it is judged: a working copy, which the slips found so far have been mended in.
type visit struct {
	row    int // in book.Fills
	date   book.Moment
	day    float64 // days since 1970
	shown  float64 // km
	offset float64 // shown + offset grows through roll-overs and new instruments
	litres float64
	cost   float64
	price  float64 // ln of what a litre usually costs around then; unknown where costs are not noted
	lean   float64 // ln of what roads and cold make the tank use against the log's usual
	full   bool
	short  bool // meant to be full, and a story says that it was not
	missed bool
	pinned [2]int  // the last pin before its day, the first after
	single float64 // what counts for it by itself: see byItself
	told   uint8   // the columns of slips found on it, a bit for each
}

func (v *visit) count() float64 { return v.shown + v.offset }

// visitsOf puts the fills in the order in which they happened, by their dates.
func visitsOf(fills []book.Fill) []visit {
	visits := make([]visit, len(fills))
	for i, f := range fills {
		visits[i] = visit{row: i, date: f.Date, day: dayOf(f.Date), shown: f.Odometer, litres: f.Litres, cost: f.Cost,
			price: quantity.Unknown, full: f.Full, missed: f.Missed}
	}
	sortVisits(visits)
	return visits
}

func sortVisits(visits []visit) {
	slices.SortStableFunc(visits, func(a, b visit) int { return earlier(a.date, b.date, a.count(), b.count()) })
}

// earlier sorts by date, then, on a day that one of the two gives without a time, by odometer.
func earlier(a, b book.Moment, countA, countB float64) int {
	if sameDay(a, b) && (!a.Timed || !b.Timed) {
		switch {
		case countA < countB:
			return -1
		case countA > countB:
			return 1
		}
		return 0
	}
	return a.Compare(b.Time)
}

func sameDay(a, b book.Moment) bool { return a.Year() == b.Year() && a.YearDay() == b.YearDay() }

// dayOf is the moment in days; one without a time is taken for noon.
func dayOf(m book.Moment) float64 {
	t := m.Time
	if !m.Timed {
		t = t.Add(12 * time.Hour)
	}
	return float64(t.Unix()) / 86400
}

package slip

import (
	"slices"

	"brimlog/ingest/book"
	"brimlog/ingest/quantity"
)

// A holding is what the tank holds by the vehicle's document from a job on, or from the beginning where there is none.
type holding struct {
	job    string
	from   book.Moment
	litres float64 // unknown where the document does not say
}

// holdings are in the order of their dates. A job whose row is not there, or that left the tank as it was, makes none.
func holdings(b *book.Book) []holding {
	all := []holding{{litres: declared(b.Vehicle)}}
	jobs := slices.Clone(b.Jobs)
	slices.SortStableFunc(jobs, func(a, b book.Job) int { return a.Date.Compare(b.Date.Time) })
	done := map[string]bool{}
	for _, j := range jobs {
		done[j.ID] = true
		now := declared(b.Vehicle.After(func(id string) bool { return done[id] }))
		if was := all[len(all)-1].litres; quantity.Known(now) && now != was {
			all = append(all, holding{j.ID, j.Date, now})
		}
	}
	return all
}

func declared(v book.Vehicle) float64 {
	if c := v.Tank.CapacityL; quantity.Known(c) && c > 0 {
		return c
	}
	return quantity.Unknown
}

// holdingAt is the holding of a day. On the day of the job itself a fill may have come before or after it: then the larger tank counts.
func (l *log) holdingAt(m book.Moment) holding {
	at := l.held[0]
	for _, h := range l.held[1:] {
		switch {
		case sameDay(h.from, m):
			if !(at.litres > h.litres) {
				at = h
			}
		case h.from.Before(m.Time):
			at = h
		}
	}
	return at
}

// room is what goes into the tank on a day, and whether the document says so.
func (l *log) room(m book.Moment) (litres float64, told bool) {
	if c := l.holdingAt(m).litres; quantity.Known(c) {
		return c, true
	}
	return l.usual.capacity, false
}

// overfull tells whether a fill is more than the tank is said to hold, and a twentieth.
func (l *log) overfull(litres float64, m book.Moment) bool {
	c, told := l.room(m)
	return told && litres > 1.05*c
}

// farOverfull tells whether it is more than twice that.
func (l *log) farOverfull(litres float64, m book.Moment) bool {
	c, told := l.room(m)
	return told && litres > 2*c
}

// beyondTanks tells whether a fill is more than the tanks of ordinary vehicles hold, where nothing is known of this one's: no capacity,
// and too few fills.
func (l *log) beyondTanks(litres float64, m book.Moment) bool {
	const largest = 170 // litres: a four by four with a second tank, common practice
	_, told := l.room(m)
	return litres > largest && !told && len(l.visits) <= fewFills
}

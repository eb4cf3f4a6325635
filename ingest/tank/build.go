package tank

import (
	"math"
	"slices"
	"sort"
	"time"

	"brimlog/ingest/book"
	"brimlog/ingest/quantity"
)

// Build turns a logbook into tanks, with jobs and drives in their places. The tanks point to the book's own fills, which must stay as
// they are.
func Build(b *book.Book) *Log {
	l := &Log{Vehicle: b.Vehicle}
	order := inOrder(rollsOverAt(b.Vehicle.Odometer))
	fills := sorted(b.Fills, func(x, y *book.Fill) int { return order(x.Date, y.Date, x.Odometer, y.Odometer) })
	jobs := sorted(b.Jobs, func(x, y *book.Job) int { return order(x.Date, y.Date, x.Odometer, y.Odometer) })
	trips := sorted(b.Trips, func(x, y *book.Trip) int { return order(x.Date, y.Date, x.Start, y.Start) })

	r, km, cut := layRoad(b.Vehicle, fills, jobs)
	l.brimToBrim(fills, km, cut)
	l.placeJobs(r, jobs)
	l.placeTrips(r, trips)
	l.mixBlends(fills, km)
	return l
}

// sorted gives rows in order: themselves where they are so already, as in most files, else a copy.
func sorted[R any](rows []R, order func(x, y *R) int) []R {
	behind := 1
	for behind < len(rows) && order(&rows[behind-1], &rows[behind]) <= 0 {
		behind++
	}
	if behind >= len(rows) {
		return rows
	}
	at, out := make([]*R, len(rows)), make([]R, len(rows))
	for i := range rows {
		at[i] = &rows[i]
	}
	slices.SortStableFunc(at, order) // rows are wide: each is moved once
	for i, r := range at {
		out[i] = *r
	}
	return out
}

// brimToBrim cuts the sorted fills into tanks.
func (l *Log) brimToBrim(fills []book.Fill, km []float64, cut []bool) {
	open, closed := -1, -1 // the brim fills that opened this tank and closed the last one
	var t Tank
	l.Tanks = make([]Tank, 0, len(fills))
	for i := range fills {
		f := &fills[i]
		if f.Missed || cut[i] {
			open = -1
		}
		t.Litres += f.Litres
		t.Cost += f.Cost
		if l.Open.Fills++; !f.Full {
			t.Partials++
			l.Open.Litres = t.Litres
			continue
		}
		l.Open.Full++
		if !quantity.Known(km[i]) {
			// The brim is known but not the place: the fuel counts, the tank goes on.
			t.Partials++
			continue
		}
		if open >= 0 && quantity.Known(t.Litres) && t.Litres > 0 && km[i] > km[open] {
			t.Number = len(l.Tanks) + 1
			t.Opens, t.Closes = &fills[open], f
			t.From, t.To, t.Km = km[open], km[i], km[i]-km[open]
			t.Chained = open == closed
			t.ReadingKm = readingKm(l.Vehicle.Odometer.Unit)
			t.Conditions = Conditions{&noDrives, pumpNote(f), f.Date.Sub(fills[open].Date.Time).Hours() / 24}
			l.Tanks = append(l.Tanks, t)
			closed = i
		}
		t, open = Tank{}, i
		l.Open.Fills, l.Open.Litres = 0, 0
	}
}

// readingKm is the standard uncertainty of a distance between two readings of a whole-figure instrument:
// each is rectangular over one figure (GUM, JCGM 100:2008, 4.3.7).
func readingKm(unit string) float64 {
	figure, _ := quantity.UnitNamed(unit)
	return figure.ToBase(1) * math.Sqrt(2.0/12)
}

// placeJobs puts the jobs on the road and into their tanks.
func (l *Log) placeJobs(r *road, jobs []book.Job) {
	for i, j := range jobs {
		p := Job{Job: j, At: r.at(j.Date, j.Odometer), Idle: j.IdleMin, Spilt: j.FuelLostL}
		if !quantity.Known(p.At) || r.adrift[i] {
			p.At, p.Edge = l.onDay(r, j.Date)
		}
		if p.Tank = l.tankAfter(p); p.Tank < len(l.Tanks) && !j.Measure() {
			l.share(p, len(l.Jobs))
		}
		l.Jobs = append(l.Jobs, p)
	}
}

// onDay places a job that has no reading: at the fill of its day, on an edge, else as if driven evenly.
func (l *Log) onDay(r *road, date book.Moment) (at float64, edge bool) {
	if !date.Timed {
		first := sort.Search(len(l.Tanks), func(i int) bool { return !endOf(l.Tanks[i].Closes.Date).Before(date.Time) })
		for _, t := range l.Tanks[first:min(len(l.Tanks), first+2)] {
			if sameDay(date, t.Opens.Date) {
				return t.From, true
			}
			if sameDay(date, t.Closes.Date) {
				return t.To, true
			}
		}
		date.Time = date.Add(12 * time.Hour)
	}
	return r.on(date), false
}

// tankAfter is the index of the tank in which the job fell, or of the first one after it.
func (l *Log) tankAfter(j Job) int {
	return sort.Search(len(l.Tanks), func(i int) bool {
		if quantity.Known(j.At) {
			return l.Tanks[i].To > j.At
		}
		return l.Tanks[i].Closes.Date.After(endOf(j.Date))
	})
}

func (l *Log) share(j Job, index int) {
	t := &l.Tanks[j.Tank]
	after := 1.0
	if quantity.Known(j.At) && j.At > t.From {
		after = (t.To - j.At) / t.Km
	}
	t.Work = append(t.Work, Share{Job: index, After: after})
}

// placeTrips lays the trips on the road and counts each into the tanks that it overlaps.
func (l *Log) placeTrips(r *road, trips []book.Trip) {
	l.Trips = slices.Grow(l.Trips, len(trips))
	for _, t := range trips {
		d := Drive{Trip: t, From: r.at(t.Date, t.Start), To: r.at(t.Date, t.End), Tank: -1, Began: -1}
		switch {
		case quantity.Known(d.From) && !quantity.Known(d.To):
			d.To = d.From + t.Km*r.factor(d.From)
		case quantity.Known(d.To) && !quantity.Known(d.From):
			d.From = d.To - t.Km*r.factor(d.To)
		}
		if quantity.Known(d.From) && quantity.Known(d.To) {
			l.overlap(&d)
		} else if quantity.Known(t.Km) {
			l.byDate(&d, r)
		}
		l.Trips = append(l.Trips, d)
	}
	for _, d := range l.Trips {
		if d.Tank >= 0 && quantity.Known(d.AirC) {
			l.Air = append(l.Air, Air{d.Date, d.AirC, d.Began})
		}
	}
	slices.SortStableFunc(l.Air, func(a, b Air) int { return a.Tank - b.Tank })
}

// overlap counts a drive with a place on the road into the tanks by the ranges they share.
func (l *Log) overlap(d *Drive) {
	whole := d.To - d.From
	first := sort.Search(len(l.Tanks), func(i int) bool { return l.Tanks[i].To > d.From })
	for i := first; i < len(l.Tanks) && l.Tanks[i].From < d.To; i++ {
		t := &l.Tanks[i]
		if km := min(d.To, t.To) - max(d.From, t.From); km > 0 {
			t.Conditions.add(d.Trip, km, whole)
			if d.Tank = i; d.Began < 0 {
				d.Began = i
			}
		}
	}
}

// byDate counts a drive without a reading into the tank of its date, as far as that has room for it.
func (l *Log) byDate(d *Drive, r *road) {
	i := sort.Search(len(l.Tanks), func(i int) bool { return !endOf(l.Tanks[i].Closes.Date).Before(d.Date.Time) })
	if i == len(l.Tanks) || endOf(d.Date).Before(l.Tanks[i].Opens.Date.Time) {
		return
	}
	t := &l.Tanks[i]
	whole := d.Km * r.factor(t.To) // as the same instrument has it
	km := min(whole, t.Km-t.Conditions.Noted)
	t.Conditions.add(d.Trip, km, whole)
	d.Tank, d.Began = i, i
}

func sameDay(a, b book.Moment) bool {
	const day = 24 * time.Hour // a logbook's clock has no zone
	return a.Truncate(day).Equal(b.Truncate(day))
}

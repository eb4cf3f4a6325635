package book

import "sort"

// Until is the logbook as if it ended at asOf, which itself still counts: the whole day when asOf has no time, and rows
// without a time on that day in any case. Problems of later rows go with them; b stays as it is.
func (b *Book) Until(asOf Moment) *Book {
	cut := *b
	cut.Fills, cut.Trips, cut.Jobs, cut.Problems = nil, nil, nil, nil
	later := map[string]*lines{FillsFile: {}, TripsFile: {}, WorkFile: {}}
	for _, f := range b.Fills {
		if later[FillsFile].note(f.Line, f.Date.NotAfter(asOf)) {
			cut.Fills = append(cut.Fills, f)
		}
	}
	for _, t := range b.Trips {
		if later[TripsFile].note(t.Line, t.Date.NotAfter(asOf)) {
			cut.Trips = append(cut.Trips, t)
		}
	}
	for _, j := range b.Jobs {
		if later[WorkFile].note(j.Line, j.Date.NotAfter(asOf)) {
			cut.Jobs = append(cut.Jobs, j)
		}
	}
	for _, p := range b.Problems {
		if l, ok := later[p.File]; !ok || l.within(p.Line) {
			cut.Problems = append(cut.Problems, p)
		}
	}
	return &cut
}

// Last is the date of the logbook's last row, by date; zero when there is none.
func (b *Book) Last() Moment {
	var last Moment
	later := func(m Moment) {
		if m.After(last.Time) || m.Equal(last.Time) && !m.Timed {
			last = m
		}
	}
	for _, f := range b.Fills {
		later(f.Date)
	}
	for _, t := range b.Trips {
		later(t.Date)
	}
	for _, j := range b.Jobs {
		later(j.Date)
	}
	return last
}

// lines knows of a file's lines, in order, whether they lie within a cut.
type lines struct {
	at []int
	in []bool
}

func (l *lines) note(line int, in bool) bool {
	l.at, l.in = append(l.at, line), append(l.in, in)
	return in
}

// within tells it for any line. A row that was left out, and has no date, goes with the row before it.
func (l *lines) within(line int) bool {
	i := sort.SearchInts(l.at, line+1) - 1
	return i < 0 || l.in[i]
}

package slip

import (
	"math"
	"slices"
	"sort"
	"time"

	"brimlog/ingest/book"
)

// A dating is a date that may have been meant.
type dating struct {
	date  book.Moment
	prior float64
}

// datings are the dates that one slip turns into the one written.
func datings(m book.Moment) (all []dating) {
	year, month, day := m.Date()
	add := func(year int, month time.Month, day int, p float64) {
		t := time.Date(year, month, day, m.Hour(), m.Minute(), m.Second(), 0, time.UTC)
		if t.Day() != day || t.Month() != month || t.Year() != year || t.Equal(m.Time) {
			return
		}
		all = append(all, dating{book.Moment{Time: t, Timed: m.Timed}, math.Log(p)})
	}
	if day <= 12 {
		add(year, time.Month(day), int(month), daySwapped)
	}
	for _, by := range []int{-1, 1} {
		add(year+by, month, day, wrongYear)
		add(year, month+time.Month(by), day, wrongMonth)
		add(year+10*by, month, day, wrongYear/4)
	}
	for _, by := range []int{-2, 2} {
		add(year+by, month, day, wrongYear/4)
	}
	add(year-year%100+year%10*10+year/10%10, month, day, wrongYear/2) // 2042 for 2024
	for d := 1; d <= 31; d++ {
		if oneDigit(d, day) {
			add(year, month, d, wrongDateMark/10)
		}
	}
	for d := time.Month(1); d <= 12; d++ {
		if oneDigit(int(d), int(month)) && d != month+1 && d != month-1 {
			add(year, d, day, wrongDateMark/10)
		}
	}
	return all
}

// oneDigit tells whether two numbers below 100 differ in one digit, or by its change of place.
func oneDigit(a, b int) bool {
	return a != b && (a/10 == b/10 || a%10 == b%10 || a/10 == b%10 && a%10 == b/10)
}

// dateStories weighs other dates for the k-th visit, where its own is out of line.
func (l *log) dateStories(k int) (all []story) {
	v := l.visits[k]
	future := v.date.After(l.now)
	if !future && !l.goesBack(k) && !l.strayed(k) {
		return nil
	}
	kind := dateOrder
	if future {
		kind = dateFuture
	}
	for _, d := range datings(v.date) {
		if d.date.After(l.now) {
			continue
		}
		m := v
		m.date, m.day = d.date, dayOf(d.date)
		s := story{column: "date", kind: kind, cell: d.date.String(), prior: d.prior, mend: m}
		s.gain, s.reach = l.moved(k, m)
		if s.gain += s.prior; s.gain > farBehind {
			all = append(all, s)
		}
	}
	return all
}

// strayed tells whether the days before or after a visit do not go with its distance.
func (l *log) strayed(k int) bool {
	for _, i := range []int{k, k + 1} {
		if i < 1 || i >= len(l.visits) {
			continue
		}
		a, b := &l.visits[i-1], &l.visits[i]
		if d := b.count() - a.count(); abs(math.Log(max(0.3, b.day-a.day)/max(d, 1))-l.usual.pace) > 3.5*l.usual.paceTail.sd {
			return true
		}
	}
	return false
}

// moved is what is gained by taking the k-th visit out and putting m in where its date belongs.
func (l *log) moved(k int, m visit) (gain float64, around [2]int) {
	rest := func(i int) int { // the index without k
		if i > k {
			return i - 1
		}
		return i
	}
	at := sort.Search(len(l.visits), func(i int) bool { return earlier(l.visits[i].date, m.date, l.visits[i].count(), m.count()) > 0 })
	at = rest(at) // it goes before that one, counted without k
	if at > 0 {
		m.offset = l.visits[l.whole(at-1, k)].offset
	}
	l.pinVisit(&m)
	from, to := l.window(k)
	near := l.whole(min(at, len(l.visits)-2), k)
	from2, to2 := l.window(near)
	around = [2]int{from2, to2}
	if near < k && to2 > from || near > k && from2 < to || near == k {
		from, to = min(from, from2), max(to, to2)
		from2, to2 = 0, 0
	}
	gain = l.change(from, to, k, func(w []visit) []visit {
		w = slices.Delete(w, k-from, k-from+1)
		if to2 > 0 {
			return w
		}
		return slices.Insert(w, at-from, m)
	})
	if to2 > 0 {
		gain += l.change(from2, to2, -1, func(w []visit) []visit {
			start := rest(from2)
			return slices.Insert(w, at-start, m)
		})
	}
	return gain, around
}

// whole is the index with k, of one without.
func (l *log) whole(i, k int) int {
	if i >= k {
		return i + 1
	}
	return i
}

// change is what is gained by changing a run of visits.
func (l *log) change(from, to, _ int, mend func([]visit) []visit) float64 {
	w := append(make([]visit, 0, to-from+1), l.visits[from:to]...)
	ref := l.level(from, to-1)
	was := l.score(w, &ref)
	return l.score(mend(w), &ref) - was
}

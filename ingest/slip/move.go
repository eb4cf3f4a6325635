package slip

import (
	"math"
	"slices"
	"sort"
)

// dateStories weighs other dates for the k-th visit, where its own is out of line.
func (l *log) dateStories(k int) (all []story) {
	const weeks = 25 // days: where the order of readings does not tell, only a large change can be meant
	v := l.visits[k]
	future := v.date.After(l.now)
	inOrder := !future && !l.goesBack(k)
	if inOrder && !l.strayed(k) || len(l.visits) < 2 {
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
		if m.date, m.day = d.date, dayOf(d.date); inOrder && abs(m.day-v.day) < weeks {
			continue
		}
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

// moved is what is gained by taking the k-th visit out and putting m in where its date belongs, and the visits around there.
func (l *log) moved(k int, m visit) (gain float64, around [2]int) {
	with := func(i int) int { // the index of one that has the index i without the k-th
		if i >= k {
			return i + 1
		}
		return i
	}
	at := sort.Search(len(l.visits), func(i int) bool { return earlier(l.visits[i].date, m.date, l.visits[i].count(), m.count()) > 0 })
	if at > k {
		at-- // from here on counted without the k-th
	}
	if at > 0 {
		m.offset = l.visits[with(at-1)].offset
	}
	l.pinVisit(&m)
	m.single = l.byItself(&m)
	here, there := [2]int{}, [2]int{}
	here[0], here[1] = l.window(k)
	beside := with(min(at, len(l.visits)-2))
	there[0], there[1] = l.window(beside)
	takeOut := func(w []visit, from int) []visit { return slices.Delete(w, k-from, k-from+1) }
	if here[0] < there[1] && there[0] < here[1] { // the two overlap
		from, to := min(here[0], there[0]), max(here[1], there[1])
		return l.change(from, to, func(w []visit) []visit { return slices.Insert(takeOut(w, from), at-from, m) }), there
	}
	gain = l.change(here[0], here[1], func(w []visit) []visit { return takeOut(w, here[0]) })
	first := there[0]
	if first > k {
		first--
	}
	return gain + l.change(there[0], there[1], func(w []visit) []visit { return slices.Insert(w, at-first, m) }), there
}

// change is what is gained by changing a run of visits.
func (l *log) change(from, to int, mend func([]visit) []visit) float64 {
	w := append(make([]visit, 0, to-from+1), l.visits[from:to]...)
	ref := l.level(from, to-1)
	was := l.score(w, &ref)
	return l.score(mend(w), &ref) - was
}

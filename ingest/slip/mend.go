package slip

import (
	"cmp"
	"math"
	"slices"

	"brimlog/ingest/quantity"
)

// mend finds the slips of the fills: the surest first, then the log is looked at again.
func (l *log) mend() {
	const rounds = 12
	found := map[int]finding{} // by row
	look := l.suspicious(nil)
	for range rounds {
		for _, k := range look {
			found[l.visits[k].row] = l.judge(k)
		}
		taken := l.take(found)
		if len(taken) == 0 {
			break
		}
		look = l.suspicious(taken)
	}
}

// suspicious are the visits worth judging: all, or those near the rows given. Most tanks are ordinary, and no story is told of
// an ordinary one.
func (l *log) suspicious(near map[int]bool) (all []int) {
	odd := make([]bool, len(l.visits))
	mark := func(i int) {
		if i >= 0 && i < len(odd) {
			odd[i] = true
		}
	}
	for i := range l.tanks {
		m, n := l.beside(i)
		if z := abs(l.tanks[i].y-m) / l.usual.scatter; z > 1.8 || n < 2 {
			for k := l.tanks[i].open; k <= l.tanks[i].close; k++ {
				mark(k)
			}
		}
	}
	for i := range l.visits {
		v := &l.visits[i]
		if l.goesBack(i) || l.strayed(i) || l.pinTerm(v) < 0 || l.overfull(v.litres) || v.date.After(l.now) || l.priceTerm(v) < -2 ||
			!quantity.Known(v.litres) || v.litres < 0.2*l.usual.litres {
			mark(i - 1)
			mark(i)
			mark(i + 1)
		}
	}
	for i, o := range odd {
		if o && (near == nil || near[i]) {
			all = append(all, i)
		}
	}
	return all
}

// take believes the surest findings that do not stand in each other's way, and mends the log. It gives the visits that are to be
// judged anew; none when nothing was believed.
func (l *log) take(found map[int]finding) map[int]bool {
	var sure []finding
	for _, f := range found {
		if f.gain > l.sure && len(f.stories) > 0 {
			sure = append(sure, f)
		}
	}
	if len(sure) == 0 {
		return nil
	}
	slices.SortFunc(sure, func(a, b finding) int { return cmp.Or(cmp.Compare(b.gain, a.gain), a.at-b.at) })
	busy := make([]bool, len(l.visits))
	var accepted []finding
	for _, f := range sure {
		free := true
		each := f.reaches(len(l.visits))
		for _, r := range each {
			free = free && !slices.Contains(busy[r[0]:r[1]], true)
		}
		if !free {
			continue
		}
		for _, r := range each {
			for i := r[0]; i < r[1]; i++ {
				busy[i] = true
			}
		}
		accepted = append(accepted, f)
	}
	return l.believe(accepted, found)
}

// believe tells the findings and mends the visits.
func (l *log) believe(accepted []finding, found map[int]finding) map[int]bool {
	moved := false
	for _, f := range accepted {
		l.tell(f)
	}
	for _, f := range accepted {
		v := &l.visits[f.at]
		mended, row := v.mended+1, v.row
		*v = f.stories[0].mend
		v.mended = mended
		moved = moved || f.stories[0].column == "date"
		delete(found, row)
	}
	if moved {
		sortVisits(l.visits)
		l.unroll()
		l.pinDown()
	}
	l.tanks = l.spans()
	near := map[int]bool{}
	at := map[int]int{}
	for i := range l.visits {
		at[l.visits[i].row] = i
	}
	for _, f := range accepted {
		from, to := f.from, f.to
		if moved {
			from, to = 0, len(l.visits)
		}
		for i := max(0, from-2*reach); i < min(len(l.visits), to+2*reach); i++ {
			near[i] = true
			delete(found, l.visits[i].row)
		}
	}
	for row, f := range found { // visits may have moved
		f.at = at[row]
		f.from, f.to = l.window(f.at)
		found[row] = f
	}
	return near
}

// sortStories puts the likeliest first.
func sortStories(s []story) {
	slices.SortStableFunc(s, func(a, b story) int { return cmp.Compare(b.gain, a.gain) })
}

// near are the tanks that the k-th visit may bound.
func (l *log) near(k int) []span {
	i, _ := slices.BinarySearchFunc(l.tanks, k, func(t span, k int) int { return t.close - k })
	return l.tanks[i:min(len(l.tanks), i+2)]
}

// share is the part that the first story has among all of its column.
func (f *finding) share() float64 { return math.Exp(f.stories[0].gain - f.gain) }

// reaches are the runs of visits that a finding speaks for.
func (f *finding) reaches(n int) [][2]int {
	all := [][2]int{{max(0, f.from-reach), min(n, f.to+reach)}}
	if r := f.stories[0].reach; r[1] > 0 {
		all = append(all, [2]int{max(0, r[0]-reach), min(n, r[1]+reach)})
	}
	return all
}

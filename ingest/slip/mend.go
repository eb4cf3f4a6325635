package slip

import (
	"cmp"
	"slices"
)

// mend finds the slips of the fills: the surest first, then the log is looked at again.
func (l *log) mend() {
	const rounds = 20
	found := map[int]finding{} // by row
	look := l.suspicious(nil)
	for range rounds {
		for _, k := range look {
			found[l.visits[k].row] = l.judge(k)
		}
		near := l.take(found)
		if near == nil {
			break
		}
		look = l.suspicious(near)
	}
}

// take believes the surest findings that do not stand in each other's way, and mends the log. It gives the rows that are to be
// judged anew; none when nothing was believed.
func (l *log) take(found map[int]finding) (near map[int]bool) {
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
		for _, r := range each { // what has to wait keeps lesser ones from its place
			for i := r[0]; i < r[1]; i++ {
				busy[i] = true
			}
		}
		if free {
			accepted = append(accepted, f)
		}
	}
	return l.believe(accepted, found)
}

// believe tells the findings and mends the visits. What was found near them has to be found again.
func (l *log) believe(accepted []finding, found map[int]finding) (near map[int]bool) {
	near = map[int]bool{}
	for _, f := range accepted {
		l.tell(f)
		for _, r := range f.reaches(len(l.visits)) {
			for _, v := range l.visits[r[0]:r[1]] {
				near[v.row] = true
				delete(found, v.row)
			}
		}
	}
	moved := false
	for _, f := range accepted {
		v := &l.visits[f.at]
		told := v.told | 1<<f.column
		*v = f.stories[0].mend
		v.told = told
		if w := f.stories[0].with; w != nil {
			told := l.visits[w.at].told | 1<<f.column
			l.visits[w.at] = w.mend
			l.visits[w.at].told = told
		}
		moved = moved || f.column == dateColumn
	}
	if moved {
		sortVisits(l.visits)
		l.unroll()
		l.pinDown()
		l.singles()
		for i := range l.visits {
			if f, ok := found[l.visits[i].row]; ok {
				f.at = i
				f.from, f.to = l.window(i)
				found[l.visits[i].row] = f
			}
		}
	}
	l.tanks, l.farthest = l.spans(), 0
	return near
}

// sortStories puts the likeliest first.
func sortStories(s []story) {
	slices.SortStableFunc(s, func(a, b story) int { return cmp.Compare(b.gain, a.gain) })
}

// reaches are the runs of visits that a finding speaks for.
func (f *finding) reaches(n int) [][2]int {
	const apart = 4
	all := [][2]int{{max(0, f.from-apart), min(n, f.to+apart)}}
	if r := f.stories[0].reach; r[1] > 0 {
		all = append(all, [2]int{max(0, r[0]-apart), min(n, r[1]+apart)})
	}
	return all
}

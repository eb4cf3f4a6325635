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

// suspicious are the visits worth judging, of all or of those near: most tanks are ordinary, and no story is told of an ordinary one.
func (l *log) suspicious(near map[int]bool) (all []int) {
	l.odd = make([]oddness, len(l.visits))
	mark := func(from, to int, o oddness) {
		for i := max(0, from); i <= min(to, len(l.odd)-1); i++ {
			l.odd[i] = max(l.odd[i], o)
		}
	}
	usual := newTail(l.usual.scatter, rareTank, math.Hypot(l.usual.scatter, oddTank))
	before := 0.0
	for i, t := range l.tanks {
		m, n := l.beside(i)
		lost := usual.top - usual.ln(t.y-m)
		if n < 2 {
			lost = 2 * worthAll
		}
		for _, o := range []oddness{unusual, wild} {
			if lost > worth[o] {
				mark(t.open, t.close, o)
			}
			if lost+before > worth[o] {
				mark(t.open, t.open, o)
			}
		}
		before = lost
	}
	for i := range l.visits {
		if l.outOfLine(i) {
			mark(i-1, i+1, wild)
		}
	}
	for i, o := range l.odd {
		if o > ordinary && (near == nil || near[i]) {
			all = append(all, i)
		}
	}
	return all
}

// An oddness is how far a visit is out of the ordinary.
type oddness int8

const (
	ordinary oddness = iota
	unusual          // as far as a fill left out or a brim not reached may make it
	wild             // any slip may be behind it
)

// worth is how unlikely the tanks beside a visit have to be for stories of it to be weighed: less than the rarest of them costs.
var worth = [...]float64{unusual: 2, wild: worthAll}

const worthAll = 4.5

// outOfLine tells whether a visit is odd by itself, whatever its tanks use.
func (l *log) outOfLine(k int) bool {
	v := &l.visits[k]
	return l.goesBack(k) || l.strayed(k) || l.pinTerm(v) < 0 || l.overfull(v.litres) || v.date.After(l.now) ||
		l.priceTerm(v) < -2 || !quantity.Known(v.litres) || v.litres < 0.2*l.usual.litres
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
		for i := max(0, from-2); i < min(len(l.visits), to+2); i++ {
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

// reaches are the runs of visits that a finding speaks for.
func (f *finding) reaches(n int) [][2]int {
	all := [][2]int{{max(0, f.from-reach), min(n, f.to+reach)}}
	if r := f.stories[0].reach; r[1] > 0 {
		all = append(all, [2]int{max(0, r[0]-reach), min(n, r[1]+reach)})
	}
	return all
}

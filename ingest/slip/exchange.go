package slip

import "math"

// rowsExchanged is how often two readings are written into each other's rows: looked up on two receipts at once.
const rowsExchanged = 4e-4

// An exchange is the other row of a story of two readings in each other's rows.
type exchange struct {
	at   int // visit
	mend visit
}

// exchangeStories tell that the k-th reading and that of a fill soon after were written into each other's rows.
func (l *log) exchangeStories(k int) (all []story) {
	const ahead = 3 // rows
	for j := k + 1; j < len(l.visits) && j <= k+ahead; j++ {
		v, o := l.visits[k], l.visits[j]
		mine, others := l.sheets.cell(l.placeOf(k), "odometer", v.shown), l.sheets.cell(l.placeOf(j), "odometer", o.shown)
		if !(v.count() > o.count()+oneFigure) || mine.column != others.column {
			continue
		}
		v.shown, v.offset, o.shown, o.offset = o.shown, o.offset, v.shown, v.offset
		v.single, o.single = l.byItself(&v), l.byItself(&o)
		s := story{column: "odometer", kind: odometer, cell: others.number + others.suffix, prior: math.Log(rowsExchanged), mend: v, with: &exchange{j, o}}
		s.reach[0], _ = l.window(k)
		_, s.reach[1] = l.window(j)
		s.gain = s.prior + l.change(s.reach[0], s.reach[1], func(w []visit) []visit {
			w[k-s.reach[0]], w[j-s.reach[0]] = v, o
			return w
		})
		if s.gain > farBehind {
			all = append(all, s)
		}
	}
	return all
}

// tellExchange reports both rows of an exchange: each gets the other's reading. Where one is just being typed, it alone can be mended, and
// so neither is named: that reading would stand there twice.
func (l *log) tellExchange(at int, s *story) {
	c := l.sheets.cell(l.placeOf(at), "odometer", l.visits[at].shown)
	back := c.number + c.suffix
	tell := func(at, other int, fits, there string) {
		suggestion := &fits
		if l.sure == probably {
			suggestion = nil
		}
		l.report(l.visits[at].row, "odometer", odometer, isError, suggestion, "%s; exchanged with the reading in line %d it fits: %s here, %s there",
			l.outOfOrder(at), l.placeOf(other).Line, fits, there)
	}
	tell(at, s.with.at, s.cell, back)
	tell(s.with.at, at, back, s.cell)
}

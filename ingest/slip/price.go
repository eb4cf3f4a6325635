package slip

import (
	"math"
	"sort"
)

// fewPrices are too few to tell what is usual.
const fewPrices = 3

// prices sets what a litre usually costs around each visit: the median of the fills nearest to it with the same label. Where nobody
// wrote a label, those of any will do when there are too few without.
func (l *log) prices() {
	byFuel := map[string][]int{}
	var paid []int
	for i := range l.visits {
		v := &l.visits[i]
		if v.cost > 0 && v.litres > 0 {
			label := l.book.Fills[v.row].Fuel
			byFuel[label] = append(byFuel[label], i)
			paid = append(paid, i)
		}
	}
	var away []float64
	for label, fills := range byFuel {
		for n, i := range fills {
			near := l.pricesBeside(fills, n)
			if len(near) < fewPrices && label == "" {
				near = l.pricesBeside(paid, sort.SearchInts(paid, i))
			}
			if v := &l.visits[i]; len(near) >= fewPrices {
				v.price = medianOf(near)
				away = append(away, v.lnPrice()-v.price)
			}
		}
	}
	if _, sd := middle(away); len(away) > 0 {
		l.usual.price = newTail(clamp(blendSd(sd, 0.06, len(away)), 0.02, 0.15), 0.1, 0.2)
	}
}

// pricesBeside are those of the fills around the n-th of some.
func (l *log) pricesBeside(fills []int, n int) (near []float64) {
	for k := max(0, n-reach); k < min(len(fills), n+reach+1); k++ {
		if k != n {
			near = append(near, l.visits[fills[k]].lnPrice())
		}
	}
	return near
}

func (v *visit) lnPrice() float64 { return math.Log(v.cost / v.litres) }

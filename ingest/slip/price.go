package slip

import "math"

// prices sets what a litre usually costs around each visit: the median of the fills nearest to it, its own label's where
// there are enough of them.
func (l *log) prices() {
	byFuel := map[string][]int{}
	for i := range l.visits {
		v := &l.visits[i]
		if v.cost > 0 && v.litres > 0 {
			label := l.book.Fills[v.row].Fuel
			byFuel[label] = append(byFuel[label], i)
		}
	}
	var away []float64
	for _, fills := range byFuel {
		for n, i := range fills {
			v := &l.visits[i]
			var near []float64
			for k := max(0, n-reach); k < min(len(fills), n+reach+1); k++ {
				if k != n {
					near = append(near, l.visits[fills[k]].lnPrice())
				}
			}
			if len(near) >= 3 {
				v.price = medianOf(near)
				away = append(away, v.lnPrice()-v.price)
			}
		}
	}
	if _, sd := middle(away); len(away) > 0 {
		l.usual.price = newTail(clamp(blendSd(sd, 0.06, len(away)), 0.02, 0.15), 0.1, 0.2)
	}
}

func (v *visit) lnPrice() float64 { return math.Log(v.cost / v.litres) }

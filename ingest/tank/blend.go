package tank

import (
	"cmp"
	"slices"

	"brimlog/ingest/book"
	"brimlog/ingest/quantity"
)

const usualCapacityL = 55 // where vehicle.toml does not say; only how slowly one blend replaces another depends on it

// A mix is amounts of fuel labels, in the order of the labels: each sum is the same each time, to the last bit. It is a slice
// because most logs hold one label all along, and a map would cost each fill far more.
type mix []portion

type portion struct {
	label  string
	amount float64
}

// mixBlends follows what is in the tank through all fills, so that each tank knows what it burnt: mostly what
// was bought at the fill that opened it.
func (l *Log) mixBlends(fills []book.Fill, km []float64) {
	var holds, burnt mix                    // shares, and km driven on each
	pure := map[string]map[string]float64{} // of one label alone, which most logs burn all along
	left, next := 0.0, 0
	lastKm, changes := quantity.Unknown, len(l.Vehicle.From) > 0
	for i := range fills {
		if next == len(l.Tanks) {
			return
		}
		f, t := &fills[i], &l.Tanks[next]
		if holds != nil && quantity.Known(km[i]) && quantity.Known(lastKm) {
			for _, p := range holds {
				burnt = burnt.add(p.label, p.amount*(km[i]-lastKm))
			}
			left = max(0, left-(km[i]-lastKm)*t.Litres/t.Km)
		}
		if f.Line == t.Closes.Line {
			t.Blend = burnt.shares(f.Fuel, pure)
			next++
		}
		if f.Full {
			burnt = burnt[:0]
			capacity := l.Vehicle.Tank.CapacityL
			if changes {
				capacity = l.VehicleAt(next).Tank.CapacityL
			}
			left = max(0, quantity.Or(capacity, usualCapacityL)-quantity.Or(f.Litres, 0))
		}
		holds = holds.pour(left, f.Fuel, f.Litres)
		left += quantity.Or(f.Litres, 0)
		lastKm = quantity.Or(km[i], lastKm)
	}
}

// add adds to the amount of a label.
func (m mix) add(label string, amount float64) mix {
	i, there := slices.BinarySearchFunc(m, label, func(p portion, label string) int { return cmp.Compare(p.label, label) })
	if !there {
		m = slices.Insert(m, i, portion{label, 0})
	}
	m[i].amount += amount
	return m
}

// pour adds litres of a label to what is left of the mix, in shares.
func (m mix) pour(left float64, label string, litres float64) mix {
	if !quantity.Known(litres) || litres <= 0 {
		return m
	}
	if m == nil {
		return mix{{label, 1}}
	}
	if len(m) == 1 && m[0].label == label {
		return m
	}
	for i := range m {
		m[i].amount = m[i].amount * left / (left + litres)
	}
	return m.add(label, litres/(left+litres))
}

// shares are what each label is of the whole; all of it otherwise where nothing is known.
func (m mix) shares(otherwise string, pure map[string]map[string]float64) map[string]float64 {
	sum := 0.0
	for _, p := range m {
		sum += p.amount
	}
	if sum > 0 && len(m) > 1 {
		out := make(map[string]float64, len(m))
		for _, p := range m {
			out[p.label] = p.amount / sum
		}
		return out
	}
	if sum > 0 {
		otherwise = m[0].label
	}
	if pure[otherwise] == nil {
		pure[otherwise] = map[string]float64{otherwise: 1}
	}
	return pure[otherwise]
}

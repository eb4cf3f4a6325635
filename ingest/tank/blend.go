package tank

import (
	"maps"
	"slices"

	"brimlog/ingest/book"
	"brimlog/ingest/quantity"
)

const usualCapacityL = 55 // where vehicle.toml does not say; only how slowly one blend replaces another depends on it

// mixBlends follows what is in the tank through all fills, so that each tank knows what it burnt: mostly what
// was bought at the fill that opened it.
func (l *Log) mixBlends(fills []book.Fill, km []float64) {
	var mix map[string]float64
	burnt := map[string]float64{}
	pure := map[string]map[string]float64{} // of one label alone, which most logs burn all along
	left, next := 0.0, 0
	lastKm, changes := quantity.Unknown, len(l.Vehicle.From) > 0
	for i, f := range fills {
		if next == len(l.Tanks) {
			return
		}
		t := &l.Tanks[next]
		if mix != nil && quantity.Known(km[i]) && quantity.Known(lastKm) {
			for label, share := range mix {
				burnt[label] += share * (km[i] - lastKm)
			}
			left = max(0, left-(km[i]-lastKm)*t.Litres/t.Km)
		}
		if f.Line == t.Closes.Line {
			t.Blend = normalised(burnt, f.Fuel, pure)
			next++
		}
		if f.Full {
			clear(burnt)
			capacity := l.Vehicle.Tank.CapacityL
			if changes {
				capacity = l.VehicleAt(next).Tank.CapacityL
			}
			left = max(0, quantity.Or(capacity, usualCapacityL)-quantity.Or(f.Litres, 0))
		}
		mix = blend(mix, left, f.Fuel, f.Litres)
		left += quantity.Or(f.Litres, 0)
		lastKm = quantity.Or(km[i], lastKm)
	}
}

// blend adds litres of a label to what is left of a mix.
func blend(mix map[string]float64, left float64, label string, litres float64) map[string]float64 {
	if !quantity.Known(litres) || litres <= 0 {
		return mix
	}
	if mix == nil {
		return map[string]float64{label: 1}
	}
	if _, same := mix[label]; same && len(mix) == 1 {
		return mix
	}
	out := map[string]float64{}
	for l, share := range mix {
		out[l] = share * left / (left + litres)
	}
	out[label] += litres / (left + litres)
	return out
}

func normalised(burnt map[string]float64, otherwise string, pure map[string]map[string]float64) map[string]float64 {
	labels := slices.Sorted(maps.Keys(burnt)) // the same sum each time, to the last bit
	sum := 0.0
	for _, label := range labels {
		sum += burnt[label]
	}
	if sum > 0 && len(labels) > 1 {
		out := make(map[string]float64, len(labels))
		for label, km := range burnt {
			out[label] = km / sum
		}
		return out
	}
	if sum > 0 {
		otherwise = labels[0]
	}
	if pure[otherwise] == nil {
		pure[otherwise] = map[string]float64{otherwise: 1}
	}
	return pure[otherwise]
}

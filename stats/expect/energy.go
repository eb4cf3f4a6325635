package expect

import "brimlog/ingest/quantity"

// ethanolMJ is ethanol's energy, MJ/L, lower heating value, as the usual tables of fuels have it; it blends with petrol by volume.
const ethanolMJ = 21.2

// ethanol is the share of it that the known labels stand for. Fuel that nobody labelled is taken for E5.
var ethanol = map[string]float64{"E0": 0, "E5": 0.05, "": 0.05, "E10": 0.10, "E85": 0.85}

// EnergyOf is the energy of a fuel by its label, MJ/L, where own has what the owner says of labels; Unknown for a label
// that nobody knows.
func EnergyOf(label string, own map[string]float64) float64 {
	if mj, told := own[label]; told {
		return mj
	}
	if share, known := ethanol[label]; known {
		return petrolMJ + share*(ethanolMJ-petrolMJ)
	}
	return quantity.Unknown
}

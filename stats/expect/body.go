package expect

// Drag areas in m2 by shape (from memory; middles of the usual spans, +-15 %).
var shapeArea = map[string]float64{
	"small": 0.675, "saloon": 0.82, "estate": 0.90, "coupe": 0.575, "roadster": 0.75,
	"van": 1.45, "camper": 1.60, "boxy_4x4": 1.45, "pickup": 1.40,
}

// shapeMass is how heavy a vehicle of that shape is against a saloon with the same engine (common practice).
var shapeMass = map[string]float64{
	"small": 0.90, "saloon": 1, "estate": 1.05, "coupe": 0.95, "roadster": 0.85,
	"van": 1.25, "camper": 1.5, "boxy_4x4": 1.4, "pickup": 1.2,
}

// rolling is the coefficient of rolling resistance by tyre: middles of the usual spans.
var rolling = map[string]float64{"crossply": 0.019, "radial": 0.0135, "modern": 0.0095, "all_terrain": 0.0205}

// usualRolling is that of the tyres that a vehicle of unknown tyres wears.
func usualRolling(shape string) float64 {
	if shape == "boxy_4x4" {
		return 0.016
	}
	return rolling["radial"]
}

// usualArea is the drag area of a car of that mass and unknown shape: 0.78 m2 at 1,250 kg.
func usualArea(mass float64) float64 { return 0.78 * pow(mass/1250, 0.35) }

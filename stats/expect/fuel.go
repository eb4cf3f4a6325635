package expect

import (
	"math"

	"brimlog/ingest/quantity"
	"brimlog/stats/engine"
)

const (
	gravity       = 9.81
	ownEfficiency = 0.40 // of the engine's work proper, beyond what it takes to turn (Ross and An, SAE 930329)
	usualGamma    = 1.3
	ratioPower    = 0.55 // what a change of compression ratio keeps of the ideal cycle's gain (the cycle model)
)

// Fuel power is k N V + P / eta (Ross and An, SAE 930329; the form of EPA's PERE and of CMEM): a part for turning the
// engine over, which grows a tenth for each 1000 rev/min from 2000, and a part for the work.

// work is what a metre asks for at the wheels, J.
func (f figures) work(d demand, mass, area float64) float64 {
	return 0.5*airDensity(f.airC, f.altitudeM)*area*d.a + mass*gravity*f.rolling*d.r + mass*d.k
}

// turnings is the energy for turning the engine over a metre, J.
func (f figures) turnings(d demand) float64 {
	top := 60 / f.gearing * d.gears * f.slip // turns a metre
	thousands := d.gears * d.kmh / f.gearing
	moving := top * (1 + 0.1*(thousands-2))
	return f.turning * 1000 * f.litres * (moving + d.standing*f.idleRPM/60)
}

// efficiencyAt is that of the work proper at a compression ratio: the ideal cycle's, in part.
func efficiencyAt(ratio float64) float64 {
	return ownEfficiency * math.Pow(ideal(ratio)/idealUsual, ratioPower)
}

func ideal(ratio float64) float64 { return 1 - math.Pow(ratio, 1-usualGamma) }

var idealUsual = ideal(usualRatio)

// litresPer100 is what a kind of road takes, cold starts and trailer included.
func (f figures) litresPer100(kind engine.Driving, r Roads) float64 {
	d := demands[kind].at(f.faster * r.faster(kind))
	mass := f.mass + quantity.Or(r.LoadKg, 0)
	free := f.warm(d, mass, f.area)
	if tow := quantity.Or(r.TowKg, 0); tow > 0 {
		share := quantity.Or(r.TowShare, 1)
		free += share * (f.warm(d, mass+tow, f.area+f.towArea*trailerArea(tow)) - free)
	}
	starts := quantity.Or(f.startsPerKm, 1/d.kmPerStart) * f.startsFactor
	return free * (1 + coldShare(starts, f.airC, f.choke))
}

// warm is the same without cold starts.
func (f figures) warm(d demand, mass, area float64) float64 {
	joules := f.work(d, mass, area)/(f.driveline*f.efficiency) + f.turnings(d)
	rich := 1 + f.rich*max(0, f.altitudeM)/1000
	return joules / (petrolMJ * 1e6) * 1e5 * f.thirst * f.extra * rich * coldFactor(f.airC)
}

// trailerArea is the drag area that a trailer adds, m2: 1.4 a tonne, set so that a box of 1,600 kg costs about
// what ORNL measured (43 % in town to 100 % at 129 km/h; in town this comes out a quarter low).
func trailerArea(kg float64) float64 { return 1.4 * kg / 1000 }

// What an easy and a brisk pace cost, as logarithms (fueleconomy.gov: hard driving 10 to 40 %; judged, and the same as the
// model of the log has).
const (
	easyPace  = -0.05
	briskPace = 0.10
)

// pace is what the owner's pace costs against the usual one.
func (r Roads) pace() float64 {
	return math.Exp(easyPace*quantity.Or(r.Easy, 0) + briskPace*quantity.Or(r.Brisk, 0))
}

// faster is the owner's cruising speed against the usual one.
func (r Roads) faster(kind engine.Driving) float64 {
	if !demands[kind].steady || !(r.CruiseKmh[kind] > 0) {
		return 1
	}
	return r.CruiseKmh[kind] / demands[kind].kmh
}

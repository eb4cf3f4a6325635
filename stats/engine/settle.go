package engine

import "math"

// A Cycle is one steady cycle of one cylinder.
type Cycle struct {
	RPM, ManifoldKPa float64
	Lambda           float64
	SparkDeg         float64 // before top centre
	HalfBurntDeg     float64 // after top centre
	IMEP, BMEP       float64 // bar; over both turns, so pumping is in
	FuelKg           float64 // drawn in, a cycle
	Filling          float64 // volumetric efficiency against outside air
	BurntLeft        float64 // share of burnt gas in the charge at the spark
	PeakBar          float64
	Balance          Balance
}

// A Balance is what the accounts of one cycle fail to explain, in percent: of the mass that went in, and of the heat
// that the burn set free (of what the cylinder holds, where an engine that hardly breathes takes in less than that).
// Both are 0 for a perfect solver and a perfectly steady cycle.
type Balance struct {
	MassPct   float64 `json:"mass_pct"`
	EnergyPct float64 `json:"energy_pct"`
}

const (
	outside  = 101325.0 // Pa
	outsideT = 293.15
	steady   = 1e-4 // share by which what is in the cylinder may still move from cycle to cycle
)

// burnSteady is by how much the burnt share that the spark was aimed with may differ from the one that it met.
const burnSteady = 1e-4

func alike(x, y float64) bool { return math.Abs(x-y) < steady*y }

// begin readies a run with a guess of what the cylinder holds.
func (c *cylinder) begin(op operating) *run {
	const temp = 400.0
	r := &run{cylinder: c, operating: op, exhaustT: 900, residual: 0.15}
	mass := op.manifold * c.vol[0] / (rGas * temp)
	r.state = state{mass, temp, mass * 0.85}
	return r
}

// settle runs cycles until they repeat, from whatever the run last held.
func (r *run) settle(op operating) Cycle {
	r.operating = op
	r.perSecond = 6 * op.rpm
	fuel := fuelShare(op.lambda)
	r.heatPerKg = fuel * heatingValue * burntShare(op.lambda)
	var sum rates
	var was state
	for range 40 {
		r.aim()
		was = r.state
		aimed := r.residual
		sum = r.cycle()
		if alike(r.mass, was.mass) && alike(r.temp, was.temp) && alike(r.fresh, was.fresh) && math.Abs(r.residual-aimed) < burnSteady {
			break
		}
	}
	imep := sum.work / r.swept / 1e5
	out := Cycle{
		RPM: op.rpm, ManifoldKPa: op.manifold / 1000, Lambda: op.lambda,
		SparkDeg: -r.burn.spark, HalfBurntDeg: r.burn.half(),
		IMEP: imep, BMEP: imep - friction(op.rpm),
		FuelKg:    sum.intake * fuel,
		Filling:   sum.intake * (1 - fuel) * rGas * outsideT / (outside * r.swept),
		BurntLeft: r.residual, PeakBar: r.peak / 1e5,
	}
	held := r.mass * r.gas.energy(r.temp)
	stored := held - was.mass*r.gas.energy(was.temp)
	out.Balance.MassPct = 100 * (sum.intake - sum.exhaust - sum.leak) / max(sum.intake, r.mass)
	out.Balance.EnergyPct = 100 * (sum.heat + sum.carriedIn - sum.walls - sum.work - stored) / max(sum.heat, held)
	return out
}

// aim sets the burn from what the last cycle left behind.
func (r *run) aim() {
	r.burn.duration = burnDuration(r.rpm, r.residual, r.lambda)
	r.burn.spark = r.spark
	if math.IsNaN(r.spark) {
		r.burn.spark = r.centre - wiebeHalf*r.burn.duration
	}
}

package engine

// Vacuum of the manifold is told in inches of mercury, as the gauges are marked.
const kPaPerInHg = 3.38639

func vacuum(manifoldPa float64) float64 { return max(0, (outside-manifoldPa)/1000/kPaPerInHg) }

// between is how far x has gone from a to b, 0 to 1.
func between(x, a, b float64) float64 { return min(max((x-a)/(b-a), 0), 1) }

// A distributor's vacuum capsule moves its plate from 4 to 12 inHg, by 7 degrees, which are 14 at the crank (common
// practice: 10 to 24). Its pipe ends above the throttle, so at idle it feels nothing.
const capsule = 14.0

func vacuumAdvance(manifoldPa float64) float64 {
	return capsule * between(vacuum(manifoldPa), 4, 12)
}

// powerLambda is the mixture that full load is fed (common practice: strongest pull lies at 0.87 to 0.92).
const powerLambda = 0.88

// enrichment is the factor on lambda of the circuit for full load: a carburettor's opens between 9 and 6 inHg of
// vacuum (common practice), an injection's only near the open throttle.
func (e Engine) enrichment(manifoldPa float64) float64 {
	from, to := 9.0, 6.0
	if e.Injection {
		from, to = 4.0, 1.5
	}
	return 1 + (powerLambda/e.cruiseLambda()-1)*between(vacuum(manifoldPa), from, to)
}

// idleSpark is a static setting of the ignition, degrees before top centre (common practice: 6 to 12).
const idleSpark = 10.0

// bestHalf is where half is burnt at best torque; full load is set a little later, clear of knock.
func bestHalf(manifoldPa float64) float64 {
	return 9 + 3*between(manifoldPa, 75e3, 100e3)
}

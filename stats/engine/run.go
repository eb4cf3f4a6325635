package engine

// An operating is what the cylinder is given for one run. Pressures in Pa.
type operating struct {
	rpm            float64
	manifold, pipe float64 // before the intake valve, after the exhaust valve
	lambda         float64
	spark          float64 // degrees after top centre (so mostly negative); NaN sets it by centre
	centre         float64 // where half is to be burnt, when spark is NaN
	motored        bool    // no burn: the starter turns it
}

// A state is what the cylinder holds: mass (kg), temperature (K) and how much of the mass has not burnt.
type state struct{ mass, temp, fresh float64 }

// A port is the charge that was pushed back into the intake port; it is drawn in first.
type port struct{ mass, temp, freshShare float64 }

// rates are changes per degree: the state's, and what the accounts of mass, energy and work take down.
type rates struct {
	mass, temp, fresh            float64
	intake, exhaust, leak        float64 // kg, towards the cylinder, and out
	heat, walls, work, carriedIn float64 // J; carriedIn is enthalpy in less enthalpy out
}

func (r rates) plus(s rates, w float64) rates {
	return rates{
		r.mass + w*s.mass, r.temp + w*s.temp, r.fresh + w*s.fresh,
		r.intake + w*s.intake, r.exhaust + w*s.exhaust, r.leak + w*s.leak,
		r.heat + w*s.heat, r.walls + w*s.walls, r.work + w*s.work, r.carriedIn + w*s.carriedIn,
	}
}

func (s state) after(r rates, degrees float64) state {
	return state{s.mass + r.mass*degrees, s.temp + r.temp*degrees, s.fresh + r.fresh*degrees}
}

// A run is one cycle under way.
type run struct {
	*cylinder
	operating
	state
	port      port
	burn      wiebe
	burning   float64 // kg of fresh charge at the spark
	heatPerKg float64 // of fresh charge
	perSecond float64 // degrees
	film      float64 // heat coefficient, held over a step
	inletT    float64 // of what the intake valve would let in now
	inletF    float64 // its fresh share
	inletPort float64 // the part of it that waits in the port
	drawn     float64 // kg through the intake valve in the last step
	exhaustT  float64 // of what the exhaust port would push back
	residual  float64 // burnt share at the spark
	peak      float64 // Pa
}

// take books what a step moved through the intake valve: charge that is pushed back waits in the port, and share is
// the part of what went in that had waited there.
func (p *port) take(kg, share float64, s state) {
	if kg >= 0 {
		p.mass = max(0, p.mass-share*kg)
		return
	}
	all := p.mass - kg
	p.temp = (p.mass*p.temp - kg*s.temp) / all
	p.freshShare = (p.mass*p.freshShare - kg*s.fresh/s.mass) / all
	p.mass = all
}

package engine

import "math"

// portMixing is how fast the exhaust port takes on the temperature of what flows through it, a share per degree.
const portMixing = 0.1

// cycle runs the two turns once and gives the accounts.
func (r *run) cycle() rates {
	w := newWoschni(r.geometry, r.rpm)
	r.peak, r.burning = 0, 0
	if r.motored {
		r.burn = wiebe{math.Inf(1), 1}
	}
	var sum rates
	for half := 0; half+2 < len(r.vol); half += 2 {
		r.before(half, &w)
		moved := r.step(half)
		sum = sum.plus(moved, 1)
		r.drawn = moved.intake
		r.port.take(moved.intake, r.inletPort, r.state)
		if moved.exhaust > 0 {
			r.exhaustT += portMixing * (r.deg[half+2] - r.deg[half]) * (r.temp - r.exhaustT)
		}
	}
	return sum
}

// step is one step of the classical fourth-order rule of Runge and Kutta; half is where it starts.
func (r *run) step(half int) rates {
	h := r.deg[half+2] - r.deg[half]
	a := r.changes(r.state, half)
	b := r.changes(r.after(a, h/2), half+1)
	c := r.changes(r.after(b, h/2), half+1)
	d := r.changes(r.after(c, h), half+2)
	total := rates{}.plus(a, h/6).plus(b, h/3).plus(c, h/3).plus(d, h/6)
	r.state = r.after(total, 1)
	return total
}

// before readies a step: the spark, the walls' film and what stands before the intake valve.
func (r *run) before(half int, w *woschni) {
	deg := r.deg[half]
	p := r.mass * rGas * r.temp / r.vol[half]
	r.peak = max(r.peak, p)
	if deg <= r.intakeCloses {
		w.refP, w.refV, w.refT = p, r.vol[half], r.temp
	}
	if !r.motored && deg <= r.burn.spark {
		r.burning = r.fresh
		r.residual = 1 - r.fresh/r.mass
	}
	if !r.heatless {
		w.breathes = r.intake[half] > 0 && deg > 0 || r.exhaust[half] > 0
		w.compressing = deg < min(r.burn.spark, 0)
		r.film = w.coefficient(p, r.vol[half], r.temp)
	}
	r.inletPort = min(1, r.port.mass/max(r.drawn, 1e-9))
	r.inletT = manifoldK + r.inletPort*(r.port.temp-manifoldK)
	r.inletF = 1 + r.inletPort*(r.port.freshShare-1)
}

// changes are the rates at a half-step.
func (r *run) changes(s state, half int) rates {
	v := r.vol[half]
	p := s.mass * rGas * s.temp / v
	var d rates
	h := r.gas.enthalpy(s.temp)
	share := s.fresh / s.mass
	out := func(kg float64) {
		d.mass -= kg
		d.fresh -= kg * share
		d.carriedIn -= kg * h
	}
	in := func(kg, t, fresh float64) {
		d.mass += kg
		d.fresh += kg * fresh
		d.carriedIn += kg * r.gas.enthalpy(t)
	}
	if a := r.intake[half]; a > 0 {
		if p > r.manifold {
			kg := flow(a, p, s.temp, r.manifold) / r.perSecond
			out(kg)
			d.intake = -kg
		} else {
			d.intake = flow(a, r.manifold, r.inletT, p) / r.perSecond
			in(d.intake, r.inletT, r.inletF)
		}
	}
	if a := r.exhaust[half]; a > 0 {
		if p > r.pipe {
			d.exhaust = flow(a, p, s.temp, r.pipe) / r.perSecond
			out(d.exhaust)
		} else {
			d.exhaust = -flow(a, r.pipe, r.exhaustT, p) / r.perSecond
			in(-d.exhaust, r.exhaustT, 0)
		}
	}
	if r.leak > 0 && p > crankcase {
		d.leak = flow(r.leak, p, s.temp, crankcase) / r.perSecond
		out(d.leak)
	}
	if x := r.burn.rate(r.deg[half]); x > 0 {
		d.heat = r.burning * x * r.heatPerKg
		d.fresh -= r.burning * x
	}
	if !r.heatless {
		d.walls = r.film * r.walls(v) * (s.temp - wallK) / r.perSecond
	}
	d.work = p * r.dvol[half]
	// energy of what is inside changes by heat, walls, work and what is carried in; the rest is temperature
	d.temp = (d.heat - d.walls - d.work + d.carriedIn - d.mass*r.gas.energy(s.temp)) / (s.mass * r.gas.cv(s.temp))
	return d
}

// crankcase is the pressure behind the rings, Pa.
const crankcase = 101325.0

package model

import (
	"maps"
	"math"
	"slices"
	"sort"

	"brimlog/ingest/quantity"
	"brimlog/ingest/tank"
)

// A Design is a log as the filter sees it: observations, and what is believed of their coefficients.
type Design struct {
	Obs    []Obs
	Priors []Prior
}

const (
	mostIdle    = 4.0      // minutes a km: an hour in fifteen km
	startsPerKm = 1.0 / 20 // of driving that nobody noted: common practice
	pumpsKnown  = 2
	coldPerC    = 0.005 // log scale, starts included: what an unknown temperature is worth
)

var shortStarts = map[string]float64{"none": 1.0 / 50, "some": 1.0 / 20, "most": 1.0 / 8}

// NewDesign takes a log apart. Nothing in an observation rests on anything later than its own tank.
func NewDesign(l *tank.Log) *Design {
	labels, pumps := labelsOf(l), pumpsOf(l)
	d := &Design{Priors: slices.Clone(priors[:])}
	for _, label := range labels {
		d.Priors = append(d.Priors, labelPrior(label, l.Vehicle.Fuel))
	}
	for range pumps {
		d.Priors = append(d.Priors, Prior{Name: "pump's meter", Sd: MeterSd, Source: "NIST: 20,036 meters"})
	}
	c := newClimate(l.Vehicle.Place.MonthlyC)
	air, ends := 0, atEnds(l)
	for i, t := range l.Tanks {
		v := l.Vehicle
		if len(v.From) > 0 {
			v = l.VehicleAt(i)
			c.monthly = v.Place.MonthlyC
		}
		for ; air < len(l.Air) && l.Air[air].Tank <= i; air++ {
			c.note(l.Air[air])
		}
		o := observe(l, t, c, len(d.Priors))
		o.Y += richer(t.Blend, v.Fuel, l.Vehicle.Fuel)
		for k, label := range labels {
			o.X[fixedCount+k] = t.Blend[label]
		}
		if k := slices.Index(pumps, t.Closes.Station); k >= 0 {
			o.X[fixedCount+len(labels)+k] = 1
		} else if t.Closes.Station != "" {
			o.Var += MeterSd * MeterSd
		}
		if i > 0 {
			o.Gap = max(0, t.From-l.Tanks[i-1].To)
		}
		o.Healthy = vouched(l, t)
		o.Work = work(l, t)
		o.soil(ends[i])
		d.Obs = append(d.Obs, o)
	}
	d.dropUnused()
	return d
}

// observe writes down one tank.
func observe(l *tank.Log, t tank.Tank, c *climate, columns int) Obs {
	n := t.Conditions
	litres, idling, spilt := t.Litres, n.IdleMin, 0.0
	for _, s := range t.Work {
		spilt += quantity.Or(l.Jobs[s.Job].Spilt, 0)
		idling += quantity.Or(l.Jobs[s.Job].Idle, 0)
	}
	if idling > mostIdle*t.Km {
		idling = 0 // nobody stands so long: a slip of the pen
	}
	if spilt < litres/2 { // more is a slip of the pen, or was bought as well
		litres -= spilt
	}
	o := Obs{
		Y: math.Log(litres / t.Km), Km: t.Km, Chained: t.Chained,
		X: make([]float64, columns), E: make([]float64, columns),
		Var: sq(t.ReadingKm / t.Km),
	}
	mid := t.Opens.Date.Add(t.Closes.Date.Sub(t.Opens.Date.Time) / 2)
	air, airSd, below := c.on(mid)
	degrees, degreesSd := below20(air, airSd)

	share := func(km float64) float64 { return min(1, km/t.Km) }
	over := max(1, n.Noted/t.Km) // trips noted twice
	o.Clump = n.Square/sq(over*t.Km) + max(0, 1-n.Noted/t.Km)*tripKm/t.Km
	o.X[level] = 1
	blind := 1 - share(n.AirKm)
	o.X[cold] = n.Cold/over/t.Km + blind*degrees
	o.Var += sq(coldPerC * blind * degreesSd)

	roads := n.Roads / over / t.Km
	unknown := max(0, 1-roads)
	for k, column := range map[int]int{tank.Town: town, tank.OpenRoad: openRoad, tank.Motorway: motorway, tank.Track: track} {
		o.X[column] = n.Road[k] / over / t.Km
	}
	o.Unnoted = unknown
	if quantity.Known(n.TownShare) {
		// The pump's note tells the town from the rest, not the rest apart: about half of what was unknown.
		o.X[town] += unknown * n.TownShare
		o.X[openRoad] += unknown * (1 - n.TownShare) / 2
		o.X[motorway] += unknown * (1 - n.TownShare) / 4
		o.Unnoted = unknown / 2
	}
	o.X[unnoted] = o.Unnoted
	o.X[unnotedSeason] = o.Unnoted * below / 10

	paced := share(n.PaceKm)
	o.X[easy], o.X[brisk] = n.Easy/over/t.Km, n.Brisk/over/t.Km
	switch n.Pace {
	case "easy":
		o.X[easy] += 1 - paced
	case "brisk":
		o.X[brisk] += 1 - paced
	}
	o.X[cruise] = n.Cruise / over / t.Km
	o.X[load] = n.Load / over / t.Km / 100
	o.X[tow] = n.Tow / over / t.Km / 1000

	perKm := startsPerKm
	if s, ok := shortStarts[n.Short]; ok {
		perKm = s
	}
	unseen := max(0, 1-n.StartsKm/over/t.Km) * perKm
	seen := n.Starts / over / t.Km
	o.E[start] = seen + unseen
	o.E[startCold] = (n.StartsCold/over/t.Km + ((n.Starts-n.StartsAir)/over/t.Km+unseen)*degrees) / 15
	o.E[idle] = idling / over / t.Km
	o.E[parked] = n.Days / t.Km
	return o
}

// labelsOf lists the fuel labels of a log.
func labelsOf(l *tank.Log) (labels []string) {
	seen := map[string]bool{}
	for _, t := range l.Tanks {
		for label := range t.Blend {
			if !seen[label] {
				seen[label] = true
				labels = append(labels, label)
			}
		}
	}
	sort.Strings(labels)
	return labels
}

// pumpsOf lists the first few pumps of a log, in the order in which they were first used. The meters of the
// others are taken as scatter.
func pumpsOf(l *tank.Log) (pumps []string) {
	for _, t := range l.Tanks {
		if p := t.Closes.Station; p != "" && len(pumps) < pumpsKnown && !slices.Contains(pumps, p) {
			pumps = append(pumps, p)
		}
	}
	return pumps
}

// labelPrior says what a label costs against petrol without ethanol.
func labelPrior(label string, own map[string]float64) Prior {
	p := Prior{Name: "fuel " + label, Sd: unknownLabelSd, Source: "judged: a fuel nothing is known of"}
	if label == "" {
		// Fuel that nobody labelled is the same petrol all along.
		p.Mean, p.Sd, p.Source = math.Log(energy["E0"]/energy["E5"]), 0.02, "energy by volume: petrol with up to 10 % of ethanol"
	}
	if mj, known := energyOf(label, own); known {
		p.Mean, p.Sd, p.Source = math.Log(energy["E0"]/mj), labelSd, "energy by volume: petrol 32.1, ethanol 21.2 MJ/L"
	}
	return p
}

func energyOf(label string, own map[string]float64) (mj float64, known bool) {
	if mj, known = own[label]; !known {
		mj, known = energy[label]
	}
	return mj, known
}

// richer is by how much a blend's labels hold more energy than the vehicle's document first says, on the log scale: what a
// label means may change from a job on.
func richer(blend map[string]float64, now, first map[string]float64) (log float64) {
	for _, label := range slices.Sorted(maps.Keys(blend)) { // the same sum each time, to the last bit
		a, knownNow := energyOf(label, now)
		b, knownFirst := energyOf(label, first)
		if knownNow && knownFirst && a != b {
			log += blend[label] * math.Log(a/b)
		}
	}
	return log
}

// vouched tells whether the owner says that the tank was healthy.
func vouched(l *tank.Log, t tank.Tank) bool {
	from, to := l.Vehicle.Log.HealthyFrom, l.Vehicle.Log.HealthyTo
	if from.IsZero() && to.IsZero() {
		return false
	}
	return !t.Opens.Date.Before(from.Time) && (to.IsZero() || t.Closes.Date.NotAfter(to))
}

// dropUnused leaves out the coefficients that no observation has. Their prior is independent of the rest, so
// nothing moves; a shorter log and a longer one still agree.
func (d *Design) dropUnused() {
	var keep []int
	for k := range d.Priors {
		if k == level || slices.ContainsFunc(d.Obs, func(o Obs) bool { return o.X[k] != 0 || o.E[k] != 0 }) {
			keep = append(keep, k)
		}
	}
	pick := func(x []float64) []float64 {
		out := make([]float64, len(keep))
		for i, k := range keep {
			out[i] = x[k]
		}
		return out
	}
	used := make([]Prior, len(keep))
	for i, k := range keep {
		used[i] = d.Priors[k]
	}
	d.Priors = used
	for i := range d.Obs {
		d.Obs[i].X, d.Obs[i].E = pick(d.Obs[i].X), pick(d.Obs[i].E)
	}
}

// column is the index of the coefficient of that name, -1 where the log has no use for it.
func (d *Design) column(name string) int {
	return slices.IndexFunc(d.Priors, func(p Prior) bool { return p.Name == name })
}

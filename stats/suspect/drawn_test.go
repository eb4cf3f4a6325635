package suspect

import (
	"maps"
	"math"
	"math/rand/v2"
	"slices"
	"testing"
)

// draw picks an index by shares that sum to one.
func draw(rng *rand.Rand, shares []float64) int {
	x := rng.Float64()
	for i, p := range shares {
		if x -= p; x < 0 {
			return i
		}
	}
	return len(shares) - 1
}

// drawn is a vehicle as the table itself supposes them: a cause by how common it is, slight or strong, each sign that an
// owner can tell noted with one chance in two, and the fuel used known within 4 %.
func drawn(rng *rand.Rand) (string, Evidence) {
	table := Standard()
	e := Nothing()
	e.FuelSystem = carburettor
	prior := table.Prior(e)
	prior[table.rank[NotListed]] = 0 // what it shows nobody knows
	cause := draw(rng, normalise(prior))
	severity := draw(rng, severityShare[:])
	e.Seen = map[string]string{}
	for s, sign := range table.Signs {
		if sign.Ask != "" && rng.IntN(2) == 0 {
			e.Seen[sign.ID] = sign.Words[draw(rng, table.laws[cause][s].chances[severity])]
		}
	}
	if table.Causes[cause].listed() {
		p := table.laws[cause][table.fuel].peaks[severity][0]
		e.Excess = p.mean + p.sd*rng.NormFloat64()
	} else {
		e.Excess = 0.02 * rng.NormFloat64()
	}
	e.ExcessSD = 0.04
	e.Excess += e.ExcessSD * rng.NormFloat64()
	return table.Causes[cause].ID, e
}

// TestDrawnVehicles: on vehicles drawn from the table, in the table's own mix, chances must mean what they say, but for
// the sharpening that real notes call for ('telling'): a little bold, never wildly so.
func TestDrawnVehicles(t *testing.T) {
	rng := rand.New(rand.NewPCG(7, 11))
	var given, right, n [10]float64
	first, nats, plain := 0.0, 0.0, 0.0
	const vehicles = 400
	prior := chances(Rank(Nothing()))
	for range vehicles {
		cause, e := drawn(rng)
		list := weighed(Standard(), e)
		if list[cause] == slices.Max(slices.Collect(maps.Values(list))) {
			first++
		}
		for id, chance := range list {
			b := min(int(10*chance), 9)
			given[b] += chance
			n[b]++
			if id == cause {
				right[b]++
				nats += math.Log(chance)
				plain += math.Log(prior[cause])
			}
		}
	}
	t.Logf("first in %.0f %% of %d; log score %.2f a vehicle, by the priors alone %.2f", 100*first/vehicles, vehicles, nats/vehicles, plain/vehicles)
	for b := range n {
		if n[b] == 0 {
			continue
		}
		t.Logf("given %3d to %3d %%: %5.0f times, on average %4.1f %%, right %4.1f %%", 10*b, 10*b+10, n[b], 100*given[b]/n[b], 100*right[b]/n[b])
		spread := 3 * math.Sqrt(given[b]*(1-given[b]/n[b]))
		if right[b] > given[b]+spread || right[b] < 0.7*given[b]-spread {
			t.Errorf("of %.0f given about %.0f %% %.0f were right", n[b], 100*given[b]/n[b], right[b])
		}
	}
	if nats < plain+vehicles {
		t.Errorf("log score %.2f a vehicle, hardly better than the priors' %.2f", nats/vehicles, plain/vehicles)
	}
}

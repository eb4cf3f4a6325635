package watch

import (
	"math"
	"math/rand/v2"
	"testing"

	"brimlog/stats/model"
)

// tanks makes a log of a level, a driving scatter of 2.5 % and a brim of 0.5 L in tanks of 46 L.
func tanks(n int, seed uint64) *model.Design {
	const km = 400.0
	rng := rand.New(rand.NewPCG(seed, 1))
	d := &model.Design{Priors: []model.Prior{{Name: "level", Mean: math.Log(0.115), Sd: 0.3}}}
	brim := 0.0
	for i := range n {
		next := 0.5 * rng.NormFloat64()
		litres := km*0.115*math.Exp(0.025*rng.NormFloat64()) + next - brim
		d.Obs = append(d.Obs, model.Obs{Y: math.Log(litres / km), Km: km, X: []float64{1}, E: []float64{0}, Clump: 0.2, Chained: i > 0})
		brim = next
	}
	return d
}

func readingsOf(d *model.Design) []string {
	_, c := d.Ask(nil)
	var out []string
	for _, t := range Standing(d, c) {
		out = append(out, t.Reading)
	}
	return out
}

// One false flag in ten whole logs is the rule; two in ten would be a broken one.
func TestOrdinaryLogsAreLeftAlone(t *testing.T) {
	const logs = 60
	flagged := 0
	for k := range logs {
		for _, r := range readingsOf(tanks(40, uint64(k+1))) {
			if r != "" {
				flagged++
				break
			}
		}
	}
	t.Logf("%d of %d ordinary logs had a tank flagged", flagged, logs)
	if flagged > logs/5 {
		t.Errorf("%d of %d ordinary logs had a tank flagged", flagged, logs)
	}
}

// Seven litres too many at one fill are one over-fill, not a thirsty tank and a frugal one; seven too few, a short fill.
func TestOneBrimIsOneReading(t *testing.T) {
	for litres, want := range map[float64]string{7: OverFill, -7: ShortFill} {
		d := tanks(30, 3)
		for i, sign := range map[int]float64{20: 1, 21: -1} {
			o := &d.Obs[i]
			o.Y = math.Log(math.Exp(o.Y) + sign*litres/o.Km)
		}
		r := readingsOf(d)
		if r[20] != want {
			t.Errorf("%+.0f L: the tank reads %q, want %q", litres, r[20], want)
		}
		for i, other := range r {
			if i != 20 && other != "" {
				t.Errorf("%+.0f L at one brim: tank %d reads %q too", litres, i, other)
			}
		}
	}
}

func TestThirstAndSlipsAreToldApart(t *testing.T) {
	for factor, want := range map[float64]string{1.25: Thirsty, 0.82: Frugal, 2: EntrySlip, 0.5: EntrySlip} {
		d := tanks(30, 5)
		d.Obs[18].Y += math.Log(factor)
		if r := readingsOf(d); r[18] != want {
			t.Errorf("a tank at %.2f of the usual reads %q, want %q", factor, r[18], want)
		}
	}
}

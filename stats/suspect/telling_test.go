package suspect

import (
	"math"
	"testing"
)

// The values of telling that are tried.
var tellings = []float64{1, 1.5, 2, 2.25, 2.5}

// told is a case with the table's answer under each value of telling.
type told struct {
	cause   int
	chances [][]float64
}

func toldCases(t *testing.T) []told {
	var all []told
	table := *Standard()
	for _, c := range writtenCases(t) {
		one := told{cause: table.rank[c.Cause]}
		e := c.evidence(t)
		for _, table.telling = range tellings {
			w, _ := table.weigh(e)
			one.chances = append(one.chances, w.chance)
		}
		all = append(all, one)
	}
	return all
}

// fit gives the index of the value with the best log score.
func fit(cases []told) int {
	best, most := 0, math.Inf(-1)
	for k := range tellings {
		sum := 0.0
		for _, c := range cases {
			sum += math.Log(c.chances[k][c.cause])
		}
		if sum > most {
			best, most = k, sum
		}
	}
	return best
}

// scored places every answer in its band.
func scored(cases []told, k int) (s score) {
	for _, c := range cases {
		s.take(c.chances[k], c.cause)
	}
	return s
}

// join adds the answers of another score.
func (s *score) join(o score) {
	s.cases, s.first, s.three, s.nats = s.cases+o.cases, s.first+o.first, s.three+o.three, s.nats+o.nats
	for i, b := range o.bands {
		s.bands[i].given += b.given
		s.bands[i].right += b.right
		s.bands[i].chance += b.chance
	}
}

// TestTellingHoldsOnOtherCases fits the one fitted constant on half of the written cases and scores it on the other half,
// both ways, and then on cases that were written blind.
func TestTellingHoldsOnOtherCases(t *testing.T) {
	all := toldCases(t)
	var halves [2][]told
	for i, c := range all {
		halves[i%2] = append(halves[i%2], c)
	}
	var both score
	for i, half := range halves {
		k := fit(half)
		s := scored(halves[1-i], k)
		both.join(s)
		t.Logf("fitted on half %d: %.2f; on the other half:", i+1, tellings[k])
		s.report(t)
		s.want(t, 0.7, 0.9)
		s.calibrated(t)
		if math.Abs(tellings[k]-telling) > 0.3 {
			t.Errorf("half %d alone wants a telling of %.1f, the table has %.1f", i+1, tellings[k], telling)
		}
	}
	t.Log("both together:")
	both.report(t)
	both.calibrated(t)
	if share := both.bands[asked].right / both.bands[asked].given; share < 0.2 || share > 0.4 {
		t.Errorf("of those given 20 to 40 %%, %.0f %% were right on cases that had no part in the fit", 100*share)
	}
	var blind, rest []told
	for i, c := range writtenCases(t) {
		if c.file == "unseen.toml" {
			blind = append(blind, all[i])
		} else {
			rest = append(rest, all[i])
		}
	}
	k := fit(rest)
	s := scored(blind, k)
	t.Logf("the %d written blind, fitted on the others: %.2f", len(blind), tellings[k])
	s.report(t)
	s.want(t, 0.7, 0.9)
	s.calibrated(t)
}

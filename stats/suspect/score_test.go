package suspect

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"brimlog/ingest/book"
)

// A score counts places, and how often causes given such a chance were the cause.
type score struct {
	cases, first, three int
	nats                float64
	bands               [6]struct{ given, right, chance float64 }
}

// bandTops are the chances at which the bands end.
var bandTops = [6]float64{0.05, 0.2, 0.4, 0.6, 0.8, math.Inf(1)}

// asked is the band of 20 to 40 %.
const asked = 2

// take counts one answer: chances of all causes, and which it was.
func (s *score) take(chances []float64, cause int) (place int) {
	s.cases++
	s.nats += math.Log(chances[cause])
	for i, chance := range chances {
		b := &s.bands[slices.IndexFunc(bandTops[:], func(top float64) bool { return chance < top })]
		b.given++
		b.chance += chance
		if i == cause {
			b.right++
		}
		if chance > chances[cause] {
			place++
		}
	}
	if place == 0 {
		s.first++
	}
	if place < 3 {
		s.three++
	}
	return place
}

// add weighs one case and tells where its cause came out.
func (s *score) add(t *testing.T, c written, e Evidence) {
	t.Helper()
	list := Rank(e).Suspects
	i := slices.IndexFunc(list, func(s Suspect) bool { return s.Cause == c.Cause })
	if i < 0 {
		t.Fatalf("%s: cause %q is not in the table", c.file, c.Cause)
	}
	chances := make([]float64, len(list))
	for k, one := range list {
		chances[k] = one.Chance
	}
	if place := s.take(chances, i); place > 0 {
		t.Logf("%-18s place %d (%.2f) behind %s (%.2f), %s (%.2f): %s", c.Cause, place+1, list[i].Chance,
			list[0].Cause, list[0].Chance, list[1].Cause, list[1].Chance, c.Tells)
	}
}

func (s *score) report(t *testing.T) {
	t.Helper()
	n, from := float64(s.cases), 0.0
	t.Logf("%d cases: first %.0f %%, among the first three %.0f %%, log score %.3f", s.cases, 100*float64(s.first)/n, 100*float64(s.three)/n, s.nats/n)
	for i, b := range s.bands {
		if b.given > 0 {
			t.Logf("given %3.0f to %3.0f %%: %5.0f times, on average %4.1f %%, right %5.1f %%", 100*from, 100*min(bandTops[i], 1), b.given, 100*b.chance/b.given, 100*b.right/b.given)
		}
		from = bandTops[i]
	}
}

// want fails when fewer stand first, or among the first three, than the given shares.
func (s *score) want(t *testing.T, first, three float64) {
	t.Helper()
	n := float64(s.cases)
	if float64(s.first) < first*n || float64(s.three) < three*n {
		t.Errorf("first in %d, among the first three in %d of %d cases; want %.0f and %.0f %%", s.first, s.three, s.cases, 100*first, 100*three)
	}
}

// calibrated fails when of the causes given 20 to 40 % clearly fewer than 20 or more than 40 % were right: by more than
// two standard deviations of so few.
func (s *score) calibrated(t *testing.T) {
	t.Helper()
	given, right := s.bands[asked].given, s.bands[asked].right
	doubt := 2 * math.Sqrt(0.3*0.7/given)
	t.Logf("of %.0f causes given 20 to 40 %%, %.0f %% were right", given, 100*right/given)
	if share := right / given; share < 0.2-doubt || share > 0.4+doubt {
		t.Errorf("of %.0f causes given 20 to 40 %%, %.0f %% were right", given, 100*share)
	}
}

// TestCases scores the program on the written cases.
func TestCases(t *testing.T) {
	cases := writtenCases(t)
	if len(cases) < 40 {
		t.Fatalf("%d cases, want at least 40", len(cases))
	}
	var s score
	for _, c := range cases {
		s.add(t, c, c.evidence(t))
	}
	s.report(t)
	s.want(t, 0.7, 0.9)
	s.calibrated(t)
}

// TestCasesAsOwnersNote takes from every case the workshop's figures, a third of the grades, and grades a fifth of the
// rest a step wrong: what is left is what an owner has before any check is made. It cannot always be enough; it must
// still point the right way far more often than the commonest causes would.
func TestCasesAsOwnersNote(t *testing.T) {
	var s score
	rng := rand.New(rand.NewPCG(1, 2))
	for _, c := range writtenCases(t) {
		e := c.evidence(t)
		e.Readings, e.Baseline = nil, nil
		for i, g := range e.Grades {
			switch {
			case g.Typical == book.NotJudged:
			case rng.Float64() < 1.0/3:
				e.Grades[i].Typical = book.NotJudged
			case rng.Float64() < 0.2:
				e.Grades[i].Typical = min(max(g.Typical+book.Grade(2*rng.IntN(2)-1), book.None), book.Heavy)
			}
		}
		s.add(t, c, e)
	}
	s.report(t)
	s.want(t, 0.4, 0.65)
}

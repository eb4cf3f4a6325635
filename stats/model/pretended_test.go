package model

import (
	"math"
	"math/rand/v2"
	"testing"
)

// A step that is looked for where nobody worked begins nothing: without its effect the log is what it is without the question, soon
// after a repair too.
func TestPretendedWorkWithoutEffectIsNone(t *testing.T) {
	l := plan{before: 8, after: 6, unnoted: 0.5, fault: true}.draw(rand.New(rand.NewPCG(3, 1974)), true)
	asked, plain := newLanes(l.d), newLanes(l.d)
	for i := range l.d.Obs {
		o, as := l.d.Obs[i], role{fold: true}
		plain, _ = plain.step(&o, as)
		if i == l.job+1 {
			o.Work, as = &Work{After: 0.5, Scale: 1, Pretended: true}, role{}
		}
		asked, _ = asked.step(&o, as)
		if got, want := asked.logL(), plain.logL(); math.Abs(got-want) > 1e-12 {
			t.Fatalf("tank %d: log likelihood %v, without the question %v", i+1, got, want)
		}
	}
}

// What a blend's labels hold adds up to the same bits each time.
func TestRicherIsTheSameEachTime(t *testing.T) {
	blend := map[string]float64{"a": 0.17, "b": 0.23, "c": 0.29, "d": 0.31}
	now, first := map[string]float64{"a": 30.1, "b": 31.7, "c": 29.3, "d": 27.9}, map[string]float64{"a": 32.1, "b": 30.3, "c": 31.1, "d": 29.7}
	want := richer(blend, now, first)
	for range 200 {
		if got := richer(blend, now, first); got != want {
			t.Fatalf("%v, and then %v", want, got)
		}
	}
}

package model

import (
	"math"
	"math/rand/v2"
	"os"
	"runtime"
	"slices"
	"sync"
	"testing"
)

// improbable is how unlikely a count may be before it fails a test: each test asks a handful of questions.
const improbable = 1e-3

// What the odds and the posterior promise, checked on logs drawn from the model's own priors.
func TestOddsKeepTheirWord(t *testing.T) { keepWord(t, plan{before: 9, after: 12}, 1) }
func TestOddsKeepTheirWordUnnoted(t *testing.T) {
	keepWord(t, plan{before: 9, after: 12, unnoted: 0.7}, 2)
}
func TestOddsKeepTheirWordAfterAFault(t *testing.T) {
	keepWord(t, plan{before: 9, after: 12, fault: true}, 3)
}

func keepWord(t *testing.T, p plan, seed uint64) {
	logs := 16
	if os.Getenv("BRIMLOG_LONG") != "" { // with -timeout 60m
		logs = 2000
	}
	nothing, something := sample(p, logs, seed, false), sample(p, logs, seed, true)

	// Without an effect, odds ever so high in at most one log in so many: Ville 1939; Robbins 1970.
	for _, k := range []float64{2, 5, 20} {
		ever := 0
		for _, l := range nothing {
			if l.highest >= math.Log(k) {
				ever++
			}
		}
		t.Logf("odds of %2.0f, ever, in %4.1f %% of %d logs without an effect", k, 100*float64(ever)/float64(logs), logs)
		if atMost(ever, logs, 1/k) < improbable {
			t.Errorf("odds of %.0f in %d of %d logs without an effect", k, ever, logs)
		}
	}

	// With one in half of the logs, the chance that the odds give must come out on average.
	given, variance := 0.0, 0.0
	for _, l := range slices.Concat(nothing, something) {
		chance := 1 / (1 + math.Exp(-l.last))
		given += chance
		variance += chance * (1 - chance)
	}
	z := (given - float64(logs)) / math.Sqrt(variance)
	t.Logf("an effect in %.1f of %d logs by the odds, in %d truly: %.1f deviations", given, 2*logs, logs, z)
	if math.Abs(z) > 3.3 {
		t.Errorf("the odds see an effect in %.1f of %d logs, %d have one", given, 2*logs, logs)
	}

	// The truth stands anywhere in the posterior.
	var ranks []float64
	inside := 0
	for _, l := range something {
		ranks = append(ranks, l.rank)
		if l.rank > 0.05 && l.rank < 0.95 {
			inside++
		}
	}
	slices.Sort(ranks)
	u := uniform(ranks)
	t.Logf("truth inside the 90 %% interval in %.1f %%; ranks evenly spread: p = %.3f", 100*float64(inside)/float64(logs), u)
	if atMost(logs-inside, logs, 0.15) < improbable || atMost(inside, logs, 0.97) < improbable {
		t.Errorf("truth inside the 90 %% interval in %d of %d, want 85 to 97 %%", inside, logs)
	}
	if u < improbable {
		t.Errorf("ranks of the truth are not evenly spread: p = %.2g", u)
	}
}

// An outcome is what one drawn log came to.
type outcome struct {
	highest, last float64 // log odds: over all looks, and at the end
	rank          float64 // of the true effect in its posterior
}

func sample(p plan, logs int, seed uint64, changed bool) []outcome {
	out := make([]outcome, logs)
	free := make(chan struct{}, runtime.GOMAXPROCS(0))
	var all sync.WaitGroup
	for i := range out {
		free <- struct{}{}
		all.Go(func() {
			stream := uint64(i) << 1
			if changed {
				stream++
			}
			l := p.draw(rand.New(rand.NewPCG(seed, stream)), changed)
			path := l.path()
			o := outcome{highest: math.Inf(-1)}
			for _, e := range path {
				o.highest = max(o.highest, e.LogOdds)
			}
			end := path[len(path)-1]
			o.last, o.rank = end.LogOdds, end.Effect.Below(l.effect)
			out[i] = o
			<-free
		})
	}
	all.Wait()
	return out
}

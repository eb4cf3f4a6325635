// Package prove says of each job whether it changed consumption: how much, how sure, and how many more tanks
// it would take. It asks the model of package model and reads its odds; it holds no statistics of its own but
// the rules by which odds become words.
package prove

import (
	"math"

	"brimlog/ingest/tank"
	"brimlog/stats/calc"
	"brimlog/stats/model"
)

// The rules.
const (
	proved      = 20.0 // odds from which a change is said to be one
	leaning     = 3.0
	sure        = 0.9
	negligible  = 3.0 // percent
	PathTanks   = 40  // how far a job is followed
	oddsCeiling = 1e6
)

// Verdicts, in the words of the documents.
const (
	LessFuel    = "less_fuel"
	MoreFuel    = "more_fuel"
	NoChange    = "no_change"
	LeaningLess = "leaning_less"
	LeaningMore = "leaning_more"
	Undecided   = "undecided"
)

// A State is what the log says of a job after one tank.
type State struct {
	Tank              int     // index
	Change, Low, High float64 // percent: median and 90 % interval, given that it changed
	ChanceLess        float64
	Odds              float64
	Verdict           string
	Against           float64 // percent against the last healthy level; NaN when nothing had slipped before
}

// read puts the evidence into figures and words.
func read(e model.Evidence, whole bool) State {
	s := State{Tank: e.Tank, Odds: min(oddsCeiling, math.Exp(e.LogOdds)), ChanceLess: e.Effect.Below(0), Against: math.NaN()}
	within := e.Effect.Within(math.Log1p(-negligible/100), math.Log1p(negligible/100))
	s.Verdict = verdict(s.Odds, s.ChanceLess, within)
	if whole {
		s.Change, s.Low, s.High = percent(e.Effect.Quantile(0.5)), percent(e.Effect.Quantile(0.05)), percent(e.Effect.Quantile(0.95))
		if e.Faulted > 0.5 {
			s.Against = percent(e.Healthy.Quantile(0.5))
		}
	}
	return s
}

func verdict(odds, less, within float64) string {
	switch {
	case odds >= proved && less > 0.5:
		return LessFuel
	case odds >= proved:
		return MoreFuel
	case within > sure:
		return NoChange
	case odds >= leaning && less > sure:
		return LeaningLess
	case odds >= leaning && less < 1-sure:
		return LeaningMore
	}
	return Undecided
}

func percent(log float64) float64 { return 100 * math.Expm1(log) }

// A Proof is the answer for the work done within one tank.
type Proof struct {
	Tank int // index of the tank that it fell within
	Path []State
	Last model.Evidence
}

// All answers for all work of the log, in the order of tanks.
func All(l *tank.Log, d *model.Design) []Proof {
	var q []model.Question
	for i := range d.Obs {
		if d.Obs[i].Work != nil && i > 0 {
			q = append(q, model.Question{Tank: i, Tanks: PathTanks})
		}
	}
	var out []Proof
	for k, path := range d.Ask(q) {
		p := Proof{Tank: q[k].Tank}
		for _, e := range path {
			p.Path = append(p.Path, read(e, true))
			p.Last = e
		}
		out = append(out, p)
	}
	return out
}

var _ calc.Mixture

package prove

import (
	"math"

	"brimlog/stats/model"
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

// The rules by which odds become words.
const (
	Proved      = 20.0 // odds from which a change is said to be one
	leaning     = 3.0
	sure        = 0.9
	Negligible  = 3.0               // percent
	leastTanks  = 4                 // with the job's own: of an oil change no change is believed beforehand, and a verdict has to be the log's
	oddsCeiling = 1e6               // JSON carries no infinity
	logProved   = 2.995732273553991 // ln 20
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

// read puts the evidence into words and, as a whole, into figures.
func read(e model.Evidence, whole bool) State {
	s := State{Tank: e.Tank, Odds: min(oddsCeiling, math.Exp(e.LogOdds)), ChanceLess: e.Effect.Below(0), Against: math.NaN()}
	within := e.Effect.Within(math.Log1p(-Negligible/100), math.Log1p(Negligible/100))
	s.Verdict = verdict(s.Odds, s.ChanceLess, within, e.Tanks)
	if whole {
		s.Change, s.Low, s.High = percent(e.Effect.Quantile(0.5)), percent(e.Effect.Quantile(0.05)), percent(e.Effect.Quantile(0.95))
		if e.Faulted > 0.5 {
			s.Against = percent(e.Healthy.Quantile(0.5))
		}
	}
	return s
}

func verdict(odds, less, within float64, tanks int) string {
	switch {
	case odds >= Proved && less > 0.5:
		return LessFuel
	case odds >= Proved:
		return MoreFuel
	case within > sure && tanks >= leastTanks:
		return NoChange
	case odds >= leaning && less > sure:
		return LeaningLess
	case odds >= leaning && less < 1-sure:
		return LeaningMore
	}
	return Undecided
}

// Final tells whether a verdict is one, rather than a leaning or none.
func Final(v string) bool { return v == LessFuel || v == MoreFuel || v == NoChange }

func percent(log float64) float64 { return 100 * math.Expm1(log) }

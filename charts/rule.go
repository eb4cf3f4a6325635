package charts

import (
	"math"

	"brimlog/ingest/quantity"
	"brimlog/stats"
)

// A rule is the small steel rule under an answer: a range and a mark on a scale of fuel for the same driving. Less fuel lies to the right, as
// better lies up in the charts. All places are percent of its length. What it shows stands in the text beside it too.
type rule struct {
	Band      *stretchOf // what counts as healthy, or as no change worth the name
	Healthy   bool       // the band is that of a healthy vehicle
	Range     stretchOf  // what the log leaves open
	At        float64
	Mark      ruling
	Path      string // of the mark's shape
	Hollow    bool
	Less, Off string // what its ends mean: left more fuel, right less
	Middle    string
}

type stretchOf struct{ From, Long float64 }

// ruleOf lays out a change in percent with its range; nil where one of them is not known.
func ruleOf(mark int, mid, low, high float64) *rule {
	if !quantity.Known(mid) || !quantity.Known(low) || !quantity.Known(high) {
		return nil
	}
	limit := reachOf(mid, low, high)
	r := &rule{Range: spread(limit, low, high), At: along100(limit, mid), Mark: ruling{Mark: rulings[mark].mark, Tone: rulings[mark].tone},
		Path: outlines[mark], Hollow: hollowMarks[mark], Off: percent(limit, 0) + " more", Less: percent(limit, 0) + " less", Middle: "as before"}
	worth := spread(limit, -3, 3)
	r.Band = &worth
	return r
}

// jobRule, shiftRule and normalRule are those of the answers and cards.
func jobRule(j job) *rule {
	if j.Verdict == nil {
		return nil
	}
	return ruleOf(rulingOf(j), float64(j.ChangePct), float64(j.LowPct), float64(j.HighPct))
}

func shiftRule(s stats.Shift) *rule {
	return ruleOf(shiftMark(s), float64(s.ChangePct), float64(s.LowPct), float64(s.HighPct))
}

func normalRule(e *stats.Expected, mark int) *rule {
	over := func(x Figure) float64 { return 100 * (float64(x)/float64(e.Healthy.Mid) - 1) }
	low, high := over(e.Healthy.Low), over(e.Healthy.High)
	r := ruleOf(mark, float64(e.ExcessPct), over(e.Measured.Low), over(e.Measured.High))
	if r == nil || !quantity.Known(low) || !quantity.Known(high) {
		return nil
	}
	limit := reachOf(float64(e.ExcessPct), over(e.Measured.Low), over(e.Measured.High), low, high)
	band := spread(limit, low, high)
	r.Band, r.Healthy, r.Range, r.At = &band, true, spread(limit, over(e.Measured.Low), over(e.Measured.High)), along100(limit, float64(e.ExcessPct))
	r.Off, r.Less, r.Middle = percent(limit, 0)+" more", percent(limit, 0)+" less", "healthy"
	return r
}

// reachOf is where the rule ends on either side: a round number past all that it has to show, 50 at most.
func reachOf(xs ...float64) float64 {
	most := 0.0
	for _, x := range xs {
		most = max(most, math.Abs(x))
	}
	for _, end := range []float64{10, 20} {
		if most <= 0.95*end {
			return end
		}
	}
	return 50
}

// along100 is the place of a change on the rule.
func along100(limit, pct float64) float64 {
	return round(50-50*max(-limit, min(limit, pct))/limit, 1)
}

func spread(limit, low, high float64) stretchOf {
	from := along100(limit, high)
	return stretchOf{from, round(along100(limit, low)-from, 1)}
}

// outlines are the shapes of the rulings around the origin, in their order; page/paint.js draws the same ones in the charts.
var outlines = []string{
	"M0-7 7 6H-7z", "M0-7 7 6H-7z", "M-6-6H6V6H-6z", "M0-8 8 0 0 8-8 0z", "M0 7 7-6H-7z", "M0 7 7-6H-7z", "M-6 0a6 6 0 1 0 12 0a6 6 0 1 0-12 0z", "M-6 0a6 6 0 1 0 12 0a6 6 0 1 0-12 0z",
}

var hollowMarks = []bool{false, true, false, true, true, false, true, false}

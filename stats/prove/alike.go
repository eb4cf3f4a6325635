package prove

import (
	"math"
	"time"

	"brimlog/ingest/book"
	"brimlog/ingest/quantity"
	"brimlog/stats/calc"
)

// circumstances are what changes how a sound engine drives, or which symptoms can show at all: a cold morning, hot
// weather, a road fast enough to judge the pull at a cruise and at full throttle.
type circumstances struct {
	cold bool // begun cold
	air  weather
	fast bool // judged for what only an open road tells
}

// alike are the grounds on which drives are held to be alike, the strictest first.
var alike = []func(circumstances) circumstances{
	func(c circumstances) circumstances { return c },
	func(c circumstances) circumstances { c.fast = false; return c },
	func(c circumstances) circumstances { return circumstances{cold: c.cold} },
}

// enoughAlike is how many drives on either side must have their like on the other for a strict ground to be used.
const enoughAlike = 10

// A comparison is of the scores of two sides: means like for like, counts, and the exact chance of so great a difference
// without one (NaN where nothing can be exchanged).
type comparison struct {
	before, after             float64
	drivesBefore, drivesAfter int
	p                         float64
}

// compare scores the drives of both sides. Where drives that are alike were judged on both, only such drives count, each
// kind by how much its drives on both sides can tell: more cold mornings since are no change of the vehicle. The ground is chosen by how many
// drives it leaves, never by how they were graded, so the chance stays exact.
func (s sides) compare(score func(Judgement) (int, bool), grounds []func(circumstances) circumstances) comparison {
	var strata []calc.Stratum
	for i, ground := range grounds {
		strata = s.among(ground, score)
		if i == len(grounds)-1 || enough(strata) {
			break
		}
	}
	c := comparison{p: calc.Permutation(strata)}
	var before, after []int
	shared := 0.0
	for _, one := range strata {
		before, after = append(before, one.Before...), append(after, one.After...)
		if b, a := float64(len(one.Before)), float64(len(one.After)); b > 0 && a > 0 {
			n := b * a / (b + a) // so that the means differ to the side on which the exchanged sum lies
			c.before, c.after, shared = c.before+n*mean(one.Before), c.after+n*mean(one.After), shared+n
		}
	}
	c.drivesBefore, c.drivesAfter = len(before), len(after)
	if shared > 0 {
		c.before, c.after = c.before/shared, c.after/shared
	} else {
		c.before, c.after = mean(before), mean(after)
	}
	return c
}

// among sorts the scored drives into kinds, in the order in which they come.
func (s sides) among(ground func(circumstances) circumstances, score func(Judgement) (int, bool)) (strata []calc.Stratum) {
	place := map[circumstances]int{}
	sort := func(drives []Judgement, side func(*calc.Stratum) *[]int) {
		for _, d := range drives {
			x, ok := score(d)
			if !ok {
				continue
			}
			kind := ground(d.like)
			i, known := place[kind]
			if !known {
				i = len(strata)
				place[kind], strata = i, append(strata, calc.Stratum{})
			}
			scores := side(&strata[i])
			*scores = append(*scores, x)
		}
	}
	sort(s.before, func(one *calc.Stratum) *[]int { return &one.Before })
	sort(s.after, func(one *calc.Stratum) *[]int { return &one.After })
	return strata
}

func enough(strata []calc.Stratum) bool {
	before, after := 0, 0
	for _, one := range strata {
		if len(one.Before) > 0 && len(one.After) > 0 {
			before, after = before+len(one.Before), after+len(one.After)
		}
	}
	return before >= enoughAlike && after >= enoughAlike
}

func mean(scores []int) float64 {
	if len(scores) == 0 {
		return math.NaN()
	}
	sum := 0
	for _, x := range scores {
		sum += x
	}
	return float64(sum) / float64(len(scores))
}

// A weather is a band of air temperature, five degrees wide, or where that is not known a part of the year.
type weather int

// By the calendar, the two ends of the year and what lies between, which serves both halves of the world.
const (
	aroundNewYear weather = 100 + iota
	betweenTimes
	aroundMidyear
)

// Below the lowest band all is winter, and above the highest summer: only in between does an engine's drive follow each degree.
const bandC, lowestC, highestC = 5, 0, 20

func weatherOf(airC float64, monthlyC []float64, day book.Moment) weather {
	if month := int(day.Month()) - 1; !quantity.Known(airC) && len(monthlyC) == 12 {
		airC = monthlyC[month]
	}
	if quantity.Known(airC) {
		return weather(math.Floor(min(max(airC, lowestC), highestC) / bandC))
	}
	switch day.Month() {
	case time.December, time.January, time.February:
		return aroundNewYear
	case time.June, time.July, time.August:
		return aroundMidyear
	}
	return betweenTimes
}

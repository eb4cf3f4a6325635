package stats

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"brimlog/ingest/quantity"
	"brimlog/stats/suspect"
)

// What is told of a list of sixty causes: the likeliest, and the best checks. The document has all of them.
const (
	suspectsTold  = 6
	atLeastTold   = 3
	leastTold     = 0.04 // chance
	neverTold     = 0.01 // chance below which a cause is not told, though it were the second
	settledFrom   = 0.85 // chance from which mending comes before more checks
	checksTold    = 6
	standsOutFrom = 0.25 // chance
)

// Sentence is the answer, without the vehicle's name.
func (s *Suspected) Sentence() string {
	first, second := s.Suspects[0], s.Suspects[1]
	switch {
	case first.Chance < standsOutFrom && first.Cause == suspect.NothingWrong:
		return fmt.Sprintf("too little is known to accuse anything; that nothing is wrong has a chance of %s, any one fault less.", chanceOf(first.Chance))
	case first.Chance < standsOutFrom:
		return fmt.Sprintf("nothing stands out yet; %s fits best, with a chance of only %s.", first.Name, chanceOf(first.Chance))
	case first.Cause == suspect.NothingWrong:
		return fmt.Sprintf("nothing is accused: what is known fits a sound vehicle best (chance %s).", chanceOf(first.Chance))
	case first.Cause == suspect.NotListed:
		return fmt.Sprintf("nothing in the list fits well: something that is not in it is likeliest (chance %s).", chanceOf(first.Chance))
	}
	if second.Chance < neverTold {
		return fmt.Sprintf("%s fits best (chance %s), and nothing else nearly as well.", first.Name, chanceOf(first.Chance))
	}
	return fmt.Sprintf("%s fits best (chance %s), then %s (%s).", first.Name, chanceOf(first.Chance), second.Name, chanceOf(second.Chance))
}

// Settled tells whether one fault is so likely that mending it comes before more checks.
func (s *Suspected) Settled() bool {
	first := s.Suspects[0]
	return first.Chance >= settledFrom && first.Cause != suspect.NothingWrong && first.Cause != suspect.NotListed
}

func chanceOf(x float64) string {
	if x < 0.005 {
		return "under 1 %"
	}
	return fmt.Sprintf("%.0f %%", 100*x)
}

// Grounds says what the answer was taken from.
func (s *Suspected) Grounds() []string {
	all := []string{s.Began.sentence(), s.Began.weight()}
	drove := "no drive was judged since: grade in trips.csv how it drives, or answer for it"
	if s.Drives > 0 {
		drove = fmt.Sprintf("how it drove on %s", plural(s.Drives, "judged drive", "judged drives"))
	}
	if len(s.Readings) > 0 {
		var read []string
		for _, h := range s.Readings {
			read = append(read, h.Name+"="+h.Text)
		}
		drove += "; as read: " + strings.Join(read, ", ")
	}
	all = append(all, drove)
	if len(s.Evidence.Seen) > 0 {
		var told []string
		for _, id := range slices.Sorted(maps.Keys(s.Evidence.Seen)) {
			told = append(told, id+"="+s.Evidence.Seen[id])
		}
		all = append(all, "what you have seen: "+strings.Join(told, ", "))
	}
	return append(append(all, s.notes...), s.Report.Notes...)
}

// sentence says when and with what it began.
func (b Began) sentence() string {
	anew := ""
	if b.Anew != "" {
		anew = "; " + b.Anew + " may have cured it, so only what came after that is weighed"
	}
	switch b.With {
	case "job":
		return fmt.Sprintf("it began with %s (%s): since then it uses %s%s", b.Job, b.FromDate[:len("2006-01-02")], b.worse(), anew)
	case "shift":
		came := map[string]string{"at_once": ", it seems at once", "slowly": ", it seems slowly"}[b.Form]
		began, uses := "it began", "it uses"
		if b.Unsure {
			began, uses = "it seems to have begun", "it seems to use"
		}
		return fmt.Sprintf("%s between %s and %s%s, and no job accounts for it: since then %s %s%s", began, b.FromDate, b.ToDate, came, uses, b.worse(), anew)
	}
	if b.Job != "" {
		return fmt.Sprintf("the log shows no beginning of a fault: weighed is how it stands since %s", b.Job)
	}
	return "the log shows no beginning of a fault: weighed is how it stands of late"
}

func (b Began) worse() string {
	switch {
	case !quantity.Known(float64(b.RisePct)):
		return "no more that could be proved, but drives worse"
	case b.Worse:
		return moreOrLess(float64(b.RisePct)) + ", and drives worse"
	}
	return moreOrLess(float64(b.RisePct))
}

// weight says what of the fuel is weighed.
func (b Began) weight() string {
	if !quantity.Known(float64(b.ExcessPct)) {
		return "what it uses too much is not known, and weighs nothing"
	}
	over := "than before"
	if b.OverHealthy {
		over = "than it should when healthy"
	}
	return fmt.Sprintf("weighed is that it uses %s %s, 90 %% sure: %s", moreOrLess(float64(b.ExcessPct)), over, FuelSpan(float64(b.ExcessLowPct), float64(b.ExcessHighPct)))
}

func moreOrLess(pct float64) string {
	if pct <= -0.5 {
		return fmt.Sprintf("%.0f %% less", -pct)
	}
	return fmt.Sprintf("%.0f %% more", max(pct, 0))
}

// FuelSpan writes a range of extra fuel: 3 to 9 % more, 2 % less to 8 % more.
func FuelSpan(low, high float64) string {
	switch {
	case low >= -0.5:
		return fmt.Sprintf("%.0f to %.0f %% more", max(low, 0), high)
	case high < 0.5:
		return fmt.Sprintf("%.0f to %.0f %% less", max(-high, 0), -low)
	}
	return fmt.Sprintf("%.0f %% less to %.0f %% more", -low, high)
}

// Costs is the fuel that a cause would take; empty where that is not known or nought.
func Costs(c suspect.Suspect) string {
	if low := float64(c.ExtraLowPct); c.Cause == suspect.NothingWrong || !quantity.Known(low) {
		return ""
	}
	return fmt.Sprintf("%s, usually about %s", FuelSpan(float64(c.ExtraLowPct), float64(c.ExtraHighPct)), moreOrLess(float64(c.ExtraFuelPct)))
}

// Likeliest are the causes worth telling.
func (s *Suspected) Likeliest() []suspect.Suspect {
	n := 0
	for n < min(suspectsTold, len(s.Suspects)) && (n == 0 || s.Suspects[n].Chance >= leastTold || n < atLeastTold && s.Suspects[n].Chance >= neverTold) {
		n++
	}
	return s.Suspects[:n]
}

// Rest says what chance is left to the others.
func (s *Suspected) Rest() string {
	left := map[string]float64{}
	for _, c := range s.Suspects[len(s.Likeliest()):] {
		switch c.Cause {
		case suspect.NothingWrong, suspect.NotListed:
			left[c.Cause] = c.Chance
		default:
			left[""] += c.Chance
		}
	}
	var parts []string
	for _, part := range []struct{ id, name string }{{suspect.NothingWrong, "nothing wrong"}, {suspect.NotListed, "something not in the list"}, {"", "all other causes together"}} {
		if chance, is := left[part.id]; is {
			parts = append(parts, part.name+" "+chanceOf(chance))
		}
	}
	return strings.Join(parts, ", ")
}

// Pairs tells of two causes that fit together better than either alone.
func (s *Suspected) Pairs() (all []string) {
	t := suspect.Standard()
	for _, p := range s.Together {
		all = append(all, fmt.Sprintf("two at once, %s together with %s: %s", t.Name(p.Causes[0]), t.Name(p.Causes[1]), chanceOf(p.Chance)))
	}
	return all
}

// Next are the checks worth telling, in groups that share a state.
func (s *Suspected) Next() []suspect.Group {
	best := suspect.Report{NextChecks: s.NextChecks[:min(checksTold, len(s.NextChecks))]}
	return best.Groups()
}

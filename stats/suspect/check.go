package suspect

import (
	"cmp"
	"math"
	"slices"
)

// The states a check needs, in the order in which a day in the garage meets them.
var states = []string{"cold", "warm", "running", "road"}

// A NextCheck is a check worth making, and what it would tell.
type NextCheck struct {
	Check        string   `json:"check"`
	Title        string   `json:"title"`
	State        string   `json:"state"` // cold, warm (and stopped), running, road
	Minutes      float64  `json:"minutes"`
	Bits         float64  `json:"bits"`        // expected gain of information; for the order, not for the owner
	TellsApart   []string `json:"tells_apart"` // ids of the causes that it splits best
	Tools        []string `json:"tools"`
	ToolsMissing []string `json:"tools_missing"`
	How          string   `json:"how"`
	Read         string   `json:"read"`  // how to read the result
	Enter        string   `json:"enter"` // how to write it down
	Caution      string   `json:"caution"`
}

// A check that tells less than this is not worth getting up for.
const leastBits = 0.01

// perMinute is what the order goes by; nothing takes less than a minute.
func (c NextCheck) perMinute() float64 { return c.Bits / max(c.Minutes, 1) }

// nextChecks ranks the checks not yet made by what they tell per minute; those whose tools are missing come last. When
// something says stop, only what is still safe is offered.
func (w *weighing) nextChecks(stops []Stop) []NextCheck {
	list := []NextCheck{}
	hs := w.hypotheses()
	for _, c := range w.t.Checks {
		if c.Only != "" && w.e.FuelSystem != "" && c.Only != w.e.FuelSystem || w.made(c) || w.unheld(c) || !safe(stops, c) {
			continue
		}
		bits, gains := w.worth(c, hs)
		if bits < leastBits {
			continue
		}
		list = append(list, NextCheck{Check: c.ID, Title: c.Title, State: c.State, Minutes: c.Minutes, Bits: bits,
			TellsApart: w.tellsApart(hs, gains), Tools: c.Tools, ToolsMissing: w.missing(c),
			How: c.How, Read: c.Read, Enter: c.Enter, Caution: c.Caution})
	}
	slices.SortStableFunc(list, func(a, b NextCheck) int {
		return cmp.Or(cmp.Compare(min(len(a.ToolsMissing), 1), min(len(b.ToolsMissing), 1)), cmp.Compare(b.perMinute(), a.perMinute()))
	})
	return list
}

// made tells whether the check's result is known, or was said to have been looked for.
func (w *weighing) made(c Check) bool {
	return slices.Contains(w.e.Done, c.ID) || slices.ContainsFunc(c.Signs, func(id string) bool {
		return slices.ContainsFunc(w.obs, func(o observation) bool { return w.t.Signs[o.sign].ID == id })
	})
}

// unheld tells whether the check's time would have nothing to be held against, and so tell nothing.
func (w *weighing) unheld(c Check) bool {
	return slices.ContainsFunc(c.Signs, func(id string) bool {
		reading := w.t.Signs[w.t.sign[id]].Reading
		_, own := value(w.e.Baseline, reading)
		return (id == "coast" || id == "pull") && w.e.Expected[reading].Value <= 0 && !own
	})
}

func (w *weighing) missing(c Check) []string {
	missing := []string{}
	for _, tool := range c.Tools {
		if w.e.Tools != nil && !slices.Contains(w.e.Tools, tool) {
			missing = append(missing, tool)
		}
	}
	return missing
}

// worth is the expected gain in bits of all that the check finds out, and what each hypothesis adds to it.
func (w *weighing) worth(c Check, hs []hypothesis) (float64, []float64) {
	joint := make([][]float64, len(hs))
	for i := range joint {
		joint[i] = []float64{1}
	}
	for _, id := range c.Signs {
		for i, outcomes := range w.expect(hs, w.t.sign[id]) {
			joint[i] = cross(joint[i], outcomes)
		}
	}
	return gain(hs, joint)
}

func cross(a, b []float64) []float64 {
	out := make([]float64, 0, len(a)*len(b))
	for _, p := range a {
		for _, q := range b {
			out = append(out, p*q)
		}
	}
	return out
}

// gain is the mutual information, in bits, of hypothesis and outcome.
func gain(hs []hypothesis, outcomes [][]float64) (float64, []float64) {
	all := make([]float64, len(outcomes[0]))
	for i, h := range hs {
		for o, p := range outcomes[i] {
			all[o] += h.chance * p
		}
	}
	total, each := 0.0, make([]float64, len(hs))
	for i, h := range hs {
		for o, p := range outcomes[i] {
			if p > 0 {
				each[i] += h.chance * p * math.Log2(p/all[o])
			}
		}
		total += each[i]
	}
	return total, each
}

// tellsApart names the up to four causes that the check sets off most from the rest.
func (w *weighing) tellsApart(hs []hypothesis, gains []float64) []string {
	by := make([]float64, len(w.t.Causes))
	for i, h := range hs {
		by[h.a] += gains[i]
		if h.b >= 0 {
			by[h.b] += gains[i]
		}
	}
	order := make([]int, len(by))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(by[b], by[a]) })
	names := []string{}
	for _, c := range order[:min(len(order), 4)] {
		if by[c] > by[order[0]]/20 {
			names = append(names, w.t.Causes[c].ID)
		}
	}
	return names
}

// A Group is the checks that share a state, so that one set-up serves them all.
type Group struct {
	State  string
	Checks []NextCheck
}

// Groups sorts the checks by the state they need; the group with the best check first, each group in its order.
func (r Report) Groups() []Group {
	var groups []Group
	for _, c := range r.NextChecks {
		i := slices.IndexFunc(groups, func(g Group) bool { return g.State == c.State })
		if i < 0 {
			groups, i = append(groups, Group{State: c.State}), len(groups)
		}
		groups[i].Checks = append(groups[i].Checks, c)
	}
	return groups
}

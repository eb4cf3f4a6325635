package suspect

import (
	"cmp"
	"math"
	"slices"

	"brimlog/ingest/quantity"
)

// A Report is the answer: what must stop first, which causes fit, and what to look at next.
type Report struct {
	Stop       []Stop      `json:"stop"`
	Suspects   []Suspect   `json:"suspects"` // all causes, likeliest first; the chances sum to one
	Together   []Together  `json:"together"` // two at once, where that is worth a thought
	NextChecks []NextCheck `json:"next_checks"`
	Notes      []string    `json:"-"` // what could not be used; belongs to the document's notes
}

// A Suspect is a cause with its chance.
type Suspect struct {
	Cause        string          `json:"cause"`
	Name         string          `json:"name"`
	Chance       float64         `json:"chance"`
	Because      []string        `json:"because"`
	Against      []string        `json:"against"`
	ExtraFuelPct quantity.Figure `json:"extra_fuel_pct"` // what it usually costs
	ExtraLowPct  quantity.Figure `json:"extra_fuel_low_pct"`
	ExtraHighPct quantity.Figure `json:"extra_fuel_high_pct"` // eight of ten lie between
	Basis        string          `json:"basis"`
}

// Together is two causes at once, with the chance that it is these two. It is already in the chances of the suspects,
// half in each.
type Together struct {
	Causes []string `json:"causes"`
	Chance float64  `json:"chance"`
}

// Rank weighs the evidence with the program's own table.
func Rank(e Evidence) Report { return Standard().Rank(e) }

// Rank weighs the evidence.
func (t *Table) Rank(e Evidence) Report {
	w, notes := t.weigh(e)
	r := Report{Stop: t.stops(e), Suspects: w.suspects(), Together: w.together(), Notes: slices.Concat(notes, cautions(e), weakCylinders(e))}
	r.NextChecks = w.nextChecks(r.Stop)
	return r
}

func (w *weighing) suspects() []Suspect {
	reasons := w.newReasons()
	list := make([]Suspect, len(w.t.Causes))
	for i, c := range w.t.Causes {
		list[i] = Suspect{Cause: c.ID, Name: c.Name, Chance: w.chance[i], Basis: c.Basis}
		list[i].Because, list[i].Against = reasons.of(i)
		list[i].ExtraFuelPct, list[i].ExtraLowPct, list[i].ExtraHighPct = w.cost(c)
	}
	slices.SortStableFunc(list, func(a, b Suspect) int { return cmp.Compare(b.Chance, a.Chance) })
	return list
}

// cost is the cycle model's figure where there is one, else the middle of the table's range.
func (w *weighing) cost(c Cause) (mid, low, high quantity.Figure) {
	switch pct, ok := w.e.ExtraFuelPct[c.ID]; {
	case c.ID == NotListed:
		u := quantity.Figure(quantity.Unknown)
		return u, u, u
	case c.ID == NothingWrong:
		return 0, quantity.Figure(c.Fuel[0]), quantity.Figure(c.Fuel[1])
	case ok:
		doubt := 1.28 * (1 + 0.3*math.Abs(pct))
		return quantity.Figure(pct), quantity.Figure(pct - doubt), quantity.Figure(pct + doubt)
	}
	return quantity.Figure(fuelEffect(c.Fuel[0], c.Fuel[1]).percent()), quantity.Figure(c.Fuel[0]), quantity.Figure(c.Fuel[1])
}

// together lists the pairs with a chance of a twentieth and more.
func (w *weighing) together() []Together {
	list := []Together{}
	for _, p := range w.pairs {
		if p.chance >= 0.05 {
			list = append(list, Together{[]string{w.t.Causes[p.a].ID, w.t.Causes[p.b].ID}, p.chance})
		}
	}
	slices.SortStableFunc(list, func(a, b Together) int { return cmp.Compare(b.Chance, a.Chance) })
	return list
}

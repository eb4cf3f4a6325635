package suspect

import (
	"fmt"
	"slices"
	"strings"
)

// index turns the written rows into laws.
func (t *Table) index() error {
	t.sign, t.rank = map[string]int{}, map[string]int{}
	for i := range t.Signs {
		if err := t.Signs[i].complete(); err != nil {
			return fmt.Errorf("signs: %w", err)
		}
		t.sign[t.Signs[i].ID] = i
	}
	t.fuel = slices.IndexFunc(t.Signs, func(s Sign) bool { return s.ID == "fuel" })
	sound := make([]law, len(t.Signs))
	for i, s := range t.Signs {
		sound[i] = s.soundLaw()
	}
	for i, c := range t.Causes {
		if _, twice := t.rank[c.ID]; twice {
			return fmt.Errorf("cause %q: stands in the table twice, drop one", c.ID)
		}
		t.rank[c.ID] = i
		laws, err := t.lawsOf(c, sound)
		if err != nil {
			return fmt.Errorf("cause %q: %w", c.ID, err)
		}
		t.laws = append(t.laws, laws)
		t.loud = append(t.loud, t.loudness(laws, sound))
	}
	return nil
}

// lawsOf gives the cause's law for every sign: its own line, or that of a sound vehicle.
func (t *Table) lawsOf(c Cause, sound []law) ([]law, error) {
	laws := slices.Clone(sound)
	for id, line := range c.Signs {
		i, ok := t.sign[id]
		if !ok {
			return nil, fmt.Errorf("sign %q: not among the signs, add it there or correct the name", id)
		}
		l, err := t.Signs[i].parse(line)
		if err != nil {
			return nil, fmt.Errorf("sign %q: %w", id, err)
		}
		laws[i] = l
	}
	if len(c.Fuel) != 2 {
		return nil, fmt.Errorf("fuel: want two percentages, low and high, got %d", len(c.Fuel))
	}
	if t.fuel >= 0 {
		laws[t.fuel] = fuelLaw(fuelEffect(c.Fuel[0], c.Fuel[1]))
	}
	return laws, nil
}

func (t *Table) loudness(laws, sound []law) []float64 {
	loud := make([]float64, len(laws))
	for i, l := range laws {
		loud[i] = l.departure(t.Signs[i], sound[i])
	}
	return loud
}

// review looks for rows that would reckon nonsense.
func (t *Table) review() error {
	for _, id := range []string{NothingWrong, NotListed} {
		if _, ok := t.rank[id]; !ok {
			return fmt.Errorf("causes: %q is missing, it always stands in the list", id)
		}
	}
	for _, c := range t.Causes {
		if c.Common <= 0 || c.Name == "" || c.Basis == "" {
			return fmt.Errorf("cause %q: needs a name, a basis and how common it is", c.ID)
		}
		if sum := c.Comes.Work + c.Comes.Sudden + c.Comes.Gradual; sum != 100 {
			return fmt.Errorf("cause %q: comes: work, sudden and gradual make %v, want 100", c.ID, sum)
		}
		if !slices.Contains([]string{"", carburettor, injection}, c.Only) || !slices.Contains([]string{"", "cold", "hot"}, c.Season) {
			return fmt.Errorf("cause %q: only %q, season %q: want carburettor or injection, cold or hot, or neither", c.ID, c.Only, c.Season)
		}
	}
	return t.reviewChecks()
}

func (t *Table) reviewChecks() error {
	for _, c := range t.Checks {
		if strings.TrimSpace(c.Caution) == "" {
			return fmt.Errorf("check %q: has no caution, write one out", c.ID)
		}
		if !slices.Contains(states, c.State) {
			return fmt.Errorf("check %q: state %q, want one of %s", c.ID, c.State, strings.Join(states, ", "))
		}
		for _, s := range c.Signs {
			if _, ok := t.sign[s]; !ok {
				return fmt.Errorf("check %q: sign %q is not among the signs", c.ID, s)
			}
		}
	}
	return nil
}

package slip_test

import (
	"fmt"
	"strings"
	"testing"

	"brimlog/ingest/slip"
)

// withTank is an estate whose tank was replaced after its tenth fill, by one of so many litres, and that was filled once before and once
// after with others.
func withTank(from, to float64, before, after float64) *estate {
	e := newEstate()
	e.vehicle = fmt.Sprintf("name = \"estate\"\n[tank]\ncapacity_l = %g\n[[from]]\njob = \"tank\"\ntank.capacity_l = %g\n", from, to)
	e.work = append(e.work, []string{"tank", "2023-03-28", "", "fit", "fuel", ""})
	for row, l := range map[int]float64{5: before, 15: after} {
		if l > 0 {
			e.fillOf(row, l)
		}
	}
	return e
}

// fillOf makes a fill of so many litres, after as much more driving.
func (e *estate) fillOf(row int, l float64) {
	more := int((l - litres(e.fills[row])) / 0.195)
	for _, f := range e.fills[row:] {
		f[1] = fmt.Sprint(miles(f) + more)
	}
	e.fills[row][2], e.fills[row][4] = fmt.Sprintf("%.2f", l), fmt.Sprintf("%.2f", 1.459*l)
}

// The tank that was in the vehicle on the day counts, not the first one.
func TestCapacityHoldsFromItsJobOn(t *testing.T) {
	for name, c := range map[string]struct {
		from, to, before, after float64
		line                    int // of the doubt, 0 for none
	}{
		"a larger one takes more":             {64, 90, 0, 84, 0},
		"the first did not yet":               {64, 90, 84, 0, 6},
		"a smaller one takes less":            {90, 64, 0, 84, 16},
		"the first still did":                 {90, 64, 84, 0, 0},
		"nothing said before, too much after": {0, 64, 0, 84, 16},
	} {
		e := withTank(c.from, c.to, c.before, c.after)
		if c.from == 0 {
			e.vehicle = strings.Replace(e.vehicle, "[tank]\ncapacity_l = 0\n", "", 1)
		}
		got := slip.Find(read(t, e.save(t)), summer24)
		over := 0
		for _, p := range got {
			if p.Kind == "volume_over_tank" {
				over = p.Line
			}
		}
		if over != c.line || c.line == 0 && len(got) > 0 {
			t.Errorf("%s: %v, want line %d", name, words(got), c.line)
		}
	}
}

// On the day of the job a fill may have been before or after it.
func TestCapacityOnTheDayOfItsJob(t *testing.T) {
	for _, c := range [][2]float64{{64, 90}, {90, 64}} {
		e := withTank(c[0], c[1], 0, 0)
		e.work[1][1] = e.fills[12][0]
		e.fillOf(12, 84)
		if got := slip.Find(read(t, e.save(t)), summer24); len(got) > 0 {
			t.Errorf("%g to %g L: %v", c[0], c[1], words(got))
		}
	}
}

// Where many fills are beyond a tank, that tank's capacity is doubted, in the line of its job.
func TestCapacityOfAJobIsDoubted(t *testing.T) {
	e := withTank(64, 35, 0, 0)
	dir := e.save(t)
	got := slip.Find(read(t, dir), summer24)
	if len(got) != 1 || got[0].File != "vehicle.toml" || got[0].Line != 5 || !strings.Contains(got[0].Message, "more than the 35.00 L") {
		t.Errorf("%v", words(got))
	}
}

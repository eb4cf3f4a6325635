package main_test

import (
	"fmt"
	"math"
	"strings"
	"testing"
	"time"

	"brimlog/testdata/heronmake/heron"
)

// The rows carry the truth that made them. Each tank's fuel is held against what the same roads, weather and load ask of
// the car as it stood on the first day; the mean excess between two jobs must be the sum of what was truly done, within
// three standard errors of the scatter that the tanks themselves show. Tanks that a change fell within are left out.
func TestDemoRowsCarryTheTruth(t *testing.T) {
	s := heron.Make()
	var table strings.Builder
	from := heron.Change{Job: "at first"}
	for i := 0; i <= len(s.Changes); i++ {
		until, next := time.Date(2030, 1, 1, 0, 0, 0, 0, time.UTC), heron.Change{}
		if i < len(s.Changes) {
			next = s.Changes[i]
			until = next.At
		}
		n, shown, truly, se := demoLevel(s.Tanks, from.At, until)
		fmt.Fprintf(&table, "from %-12s %2d tanks  shown %+5.1f %%  true %+5.1f %%  (standard error %.1f)\n", changeName(from), n, 100*shown, 100*truly, 100*se)
		if n > 1 && math.Abs(shown-truly) > 3*se {
			t.Errorf("from %s: the rows show %+.3f, the truth is %+.3f, standard error %.3f", changeName(from), shown, truly, se)
		}
		from = next
	}
	t.Log("\n" + table.String())
}

func changeName(c heron.Change) string {
	if c.Job == "" {
		return "the drag"
	}
	return c.Job
}

// demoScatter is the deviation of ln(fuel/distance) of one tank that the scenario asks for: 2 % a tank, 5 % a leg over some
// ten legs, two brim errors of 0.6 L in some 46 L, a meter's 0.4 %.
const demoScatter = 0.033

// demoLevel gives the whole tanks between two dates: how many, their mean excess over the ordinary, what it truly was, and
// the standard error of the difference.
func demoLevel(tanks []heron.Tank, from, until time.Time) (n int, shown, truly, se float64) {
	for i, k := range tanks {
		if i == 0 || tanks[i-1].To.Before(from) || k.To.After(until) || k.Missed {
			continue
		}
		n++
		shown += math.Log(k.Bought / k.Ordinary)
		truly += k.Effect
	}
	return n, shown / float64(n), truly / float64(n), demoScatter / math.Sqrt(float64(n))
}

// Every tank runs between 16 and 28 miles to the gallon, and the healthy winter is thirstier than the summers about it.
func TestDemoEconomyIsPlausible(t *testing.T) {
	const gallon = 4.54609
	s := heron.Make()
	type total struct{ miles, litres float64 }
	seasons, order := map[string]*total{}, []string{}
	for _, k := range s.Tanks {
		mpg := k.Miles / (k.Bought / gallon)
		if mpg < 16 || mpg > 28 {
			t.Errorf("tank to %s: %.1f mpg", k.To.Format(time.DateOnly), mpg)
		}
		key := demoSeason(k.To)
		if seasons[key] == nil {
			seasons[key], order = &total{}, append(order, key)
		}
		seasons[key].miles += k.Miles
		seasons[key].litres += k.Bought
	}
	mpg := func(key string) float64 { return seasons[key].miles / (seasons[key].litres / gallon) }
	for _, key := range order {
		t.Logf("%s %.1f mpg over %.0f miles", key, mpg(key), seasons[key].miles)
	}
	if summer, winter := mpg("2025 summer"), mpg("2025 winter"); !(summer > winter+0.8) {
		t.Errorf("healthy: summer 2025 %.1f mpg, the winter after it %.1f", summer, winter)
	}
}

// demoSeason is the meteorological season; a winter has the year of its December.
func demoSeason(day time.Time) string {
	m := day.Month()
	year := day.Year()
	if m <= time.February {
		year--
	}
	return fmt.Sprint(year, " ", [4]string{"winter", "spring", "summer", "autumn"}[m%12/3])
}

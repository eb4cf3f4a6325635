package charts

import (
	"math"
	"testing"
	"time"

	"brimlog/ingest/quantity"
	"brimlog/stats"

	"pgregory.net/rapid"
)

// One slip of the pen does not flatten the chart.
func TestSpanLeavesSlipsOut(t *testing.T) {
	low, high := span([]float64{11, 12, 13, quantity.Unknown, 120, 1.2})
	if low > 11 || low < 10.5 || high < 13 || high > 13.5 {
		t.Errorf("the scale runs from %v to %v, want about 11 to 13", low, high)
	}
	if low, high = span(nil); quantity.Known(low) || quantity.Known(high) {
		t.Errorf("a scale of nothing runs from %v to %v", low, high)
	}
}

func TestSpanHoldsWhatIsOrdinary(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		xs := rapid.SliceOfN(rapid.Float64Range(9, 13), 1, 50).Draw(t, "xs")
		low, high := span(xs)
		for _, x := range xs {
			if m := median(xs); x > m*0.6 && x < m*1.4 && (x < low || x > high) {
				t.Fatalf("%v lies outside %v to %v", x, low, high)
			}
		}
	})
}

func TestDecades(t *testing.T) {
	for _, c := range []struct {
		xs        []float64
		low, high float64
	}{{nil, 0.1, 100}, {[]float64{0.5, 30, 2500}, 0.1, 1e4}, {[]float64{1e6, 3e-9, math.NaN()}, 1e-6, 1e6}, {[]float64{1000}, 0.1, 1000}} {
		if low, high := decades(c.xs); math.Abs(low/c.low-1) > 1e-9 || math.Abs(high/c.high-1) > 1e-9 {
			t.Errorf("decades of %v are %v to %v, want %v to %v", c.xs, low, high, c.low, c.high)
		}
	}
}

func TestWintersFollowTheLogsOwnCold(t *testing.T) {
	start := days(time.Date(2022, 3, 1, 0, 0, 0, 0, time.UTC))
	of := func(sign float64) (tanks []tank) {
		for d := start; d < start+700; d += 14 {
			air := 12 - sign*8*math.Cos(2*math.Pi*(d-start+45)/365.25)
			tanks = append(tanks, tank{Tank: stats.Tank{AirC: Figure(air)}, from: d, to: d + 14})
		}
		return tanks
	}
	all, months := winters(of(1), start, start+700)
	if months != "December to February" || len(all) != 2 || dated(all[0].from).Month() != time.December {
		t.Errorf("in the north: %s, %v", months, all)
	}
	all, months = winters(of(-1), start, start+700)
	if months != "June to August" || len(all) != 2 || dated(all[0].from).Month() != time.June {
		t.Errorf("in the south: %s, %v", months, all)
	}
	if all, _ = winters(nil, start, start+100); len(all) != 0 {
		t.Errorf("spring has winters: %v", all)
	}
}

func TestMoneyCountsPricedTanksOnly(t *testing.T) {
	s := spentOn([]tank{
		{Tank: stats.Tank{Cost: 80, DistanceKm: 500}, to: 10},
		{Tank: stats.Tank{Cost: Figure(quantity.Unknown), DistanceKm: 500}, to: 20},
		{Tank: stats.Tank{Cost: 40, DistanceKm: 300}, to: 30},
		{Tank: stats.Tank{Cost: 999, DistanceKm: 1}, to: 2},
	}, 5)
	if s.Money != 120 || s.Km != 800 || s.Tanks != 2 || s.Unpriced != 1 || s.per1000Km() != 150 {
		t.Errorf("spending is %+v", s)
	}
}

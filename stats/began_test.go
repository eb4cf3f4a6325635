package stats

import (
	"flag"
	"math"
	"math/rand/v2"
	"testing"
	"time"

	"brimlog/ingest/book"
	"brimlog/ingest/quantity"
	"brimlog/ingest/tank"
	"brimlog/stats/model"
	"brimlog/stats/suspect"
	"brimlog/stats/watch"
)

func TestOnsetIsTheNewestThatIsNotMadeGood(t *testing.T) {
	shift := func(rise float64) turn { return turn{job: -1, rise: rise, form: suspect.Sudden} }
	job := func(i int, rise float64, felt int) turn {
		return turn{job: i, rise: rise, felt: felt, form: suspect.Sudden}
	}
	for _, c := range []struct {
		name  string
		turns []turn
		open  bool
		job   int
		left  float64
		form  suspect.Form
	}{
		{"nothing", nil, false, -1, 0, 0},
		{"less fuel only", []turn{job(0, -0.1, -1)}, false, -1, 0, 0},
		{"a job that took more", []turn{job(0, 0.1, 1)}, true, 0, 0.1, suspect.Sudden},
		{"cured", []turn{job(0, 0.1, 1), job(1, -0.09, -1)}, false, -1, 0, 0},
		{"cured by less than half", []turn{job(0, 0.1, 1), job(1, -0.04, 0)}, true, 0, 0.06, suspect.Sudden},
		{"worse to drive, no more fuel", []turn{job(0, 0, 1)}, true, 0, 0, suspect.Sudden},
		{"less fuel, but worse to drive", []turn{job(0, -0.05, 1)}, true, 0, 0, suspect.Sudden},
		{"drives well again", []turn{job(0, 0, 1), job(1, 0, -1)}, false, -1, 0, 0},
		{"the newest counts", []turn{shift(0.1), job(3, 0.05, 0)}, true, 3, 0.05, suspect.Sudden},
		{"two steps up that nobody named", []turn{shift(0.05), shift(0.06)}, true, -1, 0.11, suspect.Gradual},
		{"and a cure of both", []turn{shift(0.05), shift(0.06), job(1, -0.1, 0)}, false, -1, 0, 0},
	} {
		o, open := onset(c.turns)
		if open != c.open || open && (o.job != c.job || math.Abs(o.left-c.left) > 1e-9 || o.form != c.form) {
			t.Errorf("%s: %+v, %v", c.name, o, open)
		}
		if !open && (o.rise != 0 || o.job != -1) {
			t.Errorf("%s: nothing is open, yet %+v", c.name, o)
		}
	}
}

var drawnShifts = flag.Int("drawn", 4, "logs to draw of each kind")

// A narrow window means that a shift came at once, a wide one that it came slowly: the table atOnce. Logs are drawn of steps
// and of climbs over six and twelve tanks, by 6, 10 and 15 %, seen 5 and 10 tanks later. With -drawn 60 the windows of one, two, three,
// and four tanks or more held a step in 75, 45, 46 and 28 of a hundred, steps and climbs taken as equally common.
func TestNarrowWindowMeansAtOnce(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	var widths [2][6]float64 // slowly, at once
	var found [2]float64
	for _, after := range []int{5, 10} {
		for _, size := range []float64{0.06, 0.10, 0.15} {
			for _, over := range []int{0, 6, 12} {
				for range *drawnShifts {
					if width := drawnWidth(r, after, size, over); width > 0 {
						kind := 0
						if over == 0 {
							kind = 1
						}
						widths[kind][min(width, 5)]++
						found[kind]++
					}
				}
			}
		}
	}
	chance := func(from, to int) float64 {
		slow, fast := 0.0, 0.0
		for w := from; w <= to; w++ {
			slow, fast = slow+widths[0][w]/found[0], fast+widths[1][w]/found[1]
		}
		t.Logf("window of %d to %d tanks: at once in %.2f (%v steps, %v climbs found)", from, to, fast/(slow+fast), found[1], found[0])
		return fast / (slow + fast)
	}
	one, _, _, wide := chance(1, 1), chance(2, 2), chance(3, 3), chance(4, 5)
	if one < 0.6 || wide > one-0.2 {
		t.Errorf("windows of one tank came at once in %.2f, of four and more in %.2f", one, wide)
	}
}

// drawnWidth draws a log of steady driving whose consumption rises at tank 30, and gives the newest shift's window; 0 = none.
func drawnWidth(r *rand.Rand, after int, size float64, over int) int {
	const before = 30
	u := quantity.Unknown
	b := &book.Book{}
	b.Vehicle.Place.AltitudeM, b.Vehicle.Odometer.Correction, b.Vehicle.Odometer.Unit = u, 1, "km"
	b.Vehicle.Place.MonthlyC = []float64{4, 4, 6, 9, 12, 15, 17, 17, 14, 11, 7, 5}
	day, brim := time.Date(2023, 1, 7, 0, 0, 0, 0, time.UTC), 0.6*r.NormFloat64()
	for i := 0; i <= before+after+over/2; i++ {
		f := book.Fill{Date: book.Moment{Time: day}, Odometer: 10000 + 400*float64(i), Full: true, Cost: u, Fuel: "E5", Gauge: u, TownShare: u, Litres: 40}
		risen := size
		if over > 0 {
			risen *= min(1, float64(i-before)/float64(over))
		}
		if i <= before {
			risen = 0
		}
		if i > 0 {
			next := 0.6 * r.NormFloat64()
			season := 0.05 * math.Cos(2*math.Pi*float64(day.YearDay()-15)/365)
			f.Litres = 44*math.Exp(risen+season+0.03*r.NormFloat64()) + next - brim
			brim = next
		}
		b.Fills = append(b.Fills, f)
		day = day.AddDate(0, 0, 10)
	}
	l := tank.Build(b)
	d := model.NewDesign(l)
	_, c := d.Ask(nil)
	if s := watch.Shifts(l, d, c); len(s) > 0 {
		return s[len(s)-1].Last - s[len(s)-1].First + 1
	}
	return 0
}

// What the watch found to have crept in came slowly, however narrow its window.
func TestWhatCreptInCameSlowly(t *testing.T) {
	g := workshop(t)
	shift := Shift{FromDate: "2025-03-05", ToDate: "2025-03-12", ChangePct: 10, LowPct: 6, HighPct: 14, SinceTank: 10}
	for gradual, want := range map[bool]suspect.Form{false: suspect.Sudden, true: suspect.Gradual} {
		shift.Gradual = gradual
		r := &Review{Watch: &Watch{Shifts: []Shift{shift}}}
		if turns := r.turns(g); len(turns) != 1 || turns[0].form != want || turns[0].doubt > 0.4 {
			t.Errorf("crept in %v: %+v", gradual, turns)
		}
	}
}

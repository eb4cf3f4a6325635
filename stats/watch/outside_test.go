package watch

import (
	"math"
	"math/rand/v2"
	"slices"
	"strconv"
	"testing"
	"time"

	"brimlog/ingest/book"
	"brimlog/ingest/tank"
	"brimlog/stats/model"
	"brimlog/testdata/table"
)

// series reads a column of numbers.
func series(t *testing.T, file string, column int) (x []float64) {
	t.Helper()
	rows := table.Read(t, "../../testdata/"+file)
	for _, r := range rows[1:] {
		v, err := strconv.ParseFloat(r[column], 64)
		if err != nil {
			t.Fatal(err)
		}
		x = append(x, v)
	}
	return x
}

// plain makes a log of nothing but a level out of a series, scaled so that its ordinary scatter is that of tanks.
func plain(x []float64, scatter float64, from time.Time, every time.Duration) (*tank.Log, *model.Design) {
	const level, usual, km = 2.0, 0.03, 400.0
	centre := 0.0
	for _, v := range x {
		centre += v / float64(len(x))
	}
	l := &tank.Log{}
	d := &model.Design{Priors: []model.Prior{{Name: "level", Mean: level, Sd: 0.5}}}
	for i, v := range x {
		open, closed := from.Add(time.Duration(i)*every), from.Add(time.Duration(i+1)*every)
		l.Tanks = append(l.Tanks, tank.Tank{
			Number: i + 1, From: float64(i) * km, To: float64(i+1) * km, Km: km,
			Opens: &book.Fill{Date: book.Moment{Time: open}}, Closes: &book.Fill{Date: book.Moment{Time: closed}},
		})
		d.Obs = append(d.Obs, model.Obs{Y: level + (v-centre)/scatter*usual, Km: km, X: []float64{1}, E: []float64{0}, Clump: 0.2, Chained: i > 0})
	}
	return l, d
}

// The Nile's flow fell once, after 1898, by 248 of 1098: R strucchange, breakpoints(Nile ~ 1), h = 15, with a 95 % interval of
// 1895 to 1902. The watch must find that step alone, within those years, and its size.
func TestNileFellOnce(t *testing.T) {
	flow := series(t, "nile.csv", 1)
	const scatter = 127.0 // about the two means 1097.75 and 849.97 (residual sum of squares 1597457.19)
	l, d := plain(flow, scatter, time.Date(1871, 1, 1, 0, 0, 0, 0, time.UTC), 365*24*time.Hour)
	_, c := d.Ask(nil)
	found := Shifts(l, d, c)
	if len(found) != 1 {
		t.Fatalf("found %d shifts, want the one of 1898: %+v", len(found), found)
	}
	s := found[0]
	if year := l.Tanks[s.Tank].Opens.Date.Year(); year < 1895 || year > 1902 {
		t.Errorf("dated %d, strucchange's interval is 1895 to 1902", year)
	}
	if s.From.Year() > 1898 || s.To.Year() < 1898 {
		t.Errorf("window %d to %d does not hold 1898", s.From.Year(), s.To.Year())
	}
	fell := math.Log1p(s.Change/100) / 0.03 * scatter
	if want := 849.972222 - 1097.75; math.Abs(fell-want) > 60 {
		t.Errorf("fell by %.0f, the segment means differ by %.0f", fell, want)
	}
}

// seasonal is a plain log whose season the model knows as it knows all it is told of a tank: by a coefficient, here one for each
// month but the first, believed to be nothing in particular.
func seasonal(x []float64, scatter float64, from time.Time) (*tank.Log, *model.Design) {
	const month = 365.25 / 12 * 24 * float64(time.Hour)
	l, d := plain(x, scatter, from, time.Duration(month))
	for m := range 11 {
		d.Priors = append(d.Priors, model.Prior{Name: time.Month(m + 2).String(), Sd: 0.15})
	}
	for i := range d.Obs {
		d.Obs[i].X = append(d.Obs[i].X, make([]float64, 11)...)
		d.Obs[i].E = append(d.Obs[i].E, make([]float64, 11)...)
		if m := i % 12; m > 0 {
			d.Obs[i].X[m] = 1
		}
	}
	return l, d
}

// Drivers killed or seriously hurt in Britain fell when belts became law, in February 1983 (Harvey & Durbin 1986). R strucchange finds
// that break and four more, among them those of the oil crisis of 1973 and 74; testdata/breaks has the program and its values. The
// watch must find the belts within strucchange's interval, their size, and of what else it tells nothing that strucchange has not.
func TestBeltsSavedDrivers(t *testing.T) {
	x := series(t, "breaks/uk_driver_deaths.csv", 1)
	for i := range x {
		x[i] = math.Log(x[i])
	}
	const scatter = 0.0647 // about strucchange's six means
	l, d := seasonal(x, scatter, time.Date(1969, 1, 1, 0, 0, 0, 0, time.UTC))
	_, c := d.Ask(nil)
	unscaled := func(percent float64) float64 { return math.Log1p(percent/100) / 0.03 * scatter }
	breaks, belts, crisis := breaksOf(t), 0, 0
	for _, s := range Shifts(l, d, c) {
		size := unscaled(s.Change)
		t.Logf("%s to %s, gradual %v: %+.3f (%+.3f to %+.3f)", s.From.Format("2006-01"), s.To.Format("2006-01"), s.Gradual, size, unscaled(s.Low), unscaled(s.High))
		sum, within := 0.0, func(b breakpoint) bool { return !s.To.Before(b.low) && !s.From.After(b.high) }
		for _, b := range breaks {
			if within(b) && b.step < 0 == (size < 0) {
				sum += b.step
			}
		}
		if sum == 0 {
			t.Errorf("%s to %s: strucchange finds nothing like %+.3f there", s.From, s.To, size)
		}
		switch law, war := time.Date(1983, 2, 1, 0, 0, 0, 0, time.UTC), breaks[2:4]; {
		case !s.From.After(law) && s.To.After(law):
			belts++
			if s.Gradual || math.Abs(size-breaks[4].step) > 0.03 {
				t.Errorf("the belts: %+.3f, gradual %v; strucchange %+.3f at once", size, s.Gradual, breaks[4].step)
			}
		case size < 0 && (within(war[0]) || within(war[1])):
			crisis++ // strucchange has two steps of it; one of them, or both in one, is as good a reading
			if both := war[0].step + war[1].step; size < both || size > max(war[0].step, war[1].step) {
				t.Errorf("the oil crisis: %+.3f, strucchange %+.3f and %+.3f", size, war[0].step, war[1].step)
			}
		}
	}
	if belts != 1 || crisis != 1 {
		t.Errorf("the belts are told %d times and the oil crisis %d, want once each", belts, crisis)
	}
}

// A breakpoint is one that strucchange found: the 95 % interval of the last month before it, and the step after it.
type breakpoint struct {
	low, high time.Time
	step      float64
}

func breaksOf(t *testing.T) (out []breakpoint) {
	t.Helper()
	rows := table.Read(t, "../../testdata/breaks/deaths.csv")
	for _, r := range rows[1:] {
		low, e1 := time.Parse("2006-01", r[1])
		high, e2 := time.Parse("2006-01", r[2])
		step, e3 := strconv.ParseFloat(r[3], 64)
		if e1 != nil || e2 != nil || e3 != nil {
			t.Fatal(r)
		}
		out = append(out, breakpoint{low, high.AddDate(0, 1, 0), step})
	}
	return out
}

// The wild values of two textbook series as tanks. The one of Grubbs' eight (NIST/SEMATECH e-Handbook 1.3.5.17.1) always stands out. Of
// Rosner's three (1.3.5.17.3), 3.6 to 4.3 deviations from the rest, the farthest does in two orders of three and the others now and then: tanks
// are not as normal as that test has it, a headwind makes one in thirty scatter three times as wide. Both series are listed by size, so
// they are driven in orders drawn at random; a tank is held against those before it, so the wild ones come in the second half.
func TestTextbookOutliersStandOut(t *testing.T) {
	for _, c := range []struct {
		file                 string
		wild                 int // of the greatest values
		scatter              float64
		farthest, all, other float64 // share of orders in which the farthest stands out, of wild values that do, of orders in which another does
	}{{"nist/grubbs8.csv", 1, 1.2, 0.95, 0.95, 0.05}, {"nist/rosner54.csv", 3, 0.89, 0.6, 0.25, 0.2}} {
		x := series(t, c.file, 1)
		slices.Sort(x)
		usual, wild := x[:len(x)-c.wild], x[len(x)-c.wild:]
		const orders = 60
		farthest, all, other := 0.0, 0.0, 0.0
		for seed := range orders {
			driven := anyOrder(usual, wild, rand.New(rand.NewPCG(uint64(seed), 54)))
			_, d := plain(driven, c.scatter, time.Date(2000, 1, 1, 0, 0, 0, 0, time.UTC), 24*time.Hour)
			_, course := d.Ask(nil)
			wrong := 0.0
			for i, s := range Standing(d, course) {
				switch {
				case s.Reading == "":
				case driven[i] == wild[len(wild)-1]:
					farthest++
					all++
				case slices.Contains(wild, driven[i]):
					all++
				default:
					wrong = 1
				}
			}
			other += wrong
		}
		farthest, all, other = farthest/orders, all/float64(orders*len(wild)), other/orders
		t.Logf("%s: the farthest stands out in %.2f of orders, %.2f of the wild do, another in %.2f", c.file, farthest, all, other)
		if farthest < c.farthest || all < c.all || other > c.other {
			t.Errorf("%s: the farthest stands out in %.2f of orders, %.2f of the wild do, another in %.2f", c.file, farthest, all, other)
		}
	}
}

// anyOrder mixes a series, the wild values somewhere in its second half.
func anyOrder(usual, wild []float64, rng *rand.Rand) []float64 {
	out, half := slices.Clone(usual), len(usual)/2
	rng.Shuffle(len(out), func(i, j int) { out[i], out[j] = out[j], out[i] })
	for _, v := range wild {
		out = slices.Insert(out, half+rng.IntN(len(out)-half+1), v)
	}
	return out
}

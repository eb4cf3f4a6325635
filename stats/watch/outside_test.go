package watch

import (
	"encoding/csv"
	"math"
	"os"
	"strconv"
	"testing"
	"time"

	"brimlog/ingest/book"
	"brimlog/ingest/tank"
	"brimlog/stats/model"
)

// series reads a column of numbers.
func series(t *testing.T, file string, column int) (x []float64) {
	t.Helper()
	f, err := os.Open("../../testdata/" + file)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
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

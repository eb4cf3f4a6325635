package expect

import (
	"math"
	"path/filepath"
	"strconv"
	"testing"

	"brimlog/stats/engine"
	"brimlog/testdata/table"
)

// trace is what a stretch of a driving schedule asks for per metre, over the seconds in which the engine pulls, for a
// car of so much mass, drag area and rolling resistance.
func trace(v []float64, mass, area, rolls float64) (d demand) {
	metres, still := 0.0, 0.0
	for i := range v[1:] {
		metres += (v[i] + v[i+1]) / 2
		if v[i] == 0 {
			still++
		}
	}
	for i := range v[1:] {
		mid, a := (v[i]+v[i+1])/2, v[i+1]-v[i]
		if mass*1.04*a+mass*gravity*rolls+0.5*1.204*area*mid*mid <= 0 {
			continue
		}
		d.a += mid * mid * mid / metres
		d.r += mid / metres
		d.k += a * mid / metres
	}
	d.standing, d.kmh = still/metres, metres/float64(len(v)-1)*3.6
	return d
}

// The town's and the open road's demands are those of the US EPA urban schedule, 40 CFR part 86 appendix I, and of its
// fast stretch.
func TestDemandsComeFromTheSchedule(t *testing.T) {
	rows := table.Read(t, filepath.Join("..", "..", "testdata", "udds_mph.csv"))
	var v []float64 // m/s, each second
	for _, row := range rows[1:] {
		mph, err := strconv.ParseFloat(row[1], 64)
		if err != nil {
			t.Fatal(err)
		}
		v = append(v, mph*0.44704)
	}
	near := func(what string, got, want, within float64) {
		t.Helper()
		if math.Abs(got-want) > within {
			t.Errorf("%s %.4g, the schedule gives %.4g", what, got, want)
		}
	}
	town, fast := demands[engine.Town], trace(v[189:310], 1300, 0.8, 0.014)
	whole := trace(v, 1300, 0.8, 0.014)
	near("town a", town.a, whole.a, 2)
	near("town r", town.r, whole.r, 0.005)
	near("town k", town.k, whole.k, 0.002)
	near("town standing", town.standing, whole.standing, 0.001)
	near("town speed", town.kmh, whole.kmh, 1)
	open := demands[engine.Open]
	near("open speed", open.kmh, fast.kmh, 1)
	near("open a", open.a, fast.a, 8)
	near("open r", open.r, fast.r, 0.01)
	near("open k", open.k, fast.k, 0.004)
	// the spans that the schedule gives for cars of 900 to 1,800 kg
	for _, mass := range []float64{900, 1300, 1800} {
		d := trace(v, mass, 0.8, 0.014)
		if d.a < 179 || d.a > 197 || d.r < 0.74 || d.r > 0.82 || d.k < 0.144 || d.k > 0.161 {
			t.Errorf("%g kg: %+v", mass, d)
		}
	}
}

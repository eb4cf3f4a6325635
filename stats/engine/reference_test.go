package engine

import (
	"math"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"gonum.org/v1/gonum/stat"

	"brimlog/testdata/table"
)

// rows reads a file of testdata as text, without its header.
func rows(t *testing.T, name string) [][]string {
	t.Helper()
	all := table.Read(t, filepath.Join("..", "..", "testdata", name))
	return all[1:]
}

func number(t *testing.T, s string) float64 {
	t.Helper()
	x, err := strconv.ParseFloat(s, 64)
	if err != nil {
		t.Fatal(err)
	}
	return x
}

// ranks are the places of the values, for a rank correlation.
func ranks(xs []float64) []float64 {
	order := make([]int, len(xs))
	for i := range order {
		order[i] = i
	}
	slices.SortFunc(order, func(a, b int) int {
		switch {
		case xs[a] < xs[b]:
			return -1
		case xs[a] > xs[b]:
			return 1
		}
		return a - b
	})
	out := make([]float64, len(xs))
	for place, i := range order {
		out[i] = float64(place)
	}
	return out
}

// A second cycle model, of which only the results are known (testdata/cam_phase_model.csv): a second opinion on the
// shape of what a cam phase costs, not on its size.
func TestAgainstSecondModelPhase(t *testing.T) {
	e := Engine{DisplacementCC: 2000, Cylinders: 4, CompressionRatio: 9, IdleRPM: 800, Card: touring}
	var ours, theirs []float64
	gap := 0.0
	for _, row := range rows(t, "cam_phase_model.csv") {
		if strings.HasSuffix(row[8], "!UNREACHED") {
			continue
		}
		p := point{rpm: number(t, row[1]), bmep: number(t, row[2])}
		tune := Unmeasured()
		tune.CamPhaseDeg, tune.DistributorReset = number(t, row[3]), row[0] == "retimed"
		healthy := newCylinder(e, 0, 0, p.rpm).carry(p, e.healthyFeed(p))
		tuned := newCylinder(e, tune.CamPhaseDeg, 0, p.rpm).carry(p, e.tunedFeed(p, tune, healthy.Cycle))
		a, b := fuelRatio(healthy, tuned), number(t, row[8])
		ours, theirs = append(ours, a), append(theirs, b)
		gap += math.Abs(math.Log(a / b))
	}
	gap /= float64(len(ours))
	r := stat.Correlation(ranks(ours), ranks(theirs), nil)
	t.Logf("%d points: rank correlation %.2f, mean gap %.1f %%", len(ours), r, 100*gap)
	if r < 0.75 || gap > 0.08 {
		t.Errorf("rank correlation %.2f (want 0.75), mean gap %.1f %% (want 8 or less)", r, 100*gap)
	}
}

// The same model's sweeps of spark and mixture (testdata/engine_model_sweeps.csv; rows with torque below 0.1 are
// failed burns).
func TestAgainstSecondModelSweeps(t *testing.T) {
	e := Engine{DisplacementCC: 2000, Cylinders: 4, CompressionRatio: 9, IdleRPM: 800, Card: touring}
	best := at(e, 2500, 98e3, 1, 9)
	cruise := point{rpm: 2000, bmep: 2.5}
	lit := func(lambda float64) Cycle {
		return newCylinder(e, 0, 0, 2000).carry(cruise, func(float64) (float64, float64, float64) { return lambda, math.NaN(), 9 }).Cycle
	}
	rich := lit(1)
	for _, row := range rows(t, "engine_model_sweeps.csv") {
		switch {
		case row[0] == "spark_vs_MBT" && row[1] == "WOT2500" && number(t, row[3]) > 0.1:
			off := number(t, row[2])
			op := operating{rpm: 2500, manifold: 98e3, pipe: pipePressure(2500, 98e3), lambda: 1, spark: -best.SparkDeg - off}
			got := newCylinder(e, 0, 0, 2500).begin(op).settle(op).BMEP / best.BMEP
			if want := number(t, row[3]); math.Abs(got-want) > 0.03 {
				t.Errorf("spark %+g: torque %.3f, the second model has %.3f", off, got, want)
			}
		case row[0] == "lambda" && row[1] == "PART2000":
			l := number(t, row[2])
			got := lit(l).FuelKg / rich.FuelKg
			if want := number(t, row[4]); math.Abs(got-want) > 0.05 {
				t.Errorf("lambda %g: fuel %.3f, the second model has %.3f", l, got, want)
			}
		}
	}
}

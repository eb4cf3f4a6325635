package main_test

import (
	"encoding/csv"
	"math"
	"strconv"
	"testing"

	"brimlog/testdata"
)

// A demoRow is one of the demo's rows by column; read here without the program's own reader, so that the two can disagree.
type demoRow map[string]string

func demoRows(t *testing.T, file string) []demoRow {
	t.Helper()
	f, err := testdata.Heron.Open("heron/" + file)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	cells, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	var rows []demoRow
	for _, line := range cells[1:] {
		r := demoRow{}
		for i, column := range cells[0] {
			r[column] = line[i]
		}
		rows = append(rows, r)
	}
	return rows
}

// num is the cell's number; not a number when it is empty.
func (r demoRow) num(t *testing.T, column string) float64 {
	t.Helper()
	if r[column] == "" {
		return math.NaN()
	}
	x, err := strconv.ParseFloat(r[column], 64)
	if err != nil {
		t.Fatalf("column %q: %v", column, err)
	}
	return x
}

// The pump: what a 64-litre tank holds, one lost receipt, a few part fills, an odometer and a calendar that only go up.
func TestDemoFillsArePlausible(t *testing.T) {
	fills := demoRows(t, "fills.csv")
	brims, partials, missed := 0, 0, 0
	for i, f := range fills {
		litres, cost := f.num(t, "volume_l"), f.num(t, "cost")
		if litres < 5 || litres > 64 {
			t.Errorf("fills line %d: %v L into a tank of 64", i+2, litres)
		}
		if price := cost / litres; price < 1.2 || price > 1.75 {
			t.Errorf("fills line %d: %.3f GBP a litre", i+2, price)
		}
		switch f["full"] {
		case "yes":
			brims++
		case "no":
			partials++
			if g := f.num(t, "gauge"); math.IsNaN(g) || g+litres/61 > 1 {
				t.Errorf("fills line %d: part fill of %v L on a gauge of %v", i+2, litres, g)
			}
		}
		if f["missed"] == "yes" {
			missed++
		}
		if i > 0 && (f["date"] < fills[i-1]["date"] || f.num(t, "odometer_mi") <= fills[i-1].num(t, "odometer_mi")) {
			t.Errorf("fills line %d: date or odometer goes back", i+2)
		}
	}
	if brims < 79 || brims > 86 || partials < 3 || partials > 6 || missed != 1 {
		t.Errorf("%d brim fills, %d part fills, %d missed", brims, partials, missed)
	}
}

// The trips: no two overlap, none spans a fill, and they account for most of the distance but not all of it.
func TestDemoTripsLieBetweenTheFills(t *testing.T) {
	fills := demoRows(t, "fills.csv")
	first, last := fills[0].num(t, "odometer_mi"), fills[len(fills)-1].num(t, "odometer_mi")
	before, noted := 0.0, 0.0
	for i, trip := range demoRows(t, "trips.csv") {
		end := trip.num(t, "odometer_end_mi")
		start := trip.num(t, "odometer_start_mi")
		if math.IsNaN(start) {
			start = end - trip.num(t, "distance_mi")
		}
		if !(start < end && start >= before) {
			t.Errorf("trips line %d: %v to %v, after one that ended at %v", i+2, start, end, before)
		}
		before = end
		noted += math.Max(0, math.Min(end, last)-start)
		for _, f := range fills {
			at := f.num(t, "odometer_mi")
			if start < at && at < end {
				t.Errorf("trips line %d: a fill at %v lies within %v to %v", i+2, at, start, end)
			}
			if at <= start && f["date"] > trip["date"] || at >= end && f["date"] < trip["date"] {
				t.Errorf("trips line %d: %s at %v to %v, but a fill on %s at %v", i+2, trip["date"], start, end, f["date"], at)
			}
		}
	}
	if share := noted / (last - first); share < 0.75 || share > 0.86 {
		t.Errorf("trips note %.2f of the distance", share)
	}
}

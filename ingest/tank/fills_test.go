package tank_test

import (
	"math"
	"testing"

	"brimlog/ingest/quantity"
)

func TestPartialFillsBelongToTheTank(t *testing.T) {
	l := folder{fills: `date,odometer_km,volume_l,full,cost
		2024-01-01,1000,40,yes,60
		2024-01-08,1200,15,no,22
		2024-01-15,1400,20,no,
		2024-01-22,1600,25,yes,38
		2024-01-29,2000,36,,54
		2024-02-02,2100,10,no,15`}.build(t)
	expectTanks(t, l, span{2, 5, 600, 60}, span{5, 6, 400, 36})
	if l.Tanks[0].Partials != 2 || l.Tanks[1].Partials != 0 {
		t.Errorf("partials %d and %d, want 2 and 0", l.Tanks[0].Partials, l.Tanks[1].Partials)
	}
	if !math.IsNaN(l.Tanks[0].Cost) {
		t.Errorf("cost %v, though one receipt is lost", l.Tanks[0].Cost)
	}
	expect(t, "cost", l.Tanks[1].Cost, 54)
	if l.Tanks[0].Chained || !l.Tanks[1].Chained {
		t.Error("the second tank opens on the brim that closed the first, the first on none")
	}
	if l.Open.Fills != 1 || l.Open.Full != 3 || !near(l.Open.Litres, 10) {
		t.Errorf("open: %+v", l.Open)
	}
}

// No tank spans a fill that was not written down; the next brim begins anew, on a mark of its own.
func TestMissedFillsCutTheChain(t *testing.T) {
	rows := `date,odometer_km,volume_l,full,missed
		2024-01-01,1000,40,yes,
		2024-01-08,1400,36,yes,
		2024-01-22,2200,38,yes,yes
		2024-01-29,2600,37,yes,
		2024-02-05,2800,15,no,yes
		2024-02-12,3000,20,yes,
		2024-02-19,3400,39,yes,`
	l := folder{fills: rows}.build(t)
	expectTanks(t, l, span{2, 3, 400, 36}, span{4, 5, 400, 37}, span{7, 8, 400, 39})
	for _, k := range l.Tanks {
		if k.Chained {
			t.Errorf("tank %d is chained across a missed fill", k.Number)
		}
	}
}

// A volume that nobody can read closes no tank and opens the next; a fill without its odometer counts as fuel alone.
func TestUnreadableFills(t *testing.T) {
	l := folder{fills: `date,odometer_km,volume_l
		2024-01-01,1000,40
		2024-01-08,1400,
		2024-01-15,1800,37
		2024-01-22,,36
		2024-01-29,2600,38
		2024-02-05,2600,2.5
		2024-02-12,3000,39`}.build(t)
	expectTanks(t, l, span{3, 4, 400, 37}, span{4, 6, 800, 74}, span{7, 8, 400, 39})
	if l.Tanks[1].Partials != 1 {
		t.Errorf("%d partials, want the fill without an odometer", l.Tanks[1].Partials)
	}
}

func TestUnitsOfColumnsAndCells(t *testing.T) {
	l := folder{fills: `date,odometer_mi,volume_gal_uk
		2024-01-01,1000,9
		2024-01-08,1250,10
		2024-01-15,2414.016 km,40 l
		2024-01-22,1750,10 gal_us`}.build(t)
	expectTanks(t, l, span{2, 3, 250 * mile, 45.4609}, span{3, 4, 250 * mile, 40}, span{4, 5, 250 * mile, 37.85411784})
	expect(t, "reading to a whole mile", l.Tanks[0].ReadingKm, mile*math.Sqrt(1.0/6))
}

// Nothing to make a tank of is no tank, and no crash.
func TestNoTank(t *testing.T) {
	for name, rows := range map[string]string{
		"no file": "", "heading alone": "date,odometer_km,volume_l", "one fill": "date,odometer_km,volume_l\n2024-01-01,1000,40",
		"partial fills alone": "date,odometer_km,volume_l,full\n2024-01-01,1000,20,no\n2024-01-08,1200,20,no",
		"every fill missed":   "date,odometer_km,volume_l,missed\n2024-01-01,1000,40,yes\n2024-01-08,1400,40,yes",
		"not driven":          "date,odometer_km,volume_l\n2024-01-01,1000,40\n2024-01-08,1000,1",
		"no odometer at all":  "date,odometer_km,volume_l\n2024-01-01,,40\n2024-01-08,,40",
	} {
		f := folder{fills: rows, trips: "date,odometer_start_km,odometer_end_km\n2024-01-02,1000,1050",
			work: "id,date,kind,area\nplugs,2024-01-03,service,ignition"}
		l := f.build(t)
		if len(l.Tanks) != 0 || len(l.Jobs) != 1 || l.Jobs[0].Tank != 0 {
			t.Errorf("%s: %d tanks, job %+v", name, len(l.Tanks), l.Jobs)
		}
	}
}

// What a tank burnt was mostly bought at the fill that opened it.
func TestBlendFollowsWhatIsInTheTank(t *testing.T) {
	l := folder{vehicle: "[tank]\ncapacity_l = 60", fills: `date,odometer_km,volume_l,full,fuel
		2024-01-01,1000,40,yes,E5
		2024-01-08,1400,40,yes,E10
		2024-01-15,1800,40,yes,E10
		2024-01-22,2000,30,no,E0
		2024-01-29,2200,10,yes,E10`}.build(t)
	expectTanks(t, l, span{2, 3, 400, 40}, span{3, 4, 400, 40}, span{4, 6, 400, 40})
	blend := func(i int, label string, want float64) {
		t.Helper()
		expect(t, label, l.Tanks[i].Blend[label], want)
	}
	blend(0, "E5", 1)       // the E10 came in when it was over
	blend(1, "E10", 40./60) // 40 litres onto 20 of E5
	blend(1, "E5", 20./60)
	// 40 litres of E10 onto 20 of which a third is E5; after 200 km and 20 litres, 30 of E0 onto 40.
	blend(2, "E5", (1./9)/2+(1./9)*(40./70)/2)
	blend(2, "E0", (30./70)/2)
}

// A full tank whose volume nobody can read is full all the same; the blend goes on from it.
func TestBlendAfterAnUnreadableVolume(t *testing.T) {
	l := folder{vehicle: "[tank]\ncapacity_l = 60", fills: `date,odometer_km,volume_l,full,fuel
		2024-01-01,1000,40,yes,E5
		2024-01-08,1400,,yes,E5
		2024-01-15,1600,30,no,E10
		2024-01-22,1800,12,yes,E5`}.build(t)
	expectTanks(t, l, span{3, 5, 400, 42})
	sum := 0.0
	for label, share := range l.Tanks[0].Blend {
		if !(share > 0 && share <= 1) {
			t.Errorf("%s: share %v", label, share)
		}
		sum += share
	}
	expect(t, "all shares", sum, 1)
}

// A tank's share of town: what drives say comes first, the pump's note fills in for the rest, and one short drive says little.
func TestTownShare(t *testing.T) {
	for _, c := range []struct {
		note, trip string
		want       float64
	}{
		{"", "0,200,town", 1}, {"", "0,20,town", quantity.Unknown}, {"30", "", 0.3}, {"30", "0,200,town", 0.5 + 0.15}, {"30", "0,400,open", 0}, {"", "", quantity.Unknown},
	} {
		f := folder{fills: "date,odometer_km,volume_l,town_share\n2024-01-01,1000,40,\n2024-01-08,1400,40," + c.note}
		if c.trip != "" {
			f.trips = "date,odometer_start_km,distance_km,road\n2024-01-02,100" + c.trip
		}
		if got := f.build(t).Tanks[0].Town(); !(math.Abs(got-c.want) < 1e-9 || math.IsNaN(got) && math.IsNaN(c.want)) {
			t.Errorf("note %q, trip %q: %v, want %v", c.note, c.trip, got, c.want)
		}
	}
}

package tank_test

import (
	"testing"

	"brimlog/ingest/tank"
)

const weekly = `date,odometer_km,volume_l
	2024-01-01,1000,40
	2024-01-08,1400,40
	2024-01-15,1800,40
	2024-01-22,2200,40`

// Where a job fell, and the share of that tank's distance driven after it.
func TestJobsFallWithinTanks(t *testing.T) {
	for _, c := range []struct {
		name, row string
		tank      int // from 0; 3 = after all
		after     float64
		edge      bool
	}{
		{"by its odometer", "2024-01-11,1500", 1, 0.75, false},
		{"at the fill's reading", "2024-01-08,1400", 1, 1, false},
		{"just before the fill", "2024-01-08,1390", 0, 10. / 400, false},
		{"by its date, at noon", "2024-01-11,", 1, 0.5, false}, // three and a half of seven days
		{"by its time", "2024-01-09T18:00,", 1, 1 - 1.75/7, false},
		{"on the day of a fill", "2024-01-15,", 2, 1, true},
		{"on the first day", "2024-01-01,", 0, 1, true},
		{"on the last day", "2024-01-22,", 3, 0, true},
		{"before the first fill", "2023-12-20,", 0, 1, false},
		{"before the first reading", "2023-12-20,800", 0, 1, false},
		{"after the last fill", "2024-03-01,", 3, 0, false},
		{"after the last reading", "2024-03-01,2300", 3, 0, false},
		{"beyond the log", "2031-01-01,", 3, 0, false},
		// where date and odometer contradict each other the date counts, and no fill loses its place
		{"with a digit slipped down", "2024-01-18,1300", 2, 0.5, false},
		{"with a digit slipped up", "2024-01-04,1900", 0, 0.5, false},
		{"read before the fill, done a day after", "2024-01-09,1395", 1, 5.5 / 7, false},
	} {
		l := folder{fills: weekly, work: "id,date,odometer_km,kind,area\njob," + c.row + ",repair,fuel"}.build(t)
		j := l.Jobs[0]
		if len(l.Tanks) != 3 {
			t.Errorf("%s: %d tanks, want 3", c.name, len(l.Tanks))
		}
		if j.Tank != c.tank || j.Edge != c.edge {
			t.Errorf("%s: tank %d, edge %v; want %d, %v", c.name, j.Tank, j.Edge, c.tank, c.edge)
		}
		for i, k := range l.Tanks {
			if (len(k.Work) == 1) != (i == c.tank) {
				t.Errorf("%s: tank %d has %d jobs", c.name, i, len(k.Work))
			}
		}
		if j.Tank < 3 && len(l.Tanks[j.Tank].Work) == 1 {
			if s := l.Tanks[j.Tank].Work[0]; !near(s.After, c.after) {
				t.Errorf("%s: share %+v, want %v after", c.name, s, c.after)
			}
		}
	}
}

// A job in a gap belongs to the first tank after it, which was all driven since.
func TestJobInAGap(t *testing.T) {
	l := folder{fills: `date,odometer_km,volume_l,missed
		2024-01-01,1000,40,
		2024-01-08,1400,40,
		2024-01-22,2200,40,yes
		2024-01-29,2600,40,`, work: "id,date,odometer_km,kind,area\njob,2024-01-12,1600,repair,fuel"}.build(t)
	expectTanks(t, l, span{2, 3, 400, 40}, span{4, 5, 400, 40})
	if w := l.Tanks[1].Work; len(w) != 1 || w[0].After != 1 || l.Jobs[0].Tank != 1 {
		t.Errorf("work %+v, job in tank %d", w, l.Jobs[0].Tank)
	}
}

func TestMeasurementsAreNoWork(t *testing.T) {
	l := folder{fills: weekly, work: "id,date,odometer_km,kind,area\nlook,2024-01-11,1500,measure,ignition"}.build(t)
	if len(l.Jobs) != 1 || l.Jobs[0].Tank != 1 || len(l.Tanks[1].Work) != 0 {
		t.Errorf("jobs %+v, work %+v", l.Jobs, l.Tanks[1].Work)
	}
}

func TestTwoJobsInOneTank(t *testing.T) {
	l := folder{fills: weekly, work: `id,date,odometer_km,kind,area,idle_min,fuel_lost_l
		late,2024-01-13,1700,adjust,ignition,20,
		early,2024-01-09,1450,repair,fuel,,1.5`}.build(t)
	if len(l.Tanks[1].Work) != 2 || l.Jobs[0].ID != "early" || l.Jobs[1].ID != "late" {
		t.Fatalf("work %+v of jobs %v, %v", l.Tanks[1].Work, l.Jobs[0].ID, l.Jobs[1].ID)
	}
	expect(t, "early", l.Tanks[1].Work[0].After, 350./400)
	expect(t, "late", l.Tanks[1].Work[1].After, 100./400)
	expect(t, "spilt", l.Jobs[0].Spilt, 1.5)
	expect(t, "idled", l.Jobs[1].Idle, 20)
}

func trips(t *testing.T, rows string) []tank.Tank {
	t.Helper()
	return folder{fills: weekly, trips: rows}.build(t).Tanks
}

// A drive past the pump counts into both tanks, each by its part of the road.
func TestTripOverTwoTanks(t *testing.T) {
	k := trips(t, `date,odometer_start_km,odometer_end_km,road,air_c,cold_starts,idle_min,load_kg
		2024-01-08,1300,1500,open,5,4,10,80`)
	for i := range 2 {
		c := k[i].Conditions
		expect(t, "noted", c.Noted, 100)
		expect(t, "open road", c.Road[tank.OpenRoad], 100)
		expect(t, "starts", c.Starts, 2)
		expect(t, "idling", c.IdleMin, 5)
		expect(t, "cold", c.Cold, 100*15)
		expect(t, "load", c.Load, 100*80)
		expect(t, "air", k[i].AirC(), 5)
		expect(t, "share", k[i].NotedShare(), 0.25)
	}
	if k[2].Conditions.Noted != 0 || k[2].NotedShare() != 0 {
		t.Error("the third tank has a share")
	}
}

// A drive without a reading is placed by its date, as far as that tank has room.
func TestTripsWithoutOdometer(t *testing.T) {
	k := trips(t, `date,distance_km,road
		2024-01-03,150,town
		2024-01-08,100,town
		2024-01-09,300,open
		2024-01-10,300,open
		2023-12-01,70,town
		2024-02-20,70,town`)
	expect(t, "first tank, its closing day included", k[0].Conditions.Noted, 250)
	expect(t, "second tank, no more than it holds", k[1].Conditions.Noted, 400)
	expect(t, "third tank", k[2].Conditions.Noted, 0)
}

// Two of start, end and distance are enough.
func TestTripsWithTwoOfThree(t *testing.T) {
	k := trips(t, `date,odometer_start_km,odometer_end_km,distance_km,road
		2024-01-03,1100,,60,town
		2024-01-10,,1500,50,town
		2024-01-17,1900,1940,,town`)
	for i, want := range []float64{60, 50, 40} {
		expect(t, "noted", k[i].Conditions.Noted, want)
		expect(t, "town", k[i].Conditions.Road[tank.Town], want)
	}
}

// A drive noted twice makes no more than the whole tank.
func TestTripsNotedTwice(t *testing.T) {
	k := trips(t, `date,odometer_start_km,odometer_end_km,road,air_c
		2024-01-03,1000,1400,open,10
		2024-01-03,1000,1400,town,20`)
	expect(t, "share", k[0].NotedShare(), 1)
	expect(t, "town", k[0].Town(), 0.5)
	expect(t, "air", k[0].AirC(), 15)
}

// The pump's note speaks where no trip does.
func TestTheTanksOwnNote(t *testing.T) {
	k := folder{fills: `date,odometer_km,volume_l,town_share,short_trips,pace
		2024-01-01,1000,40,,,
		2024-01-08,1400,40,60,most,brisk
		2024-01-15,1800,40,60,,`, trips: "date,odometer_start_km,odometer_end_km,road\n2024-01-10,1400,1500,open"}.build(t).Tanks
	expect(t, "town by the pump's note", k[0].Town(), 0.6)
	expect(t, "town by the trips, and by the note for the rest", k[1].Town(), 0.75*0.6)
	if c := k[0].Conditions; c.Short != "most" || c.Pace != "brisk" {
		t.Errorf("short %q, pace %q", c.Short, c.Pace)
	}
	expect(t, "days", k[0].Conditions.Days, 7)
}

package prove

import (
	"math"
	"testing"
	"time"

	"brimlog/ingest/book"
	"brimlog/ingest/quantity"
	"brimlog/ingest/tank"
)

// An outing is a drive, or a fill where it is none, with the grades of two symptoms.
type outing struct {
	day           int
	low, high     book.Grade
	fill, started bool
}

// outings are a log with a job on day 50: tanks of ten days, and drives in them.
func outings(all ...outing) *tank.Log {
	u, b := quantity.Unknown, &book.Book{}
	b.Vehicle.Odometer.Correction, b.Vehicle.Odometer.Unit = 1, "km"
	date := func(day int) book.Moment {
		return book.Moment{Time: time.Date(2025, 1, 1, 12, 0, 0, 0, time.UTC).AddDate(0, 0, day), Timed: true}
	}
	notes := map[int]outing{}
	for _, o := range all {
		if o.fill {
			notes[o.day] = o
			continue
		}
		t := book.Trip{Date: date(o.day), Start: 1000 + 40*float64(o.day), Km: 10, End: 1010 + 40*float64(o.day), AirC: u, ColdStarts: 0, IdleMin: u, CruiseKmh: u, LoadKg: u, TowKg: u}
		if o.started {
			t.ColdStarts = 1
		}
		t.Symptoms[book.WeakLow], t.Symptoms[book.WeakHigh] = o.low, o.high
		b.Trips = append(b.Trips, t)
	}
	for day := 0; day <= 100; day += 10 {
		b.Fills = append(b.Fills, book.Fill{Date: date(day), Odometer: 1000 + 40*float64(day), Litres: 44, Full: true, Gauge: u, Cost: u, TownShare: u,
			WeakLow: notes[day].low, WeakHigh: notes[day].high})
	}
	b.Jobs = []book.Job{{ID: "job", Date: date(50), Kind: "repair", Areas: []string{"ignition"}, Odometer: u, IdleMin: u, FuelLostL: u}}
	return tank.Build(b)
}

// By hand: points none 0, trace 1, moderate 2, heavy 4, means over the drives that judged the symptom.
func TestHowItDrovePerSymptom(t *testing.T) {
	l := outings(
		outing{day: 41, low: book.Moderate, high: book.None}, outing{day: 43, low: book.Heavy}, outing{day: 45, low: book.Moderate, high: book.Trace},
		outing{day: 46, low: book.Moderate}, outing{day: 47, low: book.Moderate}, outing{day: 48, low: book.Moderate}, outing{day: 49, low: book.Moderate},
		outing{day: 51, low: book.None, high: book.None}, outing{day: 53, low: book.Trace}, outing{day: 55, low: book.None, high: book.Trace},
		outing{day: 56, low: book.None}, outing{day: 57, low: book.None}, outing{day: 58, low: book.None}, outing{day: 59, low: book.None})
	d := Driveability(l, Judged(l), 0)
	if len(d.Symptoms) != 2 || d.Verdict != "better" {
		t.Fatalf("%+v", d)
	}
	low, high := d.Symptoms[0], d.Symptoms[1]
	if low.Symptom != book.WeakLow || math.Abs(low.Before-16.0/7) > 1e-12 || math.Abs(low.After-1.0/7) > 1e-12 || low.DrivesBefore != 7 || low.DrivesAfter != 7 || !low.Clear {
		t.Errorf("weak low: %+v, want 16/7 before and 1/7 since, clearly", low)
	}
	if high.Before != 0.5 || high.After != 0.5 || high.DrivesBefore != 2 || high.Clear {
		t.Errorf("weak high: %+v, want a half on either side", high)
	}
	if GradeOf(low.Before) != book.Moderate || GradeOf(low.After) != book.None {
		t.Errorf("weak low: %v before, %v since", GradeOf(low.Before), GradeOf(low.After))
	}
}

// An owner without trip notes writes at the pump how the tank drove; it counts as a drive does.
func TestPumpNotesCount(t *testing.T) {
	l := outings(outing{day: 10, fill: true, low: book.Moderate}, outing{day: 20, fill: true, low: book.Moderate}, outing{day: 30, fill: true, low: book.Heavy}, outing{day: 40, fill: true, low: book.Moderate},
		outing{day: 60, fill: true, low: book.None}, outing{day: 70, fill: true, low: book.None}, outing{day: 80, fill: true, low: book.Trace}, outing{day: 90, fill: true, low: book.None})
	d := Driveability(l, Judged(l), 0)
	if s := d.Symptoms; len(s) != 1 || s[0].Before != 2.5 || s[0].After != 0.25 {
		t.Errorf("%+v, want 2.5 before and 0.25 since", s)
	}
}

// What a trip of the tank says of a symptom overrules the pump's note of it, and of it alone.
func TestTripsOverruleThePump(t *testing.T) {
	l := outings(outing{day: 33, low: book.None}, outing{day: 40, fill: true, low: book.Heavy, high: book.Trace}, outing{day: 63, low: book.None})
	var low, high []book.Grade
	for _, j := range Judged(l) {
		low, high = append(low, j.Symptoms[book.WeakLow]), append(high, j.Symptoms[book.WeakHigh])
	}
	if len(low) != 3 || low[1] != book.NotJudged || high[1] != book.Trace {
		t.Errorf("weak low %v, weak high %v: want the pump's heavy left out and its trace kept", low, high)
	}
}

func TestJudgedIsInTheOrderOfDates(t *testing.T) {
	l := outings(outing{day: 20, fill: true, low: book.Trace}, outing{day: 15, high: book.None}, outing{day: 25, high: book.None})
	all := Judged(l)
	for i := 1; i < len(all); i++ {
		if all[i].Date.Before(all[i-1].Date.Time) {
			t.Errorf("%v stands after %v", all[i].Date, all[i-1].Date)
		}
	}
	if len(all) != 3 || all[1].Symptoms[book.WeakLow] != book.Trace {
		t.Errorf("%+v", all)
	}
}

// A job that only cold starts came before, and only warm ones after, can't be decided by them.
func TestColdAndWarmStartsAreNotCompared(t *testing.T) {
	l := outings(outing{day: 41, low: book.Heavy, started: true}, outing{day: 42, low: book.Heavy, started: true}, outing{day: 61, low: book.None}, outing{day: 62, low: book.None})
	if d := Driveability(l, Judged(l), 0); d.Verdict != "undecided" || d.Symptoms[0].Clear {
		t.Errorf("%+v, want undecided", d)
	}
}

// More cold mornings since are no worse engine: better among the warm starts and among the cold ones is better, though the
// plain mean rose.
func TestMoreColdStartsAreNoWorseEngine(t *testing.T) {
	var all []outing
	for i := range 18 {
		all = append(all, outing{day: 10 + i, low: book.Trace}, outing{day: 70 + i, low: book.Trace, started: true})
	}
	for i := range 6 {
		all = append(all, outing{day: 30 + i, low: book.Heavy, started: true}, outing{day: 90 + i, low: book.None})
	}
	l := outings(all...)
	d := Driveability(l, Judged(l), 0)
	if d.Verdict != "better" || !(d.After < d.Before) {
		t.Errorf("%+v, want better", d)
	}
}

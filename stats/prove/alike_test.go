package prove

import (
	"math/rand/v2"
	"slices"
	"testing"
	"time"

	"brimlog/ingest/book"
	"brimlog/ingest/quantity"
	"brimlog/ingest/tank"
)

// autumn is a sound engine's log through the cooling half of the year, a drive every other day begun cold: the colder the
// morning, the likelier a trace of hesitation. A job lies in the middle; worse is how much likelier it makes one.
func autumn(rng *rand.Rand, worse float64) *tank.Log {
	b := &book.Book{}
	b.Vehicle.Odometer.Correction, b.Vehicle.Odometer.Unit = 1, "km"
	u := quantity.Unknown
	start := time.Date(2025, 8, 1, 8, 0, 0, 0, time.UTC)
	for day := range 160 {
		date := book.Moment{Time: start.AddDate(0, 0, day), Timed: true}
		at := 1000 + 40*float64(day)
		if day%10 == 0 {
			b.Fills = append(b.Fills, book.Fill{Date: date, Odometer: at, Litres: 44, Full: true, Gauge: u, Cost: u, TownShare: u})
		}
		if day%2 == 1 {
			air := 20 - 0.13*float64(day) + 4*rng.NormFloat64()
			often := min(max(0.05+0.04*(15-air), 0.05), 0.7)
			if day > 80 {
				often += worse
			}
			t := book.Trip{Date: date, Start: at, Km: 10, End: at + 10, AirC: air, ColdStarts: 1, IdleMin: u, CruiseKmh: u, LoadKg: u, TowKg: u}
			t.Symptoms[book.Hesitation] = book.None
			if rng.Float64() < often {
				t.Symptoms[book.Hesitation] = book.Trace
			}
			b.Trips = append(b.Trips, t)
		}
	}
	b.Jobs = []book.Job{{ID: "job", Date: book.Moment{Time: start.AddDate(0, 0, 80), Timed: true}, Kind: "service", Areas: []string{"fuel"}, Odometer: u, IdleMin: u, FuelLostL: u}}
	return tank.Build(b)
}

// verdicts counts how many of so many logs are told to drive worse or better since the job.
func verdicts(logs int, worse float64) map[string]int {
	rng := rand.New(rand.NewPCG(5, 8))
	n := map[string]int{}
	for range logs {
		l := autumn(rng, worse)
		n[Driveability(l, Judged(l), 0).Verdict]++
	}
	return n
}

// A job in October must not be blamed for November's mornings: by the kind of start alone it was in 31 of 100 such logs.
func TestAutumnIsNoWorseEngine(t *testing.T) {
	const logs = 300
	n := verdicts(logs, 0)
	t.Logf("%v", n)
	if wrong := n["worse"] + n["better"]; wrong > logs*4/100 {
		t.Errorf("%d of %d sound engines were told to drive otherwise since a job in autumn: %v", wrong, logs, n)
	}
}

// What a job truly did is still seen through the season.
func TestWorseIsSeenThroughTheSeason(t *testing.T) {
	const logs = 100
	if n := verdicts(logs, 0.6); n["worse"] < logs*90/100 || n["better"] > 0 {
		t.Errorf("%v of %d, want nearly all to be found worse", n, logs)
	}
}

// Half of a log's drives on a fast road, where more symptoms are judged, are no worse engine than a quarter.
func TestMoreOpenRoadsAreNoWorseEngine(t *testing.T) {
	var all []outing
	for i := range 30 {
		before, after := outing{day: 15 + i, low: book.None}, outing{day: 60 + i, low: book.None}
		if i%4 == 0 {
			before.high = book.Moderate
		}
		if i%2 == 0 {
			after.high = book.Moderate
		}
		all = append(all, before, after)
	}
	l := outings(all...)
	for i := range l.Trips {
		l.Trips[i].AirC = 12
	}
	if d := Driveability(l, Judged(l), 0); d.Verdict != "undecided" || d.Before != d.After {
		t.Errorf("%+v, want undecided", d)
	}
}

// Where the air is not noted the place's months tell it, and where they are not given the calendar.
func TestWeatherOf(t *testing.T) {
	day := func(m time.Month) book.Moment { return book.Moment{Time: time.Date(2025, m, 9, 0, 0, 0, 0, time.UTC)} }
	months := []float64{4, 4, 6, 9, 12, 15, 17, 17, 14, 11, 7, 5}
	u := quantity.Unknown
	got := []weather{
		weatherOf(7, nil, day(7)), weatherOf(u, months, day(11)), weatherOf(-8, months, day(7)), weatherOf(1, nil, day(1)), weatherOf(33, nil, day(1)),
		weatherOf(u, nil, day(12)), weatherOf(u, nil, day(10)), weatherOf(u, nil, day(8)),
	}
	if want := []weather{1, 1, 0, 0, 4, aroundNewYear, betweenTimes, aroundMidyear}; !slices.Equal(got, want) {
		t.Errorf("%v, want %v", got, want)
	}
}

// What was driven a year later tells nothing of a job.
func TestFarDrivesAreLeftOut(t *testing.T) {
	l := outings(outing{day: 45, low: book.None}, outing{day: 55, low: book.None})
	near := Judged(l)
	far := Judgement{Date: book.Moment{Time: l.Jobs[0].Date.AddDate(0, 6, 0)}, Tank: l.Jobs[0].Tank + tanksKept + 1, Symptoms: book.Symptoms{book.WeakLow: book.Heavy}}
	if d := Driveability(l, append(near, far), 0); d.Symptoms[0].DrivesAfter != 1 {
		t.Errorf("%+v, want one drive since", d.Symptoms)
	}
}

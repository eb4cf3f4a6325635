package charts

import (
	"fmt"
	"math"
	"math/rand/v2"
	"time"

	"brimlog/ingest/book"
	"brimlog/ingest/quantity"
	"brimlog/stats"
)

// A drawn log: figures as a review might carry them, from a known course of levels, so that the page has something true to show.
type drawn struct {
	tanks int
	start time.Time
	jobs  []drawnJob
	show  book.Show
	seed  uint64
}

type drawnJob struct {
	id, what, kind, area string
	tank                 int
	pct                  float64 // what it changes
	cost                 float64
}

// heron is a log of seventy tanks and six jobs.
func heron() *stats.Review {
	d := drawn{tanks: 70, start: time.Date(2022, 3, 5, 0, 0, 0, 0, time.UTC), seed: 11,
		show: book.Show{Economy: "mpg_uk", Distance: "mi", Volume: "l", Currency: "GBP"},
		jobs: []drawnJob{
			{"distributor", "Distributor overhauled, timing set by ear", "repair", "ignition", 17, 8, 64},
			{"strobe", "Timing set with a strobe at 10 degrees", "adjust", "ignition", 27, -7.5, 0},
			{"compression", "Compression test, all six", "measure", "compression", 31, 0, 0},
			{"cam-fit", "Milder camshaft and new followers", "fit", "camshaft/valves", 38, -3.6, 412.5},
			{"carb-service", "Carburettor stripped, new needle and jets", "service", "fuel", 50, 0.4, 58},
			{"tyres", "Four new radials", "fit", "tyres", 66, -1, 298},
		}}
	r := d.review()
	r.Book = "Heron"
	r.Expect = foretold(9.4, 41, 9)
	r.Expect.Caution = []string{"the cam is far out"}
	r.Tanks[51].LPer100Km *= 1.9 // off the scale
	r.Watch = vigilOver(r.Tanks, map[int]string{11: "thirsty", 20: "frugal", 30: "short_fill", 40: "over_fill", 51: "entry_slip"})
	r.Watch.Alarm = true
	r.Watch.Shifts = []stats.Shift{
		{FromDate: r.Tanks[22].FromDate, ToDate: r.Tanks[25].ToDate, ChangePct: -4.2, LowPct: -7.1, HighPct: -1.4, OddsChanged: 31, Jobs: []string{"strobe"}, SinceTank: 24},
		{FromDate: r.Tanks[58].FromDate, ToDate: r.Tanks[62].ToDate, ChangePct: 6.8, LowPct: 3.9, HighPct: 9.7, OddsChanged: 240, Jobs: []string{}, SinceTank: 61},
	}
	r.Watch.Next.ClearBelow = 9.9
	r.Notes = []string{"38 % of the distance has no note of the driving: it widens every answer", "the key body.mass_kg is missing from vehicle.toml"}
	suggestion := "52.31"
	r.Problems = []book.Problem{
		{Place: book.Place{File: "fills.csv", Line: 24}, Column: "volume_l", Kind: "decimal_slip", Severity: "doubt", Message: "523.1 is more than the tank holds", Suggestion: &suggestion},
		{Place: book.Place{File: "trips.csv", Line: 88}, Column: "odometer_start_mi", Kind: "bad_value", Severity: "error", Message: "want a number, got \"abt 48000\": write the odometer's figure or leave the cell empty"},
	}
	return r
}

// tiny is a log of three tanks and one job.
func tiny() *stats.Review {
	d := drawn{tanks: 3, start: time.Date(2024, 1, 6, 0, 0, 0, 0, time.UTC), seed: 3,
		show: book.Show{Economy: "l_100km", Distance: "km", Volume: "l", Currency: "EUR"},
		jobs: []drawnJob{{"plugs", "New plugs", "service", "ignition", 2, -2, 31}}}
	r := d.review()
	r.Book = "Tern"
	r.Expect = foretold(11.5, 3, 0)
	r.Expect.Readings, r.Expect.Timed = nil, nil
	r.Watch = vigilOver(r.Tanks, nil)
	r.Watch.Next.AlarmAbove = 14.2
	return r
}

// empty is a log with a vehicle's name and nothing else.
func empty() *stats.Review {
	return &stats.Review{Head: stats.Head{Book: "Wren"}, Show: book.Show{Economy: "mpg_uk", Distance: "mi", Volume: "l", Currency: "GBP"},
		Watch: &stats.Watch{Tanks: []stats.WatchedTank{}, Shifts: []stats.Shift{}}}
}

// vigilOver is what the watch might say of tanks: some of which, by index, stand out.
func vigilOver(tanks []stats.Tank, standing map[int]string) *stats.Watch {
	unknown := Figure(quantity.Unknown)
	w := &stats.Watch{Shifts: []stats.Shift{}, Next: &stats.NextTank{ExpectedLow: 10.4, ExpectedMid: 11.2, ExpectedHigh: 12.1, AlarmAbove: unknown, ClearBelow: unknown}}
	for i, t := range tanks {
		out := stats.WatchedTank{Number: t.Number, ToDate: t.ToDate, LPer100Km: t.LPer100Km, ExpectedLow: t.Level.Mid * 0.93, ExpectedHigh: t.Level.Mid * 1.07, Score: 0.4}
		if r, ok := standing[i]; ok {
			out.Reading, out.Score = &r, Figure(3.5+float64(i%7)/3)
		}
		w.Tanks = append(w.Tanks, out)
	}
	return w
}

// huge is a log of thirty years: 1,560 tanks and sixty jobs.
func huge() *stats.Review {
	d := drawn{tanks: 1560, start: time.Date(1994, 1, 8, 0, 0, 0, 0, time.UTC), seed: 5,
		show: book.Show{Economy: "mpg_us", Distance: "mi", Volume: "gal_us", Currency: "USD"}}
	kinds := []string{"fit", "adjust", "repair", "service", "measure"}
	areas := []string{"camshaft", "ignition", "fuel", "intake", "exhaust", "cooling"}
	for i := range 60 {
		d.jobs = append(d.jobs, drawnJob{fmt.Sprintf("job-of-%d-%d", 1994+i/2, i%2+1), "Something done in the usual way, with the usual parts", kinds[i%5], areas[i%6],
			20 + i*25, float64(i*7%11) - 5, float64(20 + 13*i)})
	}
	r := d.review()
	r.Book = "Thirty years"
	r.Watch = vigilOver(r.Tanks, map[int]string{700: "entry_slip", 1550: "thirsty"})
	return r
}

func (d drawn) review() *stats.Review {
	r := &stats.Review{Show: d.show}
	rnd := rand.New(rand.NewPCG(d.seed, 7))
	level, day, brim := 11.9, d.start, 0.0
	next := 0
	for i := range d.tanks {
		for next < len(d.jobs) && d.jobs[next].tank == i {
			level *= 1 + d.jobs[next].pct/100
			next++
		}
		if i > 58 && d.tanks == 70 {
			level *= 1.006 // a brake that starts to drag
		}
		from := day
		day = day.AddDate(0, 0, 7+rnd.IntN(8))
		if d.tanks > 1000 {
			day = from.AddDate(0, 0, 7)
		}
		r.Tanks = append(r.Tanks, drawTank(rnd, i, level, from, day, &brim))
	}
	for _, j := range d.jobs {
		r.Jobs = append(r.Jobs, drawJob(rnd, j, r.Tanks))
	}
	if n := len(r.Tanks); n > 0 {
		r.AsOf = r.Tanks[n-1].ToDate
	}
	return r
}

func drawTank(rnd *rand.Rand, i int, level float64, from, to time.Time, brim *float64) stats.Tank {
	cold := math.Cos(2 * math.Pi * float64(from.YearDay()-15) / 365)
	air := 10.5 - 6.5*cold + rnd.NormFloat64()
	town := 0.2 + 0.5*rnd.Float64()
	km := 380 + 120*rnd.Float64()
	usual := level * (1 + 0.02*rnd.NormFloat64())
	before := *brim
	*brim = 0.9 * rnd.NormFloat64()
	litres := km/100*usual*(1+0.055*cold)*(1+0.12*(town-0.45)) + *brim - before
	l := 100 * litres / km
	t := stats.Tank{
		Number: i + 1, FromDate: from.Format(time.DateOnly), ToDate: to.Format(time.DateOnly), FromLine: i + 2, ToLine: i + 3,
		DistanceKm: Figure(km), FuelL: Figure(litres), LPer100Km: Figure(l), MpgUK: Figure(282.481 / l), MpgUS: Figure(235.215 / l),
		SdPct: Figure(100 * 1.2 / litres), AirC: Figure(air), TownShare: Figure(town), NotedShare: Figure(rnd.Float64()), Cost: Figure(litres * 1.48),
		LikeForLike: stats.Range{Low: Figure(usual * 0.965), Mid: Figure(usual), High: Figure(usual * 1.035)},
		Level:       stats.Range{Low: Figure(level * (1 - 0.03/math.Sqrt(float64(1+i%20)/4+1))), Mid: Figure(level), High: Figure(level * (1 + 0.03/math.Sqrt(float64(1+i%20)/4+1)))},
	}
	switch {
	case i%23 == 7:
		t.Partials = 1
	case i%19 == 4:
		t.AirC, t.Cost, t.TownShare = Figure(quantity.Unknown), Figure(quantity.Unknown), Figure(quantity.Unknown)
	case i%11 == 3:
		t.Note = "Up to the coast and back with the trailer, headwind both ways"
	case i%7 == 2:
		t.Note = "pump clicked off early"
	}
	return t
}

func drawJob(rnd *rand.Rand, j drawnJob, tanks []stats.Tank) stats.Job {
	unknown := Figure(quantity.Unknown)
	t := tanks[min(j.tank, len(tanks)-1)]
	job := stats.Job{ID: j.id, Date: t.FromDate, What: j.what, Kind: j.kind, Area: j.area, Line: j.tank%50 + 2, Cost: Figure(j.cost),
		ChangePct: unknown, LowPct: unknown, HighPct: unknown, RawChangePct: unknown, AgainstHealthyPct: unknown, ChanceLessFuel: unknown,
		OddsChanged: unknown, SavingPer1000Km: unknown, PaysBackKm: unknown, TanksBefore: j.tank, TanksAfter: len(tanks) - j.tank,
		Before:       stats.Range{Low: unknown, Mid: unknown, High: unknown},
		After:        stats.Range{Low: unknown, Mid: unknown, High: unknown},
		Driveability: stats.Driveability{Before: unknown, After: unknown}}
	if j.cost == 0 {
		job.Cost = unknown
	}
	if j.kind == "measure" {
		return job
	}
	job.Before, job.After = tanks[max(0, j.tank-1)].Level, t.Level
	for k := 0; k < min(40, len(tanks)-j.tank); k++ {
		width := 1.65 * 5 / math.Sqrt(float64(k+1))
		mid := j.pct + width/3*rnd.NormFloat64()/math.Sqrt(float64(k+1))
		odds := math.Min(1e6, math.Exp(j.pct*j.pct*float64(k+1)/30-0.5*math.Log(float64(k+2))))
		job.Path = append(job.Path, stats.PathTank{Tank: j.tank + 1 + k, ToDate: tanks[j.tank+k].ToDate, ChangePct: Figure(mid),
			LowPct: Figure(mid - width), HighPct: Figure(mid + width), OddsChanged: Figure(odds), Verdict: drawVerdict(mid, width, odds)})
	}
	last := job.Path[len(job.Path)-1]
	verdict := last.Verdict
	job.Verdict, job.ChangePct, job.LowPct, job.HighPct, job.OddsChanged = &verdict, last.ChangePct, last.LowPct, last.HighPct, last.OddsChanged
	job.RawChangePct, job.ChanceLessFuel = last.ChangePct+4, Figure(0.5-float64(last.ChangePct)/20)
	if j.pct < 0 {
		job.SavingPer1000Km = Figure(-j.pct)
		job.PaysBackKm = Figure(1000 * j.cost / -j.pct)
	}
	tried, fooled, togo, better := 17, 0, 6, "better"
	job.PlaceboTried, job.PlaceboFooled = &tried, &fooled
	job.Driveability = stats.Driveability{Before: 3.4, After: 0.6, Verdict: &better}
	if verdict == "undecided" || verdict == "leaning_less" || verdict == "leaning_more" {
		job.TanksToGo = &togo
		job.ChanceWithin = []stats.Chance{{Tanks: 2, Chance: 0.14}, {Tanks: 4, Chance: 0.38}, {Tanks: 8, Chance: 0.66}}
		job.Notes = []string{"may be how you drive since: the first 800 km after a job are counted with care"}
	}
	return job
}

func drawVerdict(mid, width, odds float64) string {
	switch {
	case odds >= 20 && mid < 0:
		return "less_fuel"
	case odds >= 20:
		return "more_fuel"
	case math.Abs(mid)+width*0.78 < 3:
		return "no_change"
	case odds >= 3 && mid < 0:
		return "leaning_less"
	case odds >= 3:
		return "leaning_more"
	}
	return "undecided"
}

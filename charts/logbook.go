package charts

import (
	"math"
	"regexp"
	"sort"
	"time"

	"brimlog/ingest/quantity"
	"brimlog/stats"
)

// A logbook is a review made ready for showing: jobs numbered by date, tanks with their days, and what the charts will need.
type logbook struct {
	*stats.Review
	unit  unit // the owner's
	tanks []tank
	jobs  []job // oldest first
	data  payload
}

// A payload is what the page's script is given.
type payload struct {
	Units  []unit             `json:"units"`
	Unit   int                `json:"unit"` // the owner's
	Money  currency           `json:"money"`
	Tanks  []row              `json:"tanks"` // as tankRow writes them
	Turns  []row              `json:"turns"` // a tank's place from 0, and the day within it on which a job was done
	Charts map[string]drawing `json:"charts"`
	Jobs   []evidence         `json:"jobs"` // in the order of their numbers
}

// A tank is a tank with its days, counted from 1970; NaN where a date can't be read.
type tank struct {
	stats.Tank
	from, to float64
	watched  *stats.WatchedTank // nil where the watch was not asked
}

func (t tank) middle() float64 { return (t.from + t.to) / 2 }

// A job is a job with its number on the page and its day.
type job struct {
	stats.Job
	Number int
	day    float64
}

// tankRow is a tank as chart and table share it: days from and to, L/100 km, its uncertainty in percent, like for like and level (each low,
// middle, high), km, litres, °C; then, where the watch was asked, what was expected (low, high) and the reading.
func tankRow(t tank) row {
	like, level := t.LikeForLike, t.Level
	r := row{Figure(t.from), Figure(t.to), cut(t.LPer100Km, 5), cut(t.SdPct, 1), like.Low, like.Mid, like.High, level.Low, level.Mid, level.High, cut(t.DistanceKm, 2), cut(t.FuelL, 3), cut(t.AirC, 1)}
	if w := t.watched; w != nil {
		r = append(r, w.ExpectedLow, w.ExpectedHigh, placed(readingOf(w)))
	}
	return r
}

// placed is a place in a list as it travels: unknown for none.
func placed(i int) Figure {
	if i < 0 {
		return Figure(quantity.Unknown)
	}
	return Figure(i)
}

// shown is how many decimals of a level in L/100 km travel, and stand behind the text, so that chart and text cannot differ.
const shown = 3

func cutRange(r stats.Range) stats.Range {
	return stats.Range{Low: cut(r.Low, shown), Mid: cut(r.Mid, shown), High: cut(r.High, shown)}
}

func open(r *stats.Review) *logbook {
	l := &logbook{Review: r}
	l.data.Units, l.data.Unit = units(r.Show)
	l.unit = l.data.Units[l.data.Unit]
	l.data.Money = currencyOf(r.Show.Currency)
	l.data.Charts = map[string]drawing{}
	seen := map[int]*stats.WatchedTank{}
	if r.Watch != nil {
		for _, w := range r.Watch.Tanks {
			w.ExpectedLow, w.ExpectedHigh = cut(w.ExpectedLow, shown), cut(w.ExpectedHigh, shown)
			seen[w.Number] = &w
		}
	}
	for _, t := range r.Tanks {
		t.LikeForLike, t.Level = cutRange(t.LikeForLike), cutRange(t.Level)
		l.tanks = append(l.tanks, tank{Tank: t, from: day(t.FromDate), to: day(t.ToDate), watched: seen[t.Number]})
		l.data.Tanks = append(l.data.Tanks, tankRow(l.tanks[len(l.tanks)-1]))
	}
	for _, j := range r.Jobs {
		l.jobs = append(l.jobs, job{Job: j, day: day(j.Date)})
	}
	sort.SliceStable(l.jobs, func(a, b int) bool { return l.jobs[a].Date < l.jobs[b].Date })
	for i := range l.jobs {
		l.jobs[i].Number = i + 1
	}
	l.data.Turns = turns(l)
	return l
}

// since is the distance driven in the whole tanks after a day, in km, as far as it is known.
func (l *logbook) since(day float64) float64 {
	sum := 0.0
	for _, t := range l.tanks {
		if t.from >= math.Floor(day) {
			sum += quantity.Or(float64(t.DistanceKm), 0)
		}
	}
	return sum
}

// day reads a date, with or without a time, as days since 1970.
func day(date string) float64 {
	for _, layout := range []string{"2006-01-02", "2006-01-02T15:04", "2006-01-02T15:04:05"} {
		if t, err := time.Parse(layout, date); err == nil {
			return round(float64(t.Unix())/86400, 2)
		}
	}
	return math.NaN()
}

// isoDate is a date within a text, with or without a time; not one that is part of a name.
var isoDate = regexp.MustCompile(`(^|[\s(“,;:])(\d{4}-\d\d-\d\d(?:T\d\d:\d\d(?::\d\d)?)?)($|[\s)”,;:.])`)

// datesSpoken writes the dates within a text as the rest of the page does.
func datesSpoken(s string) string {
	return isoDate.ReplaceAllStringFunc(s, func(found string) string {
		m := isoDate.FindStringSubmatch(found)
		return m[1] + spoken(m[2]) + m[3]
	})
}

// spoken writes a date as people say it: 16 Apr 2023. One that can't be read stays as it is.
func spoken(date string) string {
	d := day(date)
	if math.IsNaN(d) {
		return plain(date)
	}
	return time.Unix(int64(math.Floor(d))*86400, 0).UTC().Format("2 Jan 2006")
}

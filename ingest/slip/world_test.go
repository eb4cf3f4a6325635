package slip_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"

	"brimlog/ingest/book"
	"brimlog/ingest/quantity"
)

// A world is a vehicle, its driver and their habits, from which clean logbooks are drawn.
type world struct {
	rng                      *rand.Rand
	miles, gallons           bool
	tenths                   bool
	capacity, use            float64 // litres; litres per km
	scatter, brim, swing     float64 // of ln use; litres; of ln use over the year
	tail, holiday            bool
	kmPerDay, low            float64
	partial, missed          float64
	costs, trips, monthly    bool
	digits, told             int     // of the instrument; as vehicle.toml has it
	odometer                 float64 // km, true
	correction               float64
	replacedAt, steppedAt    int // tank; -1 for never
	step                     float64
	gapAt                    int
	shownFrom, trueFrom      float64 // km
	day                      float64
	fills, drives, jobs      [][]string
	slips                    []planted
	visits, since            int
	fuel                     float64
	price, wander, townShare float64
}

func pick[T any](r *rand.Rand, x ...T) T { return x[r.IntN(len(x))] }

func newWorld(seed uint64) *world {
	r := rand.New(rand.NewPCG(seed, 77))
	unit := r.IntN(3)
	w := &world{rng: r, miles: unit != 2, gallons: unit == 1, tenths: r.Float64() < 0.15,
		capacity: 35 + 55*r.Float64(), use: 0.06 + 0.14*r.Float64(), brim: 0.3 + 0.9*r.Float64(),
		scatter: pick(r, 0.025, 0.04, 0.06, 0.08), swing: pick(r, 0.0, 0.05, 0.1, 0.2), tail: r.Float64() < 0.3,
		holiday: r.Float64() < 0.3, low: 0.1 + 0.3*r.Float64(),
		kmPerDay: pick(r, 12.0, 25, 45, 80), partial: pick(r, 0.0, 0, 0.1, 0.25), missed: pick(r, 0.0, 0, 0.03),
		costs: r.Float64() < 0.5, trips: r.Float64() < 0.35, monthly: r.Float64() < 0.5,
		odometer: 8000 + 120000*r.Float64(), correction: 1, replacedAt: -1, steppedAt: -1, gapAt: -1,
		visits: 20 + r.IntN(60), since: 2012, price: 1.2 + 0.6*r.Float64(), day: float64(r.IntN(1500))}
	if r.Float64() < 0.25 {
		w.nearRollOver()
	}
	if r.Float64() < 0.1 {
		w.replacedAt = 5 + r.IntN(10)
	}
	if r.Float64() < 0.4 {
		w.steppedAt, w.step = 4+r.IntN(12), pick(r, -0.25, -0.1, 0.12, 0.25)
	}
	if r.Float64() < 0.3 {
		w.gapAt = 3 + r.IntN(15)
	}
	if r.Float64() < 0.15 {
		w.correction = 0.94 + 0.12*r.Float64()
	}
	return w
}

// nearRollOver gives the instrument five digits, and some tanks to go to the last of them.
func (w *world) nearRollOver() {
	w.digits, w.told = 5, 5
	w.odometer = w.km(1e5) - w.capacity/w.use*(3+10*w.rng.Float64())
}

// km turns a figure of the instrument into km.
func (w *world) km(x float64) float64 {
	if w.miles {
		return x * 1.609344
	}
	return x
}

// shown is what the instrument shows at a true distance.
func (w *world) shown(km float64) string {
	x := (w.shownFrom + (km-w.trueFrom)/w.correction) / w.km(1)
	if w.digits > 0 {
		x = math.Mod(x, math.Pow(10, float64(w.digits)))
	}
	if w.tenths {
		return strconv.FormatFloat(math.Floor(x*10)/10, 'f', 1, 64)
	}
	return strconv.FormatFloat(math.Floor(x), 'f', 0, 64)
}

func (w *world) volume(l float64) string {
	if w.gallons {
		return strconv.FormatFloat(l/3.785411784, 'f', 3, 64)
	}
	return strconv.FormatFloat(l, 'f', 2, 64)
}

// litresOf turns a figure of the file into litres.
func (w *world) litresOf(x float64) float64 {
	if w.gallons {
		return x * 3.785411784
	}
	return x
}

func (w *world) unit(miles, km string) string {
	if w.miles {
		return miles
	}
	return km
}

func (w *world) date() string {
	return time.Date(w.since, 1, 1, 12, 0, 0, 0, time.UTC).Add(time.Duration(w.day * 24 * float64(time.Hour))).Format("2006-01-02")
}

// drive burns fuel until the tank is as low as it is let run, and gives the days that it took.
func (w *world) drive(visit int) {
	r := w.rng
	z := r.NormFloat64()
	if w.tail && r.Float64() < 0.1 {
		z *= 2.5
	}
	w.wander = 0.3*w.wander + w.scatter*z
	w.townShare = clamp01(w.townShare + 0.3*r.NormFloat64())
	use := w.use * math.Exp(w.wander+w.swing*math.Cos(2*math.Pi*(w.day-15)/365))
	if w.steppedAt >= 0 && visit >= w.steppedAt {
		use *= 1 + w.step
	}
	if w.holiday && r.IntN(25) == 0 {
		use *= 1.3
	}
	target := w.fuel - w.capacity*clamp01(w.low+0.12*r.NormFloat64())
	if target < 0.15*w.capacity {
		target = min(0.8*w.fuel, 0.2*w.capacity)
	}
	km := target / use
	days := km / w.kmPerDay * math.Exp(0.35*r.NormFloat64())
	if visit == w.gapAt {
		days += 60 + 200*r.Float64()
	}
	for left := km; w.trips && left > 1; {
		leg := min(left, 10+60*r.ExpFloat64())
		at := w.odometer + km - left
		if r.Float64() < 0.6 {
			day := w.day
			w.day += days * (km - left) / km
			w.drives = append(w.drives, []string{w.date(), w.shown(at), w.shown(at + leg), pick(r, "town", "mixed", "open"), ""})
			w.day = day
		}
		left -= leg
	}
	w.odometer += km
	w.day += days
	w.fuel -= target
}

func clamp01(x float64) float64 { return min(max(x, 0.02), 0.9) }

// draw makes the logbook's rows.
func (w *world) draw() {
	r := w.rng
	w.shownFrom, w.trueFrom = w.odometer, w.odometer
	w.fuel = w.capacity
	w.addFill(0.5*w.capacity, true, false)
	for visit := 1; visit < w.visits; visit++ {
		w.drive(visit)
		if visit == w.replacedAt {
			w.jobs = append(w.jobs, []string{"clock", w.date(), w.shown(w.odometer), "fit", "odometer", "odometer_reset_to=0"})
			w.shownFrom, w.trueFrom, w.digits = 0, w.odometer, 0
		}
		if visit%17 == 9 {
			w.jobs = append(w.jobs, []string{fmt.Sprint("job-", visit), w.date(), w.shown(w.odometer), "service", "other", ""})
		}
		brim := w.capacity + w.brim*r.NormFloat64() - w.fuel
		if r.Float64() < w.partial {
			l := brim * (0.3 + 0.5*r.Float64())
			w.fuel += l
			w.addFill(l, false, false)
			continue
		}
		w.fuel += brim
		missed := r.Float64() < w.missed
		if missed {
			brim *= 0.4 + 0.4*r.Float64()
		}
		w.addFill(brim, true, missed)
	}
}

func (w *world) addFill(l float64, full, missed bool) {
	r := w.rng
	cost := ""
	if w.costs && r.Float64() < 0.9 {
		w.price *= math.Exp(0.01 * r.NormFloat64())
		p := w.price
		if r.IntN(12) == 0 {
			p *= 1.15 // at the motorway
		}
		cost = strconv.FormatFloat(l*p, 'f', 2, 64)
	}
	w.fills = append(w.fills, []string{w.date(), w.shown(w.odometer), w.volume(l), yes(full), yes(missed), cost})
}

func yes(b bool) string {
	if b {
		return "yes"
	}
	return "no"
}

// write puts the logbook into a folder.
func (w *world) write(t testing.TB) string {
	dir := t.TempDir()
	doc := fmt.Sprintf("name = \"drawn\"\n[tank]\ncapacity_l = %.0f\n[odometer]\ncorrection = %.3f\n", w.capacity, w.correction)
	if w.told > 0 {
		doc += fmt.Sprintf("digits = %d\n", w.told)
	}
	if w.monthly {
		doc += "[place]\nmonthly_c = [4, 4, 6, 9, 12, 15, 17, 17, 14, 11, 7, 5]\n"
	}
	volume := "volume_l"
	if w.gallons {
		volume = "volume_gal_us"
	}
	odometer := "odometer_" + w.unit("mi", "km")
	table := func(head []string, rows [][]string) string {
		var b strings.Builder
		for _, row := range append([][]string{head}, rows...) {
			b.WriteString(strings.Join(row, ",") + "\n")
		}
		return b.String()
	}
	save := func(name, text string) {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	save("vehicle.toml", doc)
	save("fills.csv", table([]string{"date", odometer, volume, "full", "missed", "cost"}, w.fills))
	save("trips.csv", table([]string{"date", "odometer_start_" + w.unit("mi", "km"), "odometer_end_" + w.unit("mi", "km"), "road", "air_c"}, w.drives))
	save("work.csv", table([]string{"id", "date", odometer, "kind", "area", "readings"}, w.jobs))
	return dir
}

// book is the logbook as if it had been read, with its rows' lines but without a file.
func (w *world) book() *book.Book {
	b := &book.Book{}
	b.Vehicle.Tank.CapacityL, b.Vehicle.Odometer.Unit = w.capacity, w.unit("mi", "km")
	b.Vehicle.Odometer.Digits = quantity.Unknown
	if w.told > 0 {
		b.Vehicle.Odometer.Digits = float64(w.told)
	}
	for i, row := range w.fills {
		date, _ := book.ParseMoment(row[0])
		f := book.Fill{Place: book.Place{File: book.FillsFile, Line: i + 2}, Date: date, Full: row[3] == "yes", Missed: row[4] == "yes",
			Cost: quantity.Unknown, TownShare: quantity.Unknown, Gauge: quantity.Unknown}
		f.Odometer, _ = quantity.ParseNumber(row[1])
		f.Odometer = w.km(f.Odometer)
		f.Litres, _ = quantity.ParseNumber(row[2])
		f.Litres = w.litresOf(f.Litres)
		if row[5] != "" {
			f.Cost, _ = quantity.ParseNumber(row[5])
		}
		b.Fills = append(b.Fills, f)
	}
	return b
}

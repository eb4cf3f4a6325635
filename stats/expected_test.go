package stats

import (
	"errors"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"brimlog/ingest/book"
	"brimlog/ingest/quantity"
	"brimlog/ingest/tank"
	"brimlog/stats/engine"
)

// A diary is a logbook in the making: one tank a week, each of 400 km.
type diary struct {
	vehicle, fills, trips, work strings.Builder
	km                          float64
	day                         time.Time
}

const weekly = 400.0

func newDiary() *diary {
	d := &diary{day: time.Date(2024, 4, 1, 0, 0, 0, 0, time.UTC)}
	d.vehicle.WriteString("name = \"Heron\"\nyear = 1974\n[engine]\ndisplacement_cc = 2600\ncylinders = 6\nfuel_system = \"carburettor\"\n[body]\nmass_kg = 1380\nshape = \"estate\"\n[driveline]\nkmh_per_1000rpm = 32.5\n")
	d.fills.WriteString("date,odometer_km,volume_l,full,fuel\n")
	d.trips.WriteString("date,odometer_start_km,odometer_end_km,road,air_c,cold_starts,cruise_kmh,load_kg,tow_kg,pace\n")
	d.work.WriteString("id,date,odometer_km,kind,area,readings\n")
	d.fill(40)
	return d
}

func (d *diary) date() string { return d.day.Format(time.DateOnly) }

func (d *diary) fill(litres float64) {
	fmt.Fprintf(&d.fills, "%s,%.1f,%.2f,yes,E5\n", d.date(), 10000+d.km, litres)
}

// drive adds tanks of so many L/100 km, with a trip over the whole of each.
func (d *diary) drive(tanks int, lPer100 float64, trip string) {
	for i := range tanks {
		from := d.km
		d.day, d.km = d.day.AddDate(0, 0, 7), d.km+weekly
		fmt.Fprintf(&d.trips, "%s,%.1f,%.1f,%s\n", d.day.AddDate(0, 0, -1).Format(time.DateOnly), 10000+from, 10000+d.km, trip)
		d.fill(weekly / 100 * lPer100 * []float64{1.01, 0.99, 1.0}[i%3])
	}
}

// job is done on the day of the last fill, after it.
func (d *diary) job(id, kind, area, readings string) {
	fmt.Fprintf(&d.work, "%s,%s,%.1f,%s,%s,%s\n", id, d.date(), 10000+d.km, kind, area, readings)
}

func (d *diary) expected(t *testing.T) *Expected {
	t.Helper()
	return Look(d.read(t), Options{Expect: true}).Expect
}

func (d *diary) read(t *testing.T) *book.Book {
	t.Helper()
	dir := t.TempDir()
	for name, text := range map[string]string{"vehicle.toml": d.vehicle.String(), "fills.csv": d.fills.String(), "trips.csv": d.trips.String(), "work.csv": d.work.String()} {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	b, err := book.Read(dir)
	if err != nil {
		t.Fatal(err)
	}
	for _, p := range b.Problems {
		t.Error(p)
	}
	return b
}

const mixed = "mixed,15,2,,,,"

func TestMeasuredSinceTheLastJob(t *testing.T) {
	d := newDiary()
	d.drive(6, 12, mixed)
	if e := d.expected(t); math.Abs(float64(e.Measured.Mid)-12) > 0.05 || e.Since.Tanks != 6 || e.Since.Job != "" || *e.Since.FromTank != 1 {
		t.Errorf("without a job: %+v of %+v", e.Measured, e.Since)
	}
	d.job("points", "service", "ignition", "")
	if e := d.expected(t); quantity.Known(float64(e.Measured.Mid)) || quantity.Known(float64(e.ExcessPct)) || e.Since.FromTank != nil || !strings.Contains(strings.Join(e.Notes, ";"), "no tank since points yet") {
		t.Errorf("just after a job: %+v of %+v, %q", e.Measured, e.Since, e.Notes)
	}
	d.drive(3, 10, mixed)
	d.job("strobe", "measure", "ignition", "ignition_deg=0")
	d.drive(3, 10, mixed)
	e := d.expected(t)
	if math.Abs(float64(e.Measured.Mid)-10) > 0.05 || e.Since.Tanks != 6 || e.Since.Job != "points" || *e.Since.FromTank != 7 {
		t.Errorf("after a job and a measure: %+v of %+v", e.Measured, e.Since)
	}
	if width := math.Log(float64(e.Measured.High / e.Measured.Low)); width < 0.01 || width > 0.08 {
		t.Errorf("six tanks are known to %v", e.Measured)
	}
	if want := 100 * (float64(e.Measured.Mid/e.Healthy.Mid) - 1); math.Abs(float64(e.ExcessPct)-want) > 1e-9 {
		t.Errorf("excess %v, want %v", e.ExcessPct, want)
	}
}

// The roads and the weather are those of the measured tanks, not of the whole log.
func TestRoadsOfTheMeasuredTanks(t *testing.T) {
	d := newDiary()
	d.drive(4, 13, "town,0,40,,,,brisk")
	d.job("points", "service", "ignition", "")
	d.drive(2, 10, "motorway,20,1,120,100,,")
	d.drive(2, 10, "open,10,3,,,800,easy")
	e := d.expected(t)
	for _, r := range e.ByRoad {
		want := map[string]float64{"motorway": 0.5, "open": 0.5}[r.Road]
		if math.Abs(float64(r.Share)-want) > 0.01 {
			t.Errorf("share of %s is %v, want %v", r.Road, r.Share, want)
		}
	}
	got := []float64{float64(e.Roads.AirC), float64(e.Roads.ColdStartsPerKm), float64(e.Roads.LoadKg), float64(e.Roads.TowShare), float64(e.Roads.EasyShare), float64(e.Roads.BriskShare), float64(e.Roads.MJPerL)}
	for i, want := range []float64{15, 2 / weekly, 50, 0.5, 0.5, 0, 31.555} {
		if math.Abs(got[i]-want) > 1e-6*max(1, want) {
			t.Errorf("figure %d of the roads is %g, want %g", i, got[i], want)
		}
	}
	unknown := newDiary()
	unknown.drive(3, 10, ",,,,,,")
	if e := unknown.expected(t); quantity.Known(float64(e.Roads.AirC)) || quantity.Known(float64(e.Roads.ColdStartsPerKm)) || e.Roads.NotedShare != 0 || e.Noted {
		t.Errorf("nothing noted: %+v", e.Roads)
	}
}

// The place's months stand in for air that nobody noted, between their middles.
func TestMonthsStandInForTheAir(t *testing.T) {
	d := newDiary()
	d.vehicle.WriteString("[place]\nmonthly_c = [0, 0, 0, 10, 20, 20, 20, 20, 20, 20, 10, 0]\n")
	d.drive(2, 10, "mixed,,,,,,") // the first half of April
	if air := float64(d.expected(t).Roads.AirC); air < 5 || air > 10 {
		t.Errorf("the first half of April has %g degrees, want 5 to 10", air)
	}
	if quantity.Known(monthlyAt(t, nil, "2024-04-15")) {
		t.Error("no months, and yet a temperature")
	}
	months := []float64{1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12}
	for day, want := range map[string]float64{"2024-07-15": 7, "2024-01-01": 6.2, "2024-12-31": 6.4, "2024-03-31": 3.5} {
		if got := monthlyAt(t, months, day); math.Abs(got-want) > 0.35 {
			t.Errorf("%s: %g, want about %g", day, got, want)
		}
	}
}

// Tanks that the owner vouches for narrow the range and draw it to them; a proved cure does so too, but less.
func TestHealthyTanks(t *testing.T) {
	width := func(e *Expected) float64 { return math.Log(float64(e.Healthy.High / e.Healthy.Low)) }
	d := newDiary()
	d.drive(14, 14, mixed)
	d.job("cure", "repair", "ignition", "")
	d.drive(12, 10, mixed)
	plain := d.expected(t)
	if len(plain.Vouched) != 0 {
		t.Errorf("tanks that are measured vouch for themselves: %v", plain.Vouched)
	}
	d.job("oil", "service", "other", "")
	d.drive(6, 11, mixed)
	cured := d.expected(t)
	if len(cured.Vouched) != 12 || cured.Vouched[0] != 15 || width(cured) > 0.8*width(plain) || math.Abs(float64(cured.Healthy.Mid)-10) > 0.5 {
		t.Errorf("after a proved cure %v stand for healthy: %v, before %v; %q", cured.Vouched, cured.Healthy, plain.Healthy, cured.Notes)
	}
	if !strings.Contains(strings.Join(cured.Notes, ";"), "12 tanks after cure, which was proved to save fuel") {
		t.Errorf("notes %q", cured.Notes)
	}
	d.vehicle.WriteString("[log]\nhealthy_from = 2024-07-10\nhealthy_to = 2024-09-29\n")
	vouched := d.expected(t)
	if n := len(vouched.Vouched); n < 10 || n > 12 || width(vouched) > width(cured) {
		t.Errorf("by the owner's word %v stand for healthy: %v, after the cure %v", vouched.Vouched, vouched.Healthy, cured.Healthy)
	}
	d.vehicle.WriteString("[[from]]\njob = \"oil\"\nengine.compression_ratio = 9.0\n")
	if changed := d.expected(t); width(changed) <= width(vouched) {
		t.Errorf("a vehicle that was changed since is known as well as before: %v, %v", changed.Healthy, vouched.Healthy)
	}
}

func TestRefusedVehicle(t *testing.T) {
	d := newDiary()
	d.drive(2, 10, mixed)
	d.vehicle.WriteString("[place]\naltitude_m = 5900\n")
	e := d.expected(t)
	var bound *engine.BoundError
	if !errors.As(e.Refused, &bound) || bound.Key != "place.altitude_m" {
		t.Errorf("refused: %v", e.Refused)
	}
}

func monthlyAt(t *testing.T, months []float64, day string) float64 {
	t.Helper()
	m, err := book.ParseMoment(day)
	if err != nil {
		t.Fatal(err)
	}
	l := &tank.Log{}
	l.Vehicle.Place.MonthlyC = months
	return ground{log: l}.monthly(m.Time)
}

package slip_test

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"brimlog/ingest/book"
	"brimlog/ingest/slip"
)

// An estate is a small logbook by hand: a fill every nine days, some 230 miles and 45 L each, which one slip is then put into.
type estate struct {
	vehicle            string
	fills, trips, work [][]string
}

func newEstate() *estate {
	e := &estate{vehicle: "name = \"estate\"\n[tank]\ncapacity_l = 64\n",
		fills: [][]string{{"date", "odometer_mi", "volume_l", "full", "cost", "missed", "note"}},
		trips: [][]string{{"date", "odometer_start_mi", "odometer_end_mi", "distance_mi", "road"}},
		work:  [][]string{{"id", "date", "odometer_mi", "kind", "area", "readings"}}}
	day, miles := time.Date(2023, 1, 2, 0, 0, 0, 0, time.UTC), 48213
	for i := range 20 {
		away := 230 + 13*(i*7%5) - 26 // miles, in no order
		litres := float64(away) * 0.195 * (1 + 0.02*float64(i*3%7-3))
		at := day.AddDate(0, 0, 9*i).Format(time.DateOnly)
		e.fills = append(e.fills, []string{at, fmt.Sprint(miles), fmt.Sprintf("%.2f", litres), "yes", fmt.Sprintf("%.2f", 1.459*litres), "", ""})
		miles += 230 + 13*((i+1)*7%5) - 26
	}
	return e
}

func (e *estate) save(t testing.TB) string {
	dir := t.TempDir()
	save := func(name string, rows [][]string) {
		var b strings.Builder
		for _, row := range rows {
			b.WriteString(strings.Join(row, ",") + "\n")
		}
		if err := os.WriteFile(filepath.Join(dir, name), []byte(b.String()), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	save("vehicle.toml", [][]string{{e.vehicle}})
	save("fills.csv", e.fills)
	save("trips.csv", e.trips)
	save("work.csv", e.work)
	return dir
}

// kinds are slips with what has to be said of them: one problem, its line, column, kind, severity and correction.
var kinds = []struct {
	name                                   string
	put                                    func(*estate)
	place, column, kind, severity, correct string
}{
	{"no slip", func(*estate) {}, "", "", "", "", ""},
	{"a wrong digit", func(e *estate) { e.cell(9, 1, "40041") }, "fills.csv:10", "odometer_mi", "odometer_slip", "error", "50041"},
	{"two digits exchanged", func(e *estate) { e.cell(9, 1, "50401") }, "fills.csv:10", "odometer_mi", "odometer_slip", "error", "50041"},
	{"the tenths as well", func(e *estate) { e.cell(9, 1, "500411") }, "fills.csv:10", "odometer_mi", "decimal_slip", "error", "50041"},
	{"a digit twice", func(e *estate) { e.cell(9, 1, "500041") }, "fills.csv:10", "odometer_mi", "odometer_slip", "error", "50041"},
	{"a digit left out", func(e *estate) { e.cell(9, 1, "5041") }, "fills.csv:10", "odometer_mi", "odometer_slip", "error", "50041"},
	{"the last digit left out", func(e *estate) { e.cell(9, 1, "5004") }, "fills.csv:10", "odometer_mi", "odometer_slip", "error", "50045"},
	{"the last digit left out, which a drive tells", func(e *estate) {
		e.cell(9, 1, "5004")
		for i := 2; i < 20; i++ {
			e.trip(e.fills[i][0], fmt.Sprint(miles(e.fills[i])-10), e.fills[i][1])
		}
		e.trips[8] = []string{e.fills[9][0], "50021", "50041", "", "mixed"}
	}, "fills.csv:10", "odometer_mi", "odometer_slip", "error", "50041"},
	{"any number at all", func(e *estate) { e.cell(9, 1, "7777") }, "fills.csv:10", "odometer_mi", "odometer_backwards", "error", ""},
	{"km in a column of miles", func(e *estate) { e.cell(9, 1, "80533") }, "fills.csv:10", "odometer_mi", "unit_slip", "error", "50041"},
	{"a point for the odometer's last digit", func(e *estate) { e.cell(9, 1, "5004.1") }, "fills.csv:10", "odometer_mi", "decimal_slip", "error", "50041"},
	{"the trip counter", func(e *estate) { e.cell(9, 1, "192") }, "fills.csv:10", "odometer_mi", "odometer_slip", "error", "50041"},
	{"the point too far right", func(e *estate) { e.scale(9, 10) }, "fills.csv:10", "volume_l", "decimal_slip", "error", "*"},
	{"the point too far left", func(e *estate) { e.scale(9, 0.1) }, "fills.csv:10", "volume_l", "decimal_slip", "doubt", "*"},
	{"gallons in a column of litres", func(e *estate) { e.scale(9, 1/4.54609) }, "fills.csv:10", "volume_l", "unit_slip", "doubt", "*"},
	{"a wrong digit of the volume", func(e *estate) { e.cell(9, 2, "1"+e.fills[9][2][1:]) }, "fills.csv:10", "volume_l", "bad_value", "doubt", "*"},
	{"a fill left out", func(e *estate) { e.drop(9) }, "fills.csv:10", "missed", "missed_fill", "doubt", "yes"},
	{"a short fill", func(e *estate) { e.short(9, 14) }, "fills.csv:10", "full", "short_fill", "doubt", "no"},
	{"a fill over the mark", func(e *estate) { e.short(9, -14) }, "fills.csv:10", "full", "short_fill", "doubt", "no"},
	{"a row twice", func(e *estate) { e.fills = append(e.fills, e.fills[9]) }, "fills.csv:22", "date", "duplicate", "doubt", ""},
	{"a row twice, a day later", func(e *estate) { e.again(9, "2023-03-16") }, "fills.csv:22", "date", "duplicate", "doubt", ""},
	{"day and month exchanged", func(e *estate) { e.cell(8, 0, "2023-06-03") }, "fills.csv:9", "date", "date_order", "doubt", "2023-03-06"},
	{"last year's number", func(e *estate) { e.cell(8, 0, "2022-03-06") }, "fills.csv:9", "date", "date_order", "doubt", "2023-03-06"},
	{"a year to come", func(e *estate) { e.cell(8, 0, "2032-03-06") }, "fills.csv:9", "date", "date_future", "doubt", "2023-03-06"},
	{"a cost without its point", func(e *estate) { e.cell(9, 4, strings.Replace(e.fills[9][4], ".", "", 1)) }, "fills.csv:10", "cost", "decimal_slip", "doubt", "*"},
	{"a roll-over that nobody told of", func(e *estate) { e.rollOver() }, "fills.csv:11", "odometer_mi", "odometer_rollover", "doubt", ""},
	{"a roll-over that is told", func(e *estate) { e.rollOver(); e.vehicle += "[odometer]\ndigits = 5\n" }, "", "", "", "", ""},
	{"another instrument", func(e *estate) { e.replace(10) }, "fills.csv:11", "odometer_mi", "odometer_backwards", "error", ""},
	{"another instrument that is told", func(e *estate) { e.replace(10); e.told() }, "", "", "", "", ""},
	{"4 % over the tank", func(e *estate) { e.full(66.5) }, "", "", "", "", ""},
	{"6 % over the tank", func(e *estate) { e.full(67.9) }, "fills.csv:10", "volume_l", "volume_over_tank", "doubt", ""},
	{"a drive that ends before it starts", func(e *estate) { e.trip("2023-03-13", "49900", "49390") }, "trips.csv:2", "odometer_end_mi", "odometer_slip", "error", "49930"},
	{"a drive of another month", func(e *estate) { e.trip("2023-06-03", "49700", "49740") }, "trips.csv:2", "date", "date_order", "doubt", "2023-03-06"},
	{"a drive's wrong digit", func(e *estate) { e.trip("2023-03-13", "42900", "49930") }, "trips.csv:2", "odometer_start_mi", "odometer_slip", "doubt", "49900"},
	{"drives that overlap", func(e *estate) { e.trip("2023-03-13", "49850", "49900"); e.trip("2023-03-14", "49870", "49880") }, "trips.csv:*", "odometer_*", "odometer_slip", "doubt", "*"},
	{"a drive twice", func(e *estate) { e.trip("2023-03-13", "49850", "49900"); e.trip("2023-03-13", "49850", "49900") }, "trips.csv:3", "date", "duplicate", "doubt", ""},
	{"a drive longer than the tank", func(e *estate) {
		e.trips = append(e.trips, []string{"2023-03-13", "", "", "1240", "open"})
	}, "trips.csv:2", "distance_mi", "decimal_slip", "doubt", "124.0"},
	{"a drive to come", func(e *estate) { e.trip("2032-03-13", "49900", "49930") }, "trips.csv:2", "date", "date_future", "doubt", "2023-03-13"},
	{"a job out of line", func(e *estate) { e.job("2023-03-13", "94917") }, "work.csv:2", "odometer_mi", "odometer_slip", "doubt", "49917"},
	{"a job of another year", func(e *estate) { e.job("2024-03-13", "49917") }, "work.csv:2", "date", "date_order", "doubt", "2023-03-13"},
}

func TestKindsOfSlips(t *testing.T) {
	now := time.Date(2024, 6, 1, 0, 0, 0, 0, time.UTC)
	for _, k := range kinds {
		t.Run(k.name, func(t *testing.T) {
			e := newEstate()
			was := strings.Join(e.fills[9], ",")
			k.put(e)
			got := slip.Find(read(t, e.save(t)), now)
			if k.kind == "" {
				if len(got) > 0 {
					t.Fatalf("got %v", words(got))
				}
				return
			}
			if len(got) != 1 {
				t.Fatalf("want one problem, got %d: %v", len(got), words(got))
			}
			p := got[0]
			place := fmt.Sprintf("%s:%d", p.File, p.Line)
			if !like(k.place, place) || !like(k.column, p.Column) || p.Kind != k.kind || p.Severity != k.severity {
				t.Errorf("got %s %s %s: %s", place, p.Kind, p.Severity, p.Error())
			}
			switch {
			case k.correct == "*" && p.Suggestion != nil && p.File == book.FillsFile && !strings.Contains(was, *p.Suggestion) && !sameCell(*p.Suggestion, strings.Split(was, ",")[2]):
				t.Errorf("correction %s, the row was %s", *p.Suggestion, was)
			case k.correct == "" && p.Suggestion != nil, k.correct != "" && k.correct != "*" && suggested(p) != k.correct,
				k.correct == "*" && p.File == book.FillsFile && p.Suggestion == nil:
				t.Errorf("correction %s, want %q: %s", suggested(p), k.correct, p.Error())
			}
		})
	}
}

// like holds a text against one in which a star stands for any end.
func like(want, got string) bool {
	stem, any := strings.CutSuffix(want, "*")
	return got == want || any && strings.HasPrefix(got, stem)
}

func words(problems []book.Problem) (all []string) {
	for _, p := range problems {
		all = append(all, fmt.Sprintf("%s (%s, %s, %s)", p.Error(), p.Kind, p.Severity, suggested(p)))
	}
	return all
}

func (e *estate) cell(row, column int, text string) { e.fills[row][column] = text }

func (e *estate) drop(row int) { e.fills = append(e.fills[:row:row], e.fills[row+1:]...) }

func (e *estate) again(row int, date string) {
	e.fills = append(e.fills, append([]string{date}, e.fills[row][1:]...))
}

func (e *estate) trip(date, start, end string) {
	e.trips = append(e.trips, []string{date, start, end, "", "mixed"})
}

func (e *estate) job(date, miles string) {
	e.work = append(e.work, []string{"oil", date, miles, "service", "other", ""})
}

// scale multiplies a volume; a pump's figures have two decimals, a point that moved leaves all of them.
func (e *estate) scale(row int, by float64) {
	format := "%.2f"
	if by == 0.1 {
		format = "%.3f"
	}
	e.fills[row][2] = fmt.Sprintf(format, litres(e.fills[row])*by)
}

func litres(row []string) (l float64) {
	fmt.Sscan(row[2], &l)
	return l
}

// short leaves a fill so many litres below the mark, which the next one makes up for.
func (e *estate) short(row int, l float64) {
	for i, by := range []float64{-l, l} {
		f := e.fills[row+i]
		f[2] = fmt.Sprintf("%.2f", litres(f)+by)
		f[4] = fmt.Sprintf("%.2f", 1.459*litres(f))
	}
}

// full makes a fill of so many litres, after as much more driving.
func (e *estate) full(l float64) {
	more := int((l - litres(e.fills[9])) / 0.195)
	for _, f := range e.fills[9:] {
		f[1] = fmt.Sprint(miles(f) + more)
	}
	e.fills[9][2], e.fills[9][4] = fmt.Sprintf("%.2f", l), fmt.Sprintf("%.2f", 1.459*l)
}

func miles(row []string) (m int) {
	fmt.Sscan(row[1], &m)
	return m
}

// rollOver makes the instrument start again from nought at the tenth fill.
func (e *estate) rollOver() {
	to := 100000 - miles(e.fills[9]) - 60
	for _, f := range e.fills[1:] {
		f[1] = fmt.Sprint((miles(f) + to) % 100000)
	}
}

// replace makes a row the first with a new instrument.
func (e *estate) replace(row int) {
	e.work = append(e.work, []string{"clock", e.fills[row-1][0], e.fills[row-1][1], "fit", "odometer", ""})
	from := miles(e.fills[row-1])
	for _, f := range e.fills[row:] {
		f[1] = fmt.Sprint(miles(f) - from)
	}
}

// told adds the reading that tells of the new instrument.
func (e *estate) told() { e.work[1][5] = "odometer_reset_to=0" }

// Two readings in each other's rows are two cells to mend, and each gets the other's.
func TestExchangedReadings(t *testing.T) {
	for _, apart := range []int{1, 2} {
		for _, k := range []int{3, 9, 16} {
			e := newEstate()
			a, b := e.fills[k], e.fills[k+apart]
			a[1], b[1] = b[1], a[1]
			got := slip.Find(read(t, e.save(t)), time.Date(2024, 6, 1, 0, 0, 0, 0, time.UTC))
			if len(got) != 2 || got[0].Line != k+1 || got[1].Line != k+apart+1 || suggested(got[0]) != b[1] || suggested(got[1]) != a[1] ||
				got[0].Kind != "odometer_slip" || got[1].Kind != "odometer_slip" {
				t.Errorf("rows %d and %d: %v", k, k+apart, words(got))
			}
		}
	}
}

// A young log has no tanks to go by, but what vehicles use and tanks hold: a point that moved is told as such, not as a fill left out.
func TestPointOfAYoungLog(t *testing.T) {
	for _, fills := range []int{2, 3, 4, 6} {
		for written, meant := range map[string]string{"4.12": "41.2", "412": "41.2", "41.2": ""} {
			e := newEstate()
			e.fills = e.fills[:fills+1]
			for i, f := range e.fills[1:] {
				f[1], f[2], f[4] = fmt.Sprint(48000+220*i), []string{"41.0", "43.5", "40.2", "42.8", "41.9", "44.1"}[i], ""
			}
			e.cell(fills, 2, written)
			got := slip.Find(read(t, e.save(t)), time.Date(2024, 6, 1, 0, 0, 0, 0, time.UTC))
			switch {
			case meant == "" && len(got) > 0, meant != "" && (len(got) != 1 || got[0].Kind != "decimal_slip" || suggested(got[0]) != meant):
				t.Errorf("%s as the last of %d fills: %v", written, fills, words(got))
			}
		}
	}
}

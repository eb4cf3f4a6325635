package main

import (
	"fmt"
	"math"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"brimlog/testdata/table"
)

// The tanks of the small logbook, added up here from its rows alone, with the exact definitions of mile and gallon.
func TestTanksAreWhatTheRowsSay(t *testing.T) {
	rows := table.Read(t, filepath.Join(plover, "fills.csv"))
	number := func(cell string) float64 {
		x, err := strconv.ParseFloat(cell, 64)
		if err != nil {
			t.Fatal(err)
		}
		return x
	}
	doc := one(t, "tanks", "-b", plover)
	tanks := doc["tanks"].([]any)
	open, litres, paid, i := -1, 0.0, 0.0, 0
	for line, r := range rows[1:] {
		litres, paid = litres+number(r[2]), paid+number(r[4])
		if r[3] != "yes" {
			continue
		}
		if open >= 0 {
			miles := number(r[1]) - number(rows[1:][open][1])
			want := map[string]float64{
				"number": float64(i + 1), "from_line": float64(open + 2), "to_line": float64(line + 2), "distance_km": miles * 1.609344, "fuel_l": litres,
				"l_per_100km": 100 * litres / (miles * 1.609344), "mpg_uk": miles / (litres / 4.54609), "mpg_us": miles / (litres / 3.785411784),
				"partials": float64(line - open - 1), "cost": paid,
			}
			tank := tanks[i].(map[string]any)
			for name, x := range want {
				if got := tank[name].(float64); math.Abs(got-x) > 1e-9*x {
					t.Errorf("tank %d: %s %v, the rows say %v", i+1, name, got, x)
				}
			}
			if tank["to_date"] != r[0] || tank["from_date"] != rows[1:][open][0] {
				t.Errorf("tank %d: %v to %v", i+1, tank["from_date"], tank["to_date"])
			}
			i++
		}
		open, litres, paid = line, 0, 0
	}
	if len(tanks) != i || i < 15 {
		t.Errorf("%d tanks, the rows make %d", len(tanks), i)
	}
}

// The average over all is total fuel over total distance, in every unit.
func TestEconomyInEveryUnit(t *testing.T) {
	fills := "date,odometer_km,volume_l\n2024-01-01,10000,30\n2024-01-08,10100,15\n2024-01-15,10600,40\n"
	dir := logbook(t, map[string]string{"vehicle.toml": name["vehicle.toml"], "fills.csv": fills}) // 55 litres over 600 km
	for _, c := range []struct {
		unit, label string
		want        float64
	}{
		{"l_100km", "L/100 km", 100 * 55. / 600}, {"km_l", "km/L", 600 / 55.},
		{"mpg_uk", "mpg (UK)", 600 / 1.609344 / (55 / 4.54609)}, {"mpg_us", "mpg (US)", 600 / 1.609344 / (55 / 3.785411784)},
	} {
		text := sound(t, "tanks", "-b", dir, "--economy", c.unit)
		if want := fmt.Sprintf("%.1f %s over 2 tanks", c.want, c.label); !strings.Contains(unwrapped(text), want) {
			t.Errorf("%s: want %q in\n%s", c.unit, want, text)
		}
		// the documents keep their own units
		if doc := one(t, "tanks", "-b", dir, "--economy", c.unit); doc["tanks"].([]any)[0].(map[string]any)["l_per_100km"] != 15.0 {
			t.Errorf("%s changes the document", c.unit)
		}
	}
}

// --as-of ends the log on that day, itself included, and takes a time.
func TestTanksAsOf(t *testing.T) {
	whole := one(t, "tanks", "-b", plover)["tanks"].([]any)
	for _, c := range []struct {
		flag, date string
		want       int
	}{
		{"--as-of", "2023-02-09", 0}, {"--as-of", "2023-02-16", 0}, {"--as-of", "2023-02-17", 1}, {"--as_of", "2023-02-23T23:59", 1},
		{"--as-of", "2023-04-14", 9}, {"--as-of", "2023-04-14T08:00", 9}, {"--as-of", "2030-01-01", len(whole)},
	} {
		doc := one(t, "tanks", "-b", plover, c.flag, c.date)
		tanks := doc["tanks"].([]any)
		if len(tanks) != c.want || doc["as_of"] != c.date {
			t.Errorf("%s: %d tanks as of %v, want %d", c.date, len(tanks), doc["as_of"], c.want)
			continue
		}
		for i := range tanks {
			if a, b := fmt.Sprint(tanks[i]), fmt.Sprint(whole[i]); a != b {
				t.Errorf("%s: tank %d is %s, later %s", c.date, i+1, a, b)
			}
		}
	}
}

// The logbook is that of --book, else of BRIMLOG_BOOK, else the folder itself.
func TestWhichLogbook(t *testing.T) {
	here := logbook(t, map[string]string{"vehicle.toml": "name = \"Here\"\n"})
	there := logbook(t, map[string]string{"vehicle.toml": "name = \"There\"\n"})
	for _, c := range []struct {
		book, env, want string
	}{{"", "", "Here"}, {"", there, "There"}, {here, there, "Here"}} {
		t.Chdir(here)
		t.Setenv("BRIMLOG_BOOK", c.env)
		var out, complaint strings.Builder
		args := []string{"tanks", "--json"}
		if c.book != "" {
			args = append(args, "--book", c.book)
		}
		status := (&app{in: strings.NewReader(""), out: &out, err: &complaint}).run(args)
		if status != statusDone || !strings.Contains(out.String(), `"book":"`+c.want+`"`) {
			t.Errorf("%+v: exit %d, %s%s", c, status, out.String(), complaint.String())
		}
	}
}

package quantity

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// One of each unit in its base unit, by the definitions named in scale.go; psi and inHg as NIST Special Publication 811,
// appendix B.8 prints them (6.894 757 kPa, 3.386 389 kPa), hence the tolerance.
func TestDefinitions(t *testing.T) {
	for _, c := range []struct {
		x    float64
		unit Unit
		base float64
		tol  float64
	}{
		{1, Mile, 1.609344, 0},
		{1, GallonUK, 4.54609, 0},
		{1, GallonUS, 3.785411784, 0},
		{1, Pound, 0.45359237, 0},
		{1, PSI, 0.06894757, 5e-9},
		{1, InHg, 0.03386389, 5e-9},
		{32, Fahrenheit, 0, 0},
		{212, Fahrenheit, 100, 0},
		{-40, Fahrenheit, -40, 0},
		{1, MilePerHour, 1.609344, 0},
		{1, Hour, 60, 0},
		{60, Percent, 0.6, 0},
		{1, MpgUK, 282.480936332, 5e-10},
		{1, MpgUS, 235.214583333, 5e-10},
		{8, KmPerL, 12.5, 0},
	} {
		if got := c.unit.ToBase(c.x); math.Abs(got-c.base) > c.tol {
			t.Errorf("%v %s is %v %s, want %v", c.x, c.unit, got, c.unit.Base(), c.base)
		}
		if got := c.unit.FromBase(c.unit.ToBase(c.x)); math.Abs(got-c.x) > 1e-12*math.Abs(c.x) {
			t.Errorf("%v %s comes back as %v", c.x, c.unit, got)
		}
	}
}

func TestParse(t *testing.T) {
	for _, c := range []struct {
		cell   string
		column Unit
		want   float64
	}{
		{"48213", Km, 48213}, {" 52.31 ", Litre, 52.31}, {".5", Litre, 0.5}, {"5.", Litre, 5}, {"+5", Litre, 5},
		{"9.9 gal_uk", Litre, 9.9 * 4.54609}, {"9.9gal_uk", GallonUS, 9.9 * 4.54609}, {"9.9 gal", GallonUS, 9.9 * 3.785411784},
		{"412 km", Mile, 412}, {"412KM", Mile, 412}, {"412 miles", Km, 412 * 1.609344},
		{"-3", Celsius, -3}, {"−3 °C", Fahrenheit, -3}, {"41 F", Celsius, 5}, {"0 f", Celsius, -160.0 / 9},
		{"60", Percent, 0.6}, {"60 %", Percent, 0.6}, {"1.5 h", Minute, 90}, {"7", Number, 7}, {"012", Km, 12},
		{"20 mpg (UK)", LPer100Km, 14.12404681660}, {"50 mph", KmPerHour, 80.4672}, {"29 in Hg", Bar, 0.982052706},
	} {
		got, err := Parse(c.cell, c.column)
		if err != nil || math.Abs(got-c.want) > 1e-9*math.Abs(c.want) {
			t.Errorf("Parse(%q, %s) = %v, %v; want %v", c.cell, c.column, got, err, c.want)
		}
	}
}

func TestParseRefuses(t *testing.T) {
	for _, c := range []struct {
		cell       string
		column     Unit
		kind       error
		message    string
		suggestion string
	}{
		{"", Km, ErrNumber, `a number, and there is none`, ""},
		{"1,234", Km, ErrNumber, `a comma can mark thousands or decimals`, ""},
		{"1,234.5", Km, ErrNumber, `leave the commas out`, "1234.5"},
		{"1,234,567", Km, ErrNumber, `leave the commas out`, "1234567"},
		{"52,31", Litre, ErrNumber, `a decimal point, not a comma`, "52.31"},
		{"1.234,5", Litre, ErrNumber, `without thousands marks, with a decimal point`, ""},
		{"48 213", Km, ErrNumber, `without blanks or marks`, "48213"},
		{"48'213 km", Km, ErrNumber, `without blanks or marks`, "48213"},
		{"0x1p4", Litre, ErrUnit, `no unit`, ""},
		{"0x10", Number, ErrNumber, `not a hexadecimal one`, ""},
		{"1e5", Number, ErrNumber, `without powers of ten`, ""},
		{"1e5", Km, ErrUnit, `no unit`, ""},
		{"NaN", Km, ErrNumber, `an empty cell where it is not known`, ""},
		{"-Inf", Km, ErrNumber, `an empty cell where it is not known`, ""},
		{"#DIV/0!", Km, ErrNumber, `an empty cell where it is not known`, ""},
		{"£52.30", Number, ErrNumber, `without a currency sign`, "52.30"},
		{"52.30 €", Number, ErrNumber, `without a currency sign`, "52.30"},
		{"48O13", Km, ErrNumber, `the digit 0, not the letter O`, "48013"},
		{"1.2.3", Litre, ErrNumber, `a number such as`, ""},
		{"abc", Litre, ErrNumber, `a number such as`, ""},
		{"52.31 lt", Litre, ErrUnit, `write l, gal_uk or gal_us`, ""},
		{"9.9 gal", Litre, ErrUnit, `write gal_uk (4.546 L) or gal_us (3.785 L)`, ""},
		{"412 km", Litre, ErrUnit, `km is a distance, this column holds a volume`, ""},
		{"412 km", Number, ErrUnit, `leave the unit out`, ""},
		{"0", MpgUK, ErrNumber, `above zero`, ""},
		{strings.Repeat("9", 400), Km, ErrNumber, `at most 24 digits`, ""},
		{strings.Repeat("9", 30), Km, ErrNumber, `at most 24 digits`, ""},
	} {
		x, err := Parse(c.cell, c.column)
		var cell *CellError
		if !errors.As(err, &cell) || !errors.Is(err, c.kind) {
			t.Errorf("Parse(%.50q, %s) = %v, %v; want an error of kind %v", c.cell, c.column, x, err, c.kind)
			continue
		}
		if !strings.Contains(cell.Message, c.message) || cell.Suggestion != c.suggestion {
			t.Errorf("Parse(%.50q, %s): %s (suggests %q); want %q (%q)", c.cell, c.column, cell, cell.Suggestion, c.message, c.suggestion)
		}
		if len(cell.Message) > 300 || strings.Contains(cell.Message, "\n") {
			t.Errorf("the message is not one short line: %q", cell.Message)
		}
	}
}

// The worked example of 40 CFR part 600: 27.7 mpg over 0.55 of the distance and 36.9 mpg over 0.45 of it combine to 31.2 mpg.
func TestAverageIsTotalOverTotal(t *testing.T) {
	km := []float64{Mile.ToBase(55), Mile.ToBase(45)}
	litres := []float64{GallonUS.ToBase(55 / 27.7), GallonUS.ToBase(45 / 36.9)}
	if got := Average(km, litres).Format(MpgUS); got != "31.2 mpg (US)" {
		t.Errorf("55 miles at 27.7 and 45 at 36.9 mpg average to %s, want 31.2 mpg (US)", got)
	}
	if e := Average([]float64{100, Unknown}, []float64{9, 10}); Known(float64(e)) {
		t.Errorf("an unknown distance averages to %v", e)
	}
}

func TestEconomyOfNothing(t *testing.T) {
	for _, e := range []Economy{EconomyOf(0, 5), EconomyOf(-1, 5), EconomyOf(100, -5), EconomyOf(Unknown, 5)} {
		if Known(float64(e)) {
			t.Errorf("got %v, want unknown", e)
		}
	}
	coasting := EconomyOf(100, 0)
	if coasting != 0 || Known(coasting.In(MpgUK)) {
		t.Errorf("no fuel is %v L/100 km and %v mpg, want 0 and unknown", float64(coasting), coasting.In(MpgUK))
	}
	if got := coasting.Format(MpgUK); got != "–" {
		t.Errorf("no fuel in mpg is written %q", got)
	}
	if x := MpgUK.ToBase(-20); Known(x) {
		t.Errorf("-20 mpg is %v L/100 km", x)
	}
}

func TestFormat(t *testing.T) {
	for _, c := range []struct {
		x    float64
		unit Unit
		want string
	}{
		{48213 * kmPerMile, Mile, "48213 miles"}, {52.314, Litre, "52.31 L"}, {0.6, Percent, "60 %"}, {-0.2, Celsius, "0 °C"},
		{14.124, MpgUK, "20.0 mpg (UK)"}, {Unknown, Km, "–"}, {7, Number, "7.00"}, {math.Inf(1), LPer100Km, "–"},
	} {
		if got := Format(c.x, c.unit); got != c.want {
			t.Errorf("Format(%v, %s) = %q, want %q", c.x, c.unit, got, c.want)
		}
	}
	for x, want := range map[float64]string{52.31: "52.31", 60: "60", -0.0001: "0", 0: "0", 100: "100", Unknown: ""} {
		if got := Cell(x, Litre); got != want {
			t.Errorf("Cell(%v) = %q, want %q", x, got, want)
		}
	}
}

func TestNames(t *testing.T) {
	for _, name := range strings.Fields("mi km l gal_uk gal_us c f kg lb bar psi inhg mpg_uk mpg_us l_100km km_l min") {
		u, ok := UnitNamed(name)
		if !ok || u.String() != name {
			t.Errorf("the files' unit %q is %v, %v", name, u, ok)
		}
		if again, ok := UnitNamed(u.Label()); !ok || again != u {
			t.Errorf("the label %q of %s is %v, %v", u.Label(), name, again, ok)
		}
	}
	for column, want := range map[string]Unit{
		"odometer_start_mi": Mile, "volume_gal_uk": GallonUK, "fuel_lost_l": Litre, "cruise_kmh": KmPerHour, "idle_min": Minute,
		"town_share": Number, "weak_low": Number, "date": Number, "_": Number, "_mi": Number, "cold_starts": Number,
	} {
		stem, u := SplitColumn(column)
		whole := stem
		if u != Number {
			whole += "_" + u.String()
		}
		if u != want || whole != column {
			t.Errorf("SplitColumn(%q) = %q, %v; want %v", column, stem, u, want)
		}
	}
}

// Whatever is written reads back the same within its rounding, in every unit, and survives a change of unit.
func TestRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		u := Unit(rapid.IntRange(0, int(unitCount)-1).Draw(t, "unit"))
		x := rapid.Float64Range(0.5, 999999).Draw(t, "x")
		base := u.ToBase(x)
		half := math.Pow(10, -float64(u.Decimals()))/2 + 1e-9*x
		for text, tol := range map[string]float64{Format(base, u): half, Cell(base, u): 0.0005 + 1e-9*x} {
			got, err := Parse(text, u)
			if u.FromBase(base) < tol { // rounded to zero, which is no economy
				continue
			}
			if err != nil || math.Abs(u.FromBase(got)-x) > tol*1.0001 {
				t.Fatalf("%v %s is written %q and reads back as %v (%v)", x, u, text, u.FromBase(got), err)
			}
		}
		for _, v := range u.Units() {
			if back := u.FromBase(v.ToBase(v.FromBase(base))); math.Abs(back-x) > 1e-9*x {
				t.Fatalf("%v %s by way of %s is %v", x, u, v, back)
			}
		}
	})
}

func FuzzParse(f *testing.F) {
	for _, s := range []string{"48213", "9.9 gal_uk", "1,234", "52,31", "-3°C", "0x1p-2", "1e400", "NaN", "−0", "1 234,5", "£3", "\x00", "9.9.9 km"} {
		f.Add(s, uint8(Litre))
	}
	f.Fuzz(func(t *testing.T, cell string, unit uint8) {
		u := Unit(unit % uint8(unitCount))
		x, err := Parse(cell, u)
		var wrong *CellError
		switch {
		case err == nil && !Known(x):
			t.Fatalf("Parse(%q, %s) = %v without an error", cell, u, x)
		case err != nil && (!errors.As(err, &wrong) || wrong.Message == "" || len(wrong.Message) > 400):
			t.Fatalf("Parse(%q, %s): %v", cell, u, err)
		case err != nil && Known(x):
			t.Fatalf("Parse(%q, %s) = %v beside the error %v", cell, u, x, err)
		}
		if wrong != nil && wrong.Suggestion != "" {
			if _, err := Parse(wrong.Suggestion, u); err != nil && !errors.Is(err, ErrNumber) {
				t.Fatalf("the suggestion %q for %q does not read: %v", wrong.Suggestion, cell, err)
			}
		}
	})
}

func BenchmarkParse(b *testing.B) {
	for _, cell := range []string{"48213.5", "9.9 gal_uk"} {
		b.Run(cell, func(b *testing.B) {
			for b.Loop() {
				if _, err := Parse(cell, GallonUK); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// A gallon is two units, and the message says which they are and how each is written.
func TestVagueUnitsAreTold(t *testing.T) {
	for cell, want := range map[string]string{
		"9 gal":      `"gal" is two units: write gal_uk (4.546 L) or gal_us (3.785 L) behind the number`,
		"9 Gallons":  `"Gallons" is two units: write gal_uk (4.546 L) or gal_us (3.785 L) behind the number`,
		"9 gal_uk":   "",
		"9 gal (US)": "",
	} {
		_, err := Parse(cell, Litre)
		if got := fmt.Sprint(err); want != "" && got != want || want == "" && err != nil {
			t.Errorf("%s: %s, want %s", cell, got, want)
		}
	}
	if _, err := Parse("30 mpg", LPer100Km); fmt.Sprint(err) != `"mpg" is two units: write mpg_uk or mpg_us behind the number` {
		t.Errorf("30 mpg: %v", err)
	}
}

package book

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

func TestCreate(t *testing.T) {
	for units, want := range map[Units]Show{
		"":     {Economy: "mpg_uk", Distance: "mi", Volume: "l"},
		UK:     {Economy: "mpg_uk", Distance: "mi", Volume: "l"},
		US:     {Economy: "mpg_us", Distance: "mi", Volume: "gal_us"},
		Metric: {Economy: "l_100km", Distance: "km", Volume: "l"},
	} {
		dir := filepath.Join(t.TempDir(), "a", "heron")
		o := Options{Name: `Our "Heron" \ 1974`, Units: units}
		if err := Create(dir, o); err != nil {
			t.Fatal(err)
		}
		b, err := Read(dir)
		if err != nil || len(b.Problems) > 0 || b.Vehicle.Name != o.Name || b.Vehicle.Show != want || b.Vehicle.Odometer.Unit != want.Distance {
			t.Errorf("%s reads %+v, %v", units, b, err)
		}
		if err := Create(dir, o); err != nil {
			t.Errorf("once more, as after an interruption: %v", err)
		}
		if _, err := Append(dir, FillsFile, Cells{"date": "2024-02-11", "odometer": "1", "volume": "1"}); err != nil {
			t.Fatal(err)
		}
		was := content(t, dir, FillsFile)
		if err := Create(dir, o); err == nil || !strings.Contains(err.Error(), "fills.csv: want a folder without a logbook") || content(t, dir, FillsFile) != was {
			t.Errorf("over a logbook: %v", err)
		}
	}
	for _, o := range []Options{{Name: "", Units: UK}, {Name: "a\nb", Units: UK}, {Name: "a", Units: "imperial"}} {
		dir := filepath.Join(t.TempDir(), "x")
		if err := Create(dir, o); err == nil {
			t.Errorf("%+v is taken", o)
		}
		if _, err := os.Stat(dir); err == nil {
			t.Errorf("%+v left a folder", o)
		}
	}
}

// Every key that the new vehicle.toml shows behind a # is one that Read takes.
func TestCreateShowsKnownKeys(t *testing.T) {
	texts, err := Options{Name: "Heron", Units: UK}.files()
	if err != nil {
		t.Fatal(err)
	}
	var lines []string
	for _, l := range strings.Split(string(texts[VehicleFile]), "\n") {
		if bare, ok := strings.CutPrefix(l, "# "); ok && (strings.Contains(bare, " = ") || strings.HasPrefix(bare, "[")) {
			l = bare
		}
		lines = append(lines, l)
	}
	doc, err := parseVehicle([]byte(strings.Join(lines, "\n")))
	if err != nil {
		t.Fatal(err)
	}
	if doc.Engine.Cam.SprocketTeeth != 40 || doc.Fuel["LPG"] != 24.5 || len(doc.From) != 1 || doc.Log.HealthyTo.IsZero() {
		t.Errorf("%+v", doc.Vehicle)
	}
}

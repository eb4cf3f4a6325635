package foreign

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"brimlog/ingest/book"
)

// unitless is a sheet whose headings name no unit: a fill every ten days, in the units that the figures are really in.
func unitless(start, step, volume float64) string {
	rows := []string{"Date,Odo,Fuel"}
	day := time.Date(2024, 3, 1, 0, 0, 0, 0, time.UTC)
	for i := range 12 {
		rows = append(rows, fmt.Sprintf("%s,%.0f,%.2f", day.AddDate(0, 0, 10*i).Format(time.DateOnly), start+step*float64(i), volume*(1+0.02*float64(i%3))))
	}
	return lines(rows...)
}

// Where neither sheet nor --map names a unit, the logbook's own is taken as long as the figures can be in it. Figures that cannot
// be are read in the only unit that makes sense of them, and where several do, the sheet is refused with what to tell.
func TestUnitsByTheFigures(t *testing.T) {
	for _, c := range []struct {
		name    string
		units   book.Units
		vehicle string
		rows    []string // of the log
		sheet   string
		column  string // of the first row, where it is taken
		want    string // of the error, or of how a column was read
	}{
		{"miles and litres as the log has them", book.UK, "", nil, unitless(48000, 220, 44), "volume_l odometer_mi", "in the logbook's own unit, as the sheet names none"},
		{"UK gallons in a log of litres", book.UK, "", nil, unitless(48000, 220, 9.7), "",
			`sheet.csv:1: column "Fuel": want a unit in the heading, got none, and in the logbook's own it would be 101.1 mpg (UK): say `},
		{"the ways to tell it", book.UK, "", nil, unitless(48000, 220, 9.7), "", "say --map odometer_km=Odo, or --map volume_gal_uk=Fuel, or --map volume_gal_us=Fuel, or, where it is so all the same, --map odometer_mi=Odo --map volume_l=Fuel"},
		{"litres in a log of gallons", book.US, "", nil, unitless(48000, 350, 44), "",
			`in the logbook's own the middle fill is 44.88 gal (US): say --map volume_l=Fuel, or --map odometer_km=Odo --map volume_l=Fuel, or, where it is so all the same, --map odometer_mi=Odo --map volume_gal_us=Fuel`},
		{"litres in a log of gallons, into a known tank", book.US, "[tank]\ncapacity_l = 64\n", nil, unitless(48000, 350, 44), "",
			`in the logbook's own fills are up to 45.76 gal (US), into a tank of 16.91 gal (US): say --map volume_l=Fuel, or --map odometer_km=Odo --map volume_l=Fuel, or, where`},
		{"an odometer in km that goes on from the log's miles", book.UK, "", []string{"2024-02-20,48000,44,yes", "2024-07-01,49700,44,yes"},
			strings.Replace(unitless(77300, 210, 26), "Fuel", "Litres", 1), "volume_l odometer_km", "in km by its figures: in the logbook's own unit the odometer would not go on from the log's: 12 of 12 readings"},
		{"use that is not this vehicle's", book.UK, "", []string{"2023-01-01,41000,44,yes", "2023-01-11,41220,44,yes", "2023-01-21,41440,44,yes", "2023-01-31,41660,44,yes",
			"2023-02-10,41880,44,yes", "2023-02-20,42100,44,yes"}, strings.Replace(unitless(77300, 350, 44), "Fuel", "Litres", 1), "",
			`sheet.csv:1: column "Odo": want a unit in the heading, got none, and in the logbook's own it would be 35.5 mpg (UK), where the log has 22.7 mpg (UK): say --map odometer_km=Odo, or, where it is so all the same, --map odometer_mi=Odo`},
		{"a unit that the sheet names is believed", book.UK, "", nil, strings.Replace(unitless(48000, 220, 9.7), "Odo,Fuel", "Odo (mi),Litres", 1), "volume_l odometer_mi", "unit from the heading"},
	} {
		t.Run(c.name, func(t *testing.T) {
			dir := logbook(t, c.units, c.rows...)
			if c.vehicle != "" {
				if err := os.WriteFile(filepath.Join(dir, book.VehicleFile), []byte("name = \"Heron\"\n"+c.vehicle), 0o644); err != nil {
					t.Fatal(err)
				}
			}
			r, err := Rehearse(dir, []byte(c.sheet), fills("sheet.csv"))
			if c.column == "" {
				if err == nil || !strings.Contains(err.Error(), c.want) {
					t.Fatalf("%v\nwant %s", err, c.want)
				}
				return
			}
			if err != nil {
				t.Fatal(err)
			}
			for column := range strings.FieldsSeq(c.column) {
				if r.First[0][column] == "" {
					t.Errorf("want %s, got %v", column, r.First[0])
				}
			}
			told := ""
			for _, taken := range r.Columns {
				told += taken.How + "\n"
			}
			if !strings.Contains(told, c.want) {
				t.Errorf("it tells\n%s, want %s", told, c.want)
			}
		})
	}
}

// A job may have brought a larger tank: fills of its size are no gallons.
func TestUnitsByTheLargestTank(t *testing.T) {
	for vehicle, taken := range map[string]bool{
		"[tank]\ncapacity_l = 34\n": false,
		"[tank]\ncapacity_l = 34\n[[from]]\njob = \"tank\"\ntank.capacity_l = 70\n": true,
	} {
		dir := logbook(t, book.US)
		if err := os.WriteFile(filepath.Join(dir, book.VehicleFile), []byte("name = \"Heron\"\n"+vehicle), 0o644); err != nil {
			t.Fatal(err)
		}
		r, err := Rehearse(dir, []byte(unitless(48000, 220, 11.6)), fills("sheet.csv"))
		if taken != (err == nil && r.First[0]["volume_gal_us"] != "") {
			t.Errorf("%s: %v", vehicle, err)
		}
	}
}

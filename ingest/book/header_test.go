package book

import (
	"strings"
	"testing"

	"brimlog/ingest/quantity"
)

func TestColumns(t *testing.T) {
	for file, want := range map[string]string{
		FillsFile: "date odometer volume full cost fuel missed gauge station town_share short_trips pace weak_low weak_high note",
		TripsFile: "date odometer_start odometer_end distance road pace cruise air cold_starts idle load tow hard_start hard_start_hot rough_idle " +
			"hesitation stumble surge stall knock backfire run_on weak_low weak_cruise weak_high overheating runs_cold note",
		WorkFile: "id date odometer kind area what readings cost hours idle fuel_lost note",
	} {
		var names []string
		for _, c := range Columns(file) {
			names = append(names, c.Name)
			if c.Name == "odometer" && (c.Unit != quantity.Km || c.Needed != (file == FillsFile)) || c.Name == "knock" && c.Words[3] != "heavy" {
				t.Errorf("%s: %+v", file, c)
			}
		}
		if got := strings.Join(names, " "); got != want {
			t.Errorf("%s has\n%s, want\n%s", file, got, want)
		}
	}
	if Columns(VehicleFile) != nil {
		t.Error("vehicle.toml has columns")
	}
}

// The usual headers are those of the logbook's contract, and every name in them is read.
func TestHeader(t *testing.T) {
	dir := logbook(t, map[string]string{FillsFile: "volume_gal_us,date,odometer_mi,Own\n"})
	for file, want := range map[string]string{
		FillsFile: "volume_gal_us,date,odometer_mi,Own",
		TripsFile: "date,odometer_start_mi,odometer_end_mi,distance_mi,road,pace,cruise_kmh,air_f,cold_starts,idle_min,load_kg,tow_kg,hard_start," +
			"hard_start_hot,rough_idle,hesitation,stumble,surge,stall,knock,backfire,run_on,weak_low,weak_cruise,weak_high,overheating,runs_cold,note",
		WorkFile: "id,date,odometer_mi,kind,area,what,readings,cost,hours,idle_min,fuel_lost_l,note",
	} {
		got, err := Header(dir, file)
		if err != nil || strings.Join(got, ",") != want {
			t.Errorf("%s: %v\n%s, want\n%s", file, err, strings.Join(got, ","), want)
		}
		f, err := formOf(file)
		if err != nil {
			t.Fatal(err)
		}
		for _, name := range got {
			if !f.lookup(name).known && name != "Own" {
				t.Errorf("%s: nobody reads %q", file, name)
			}
		}
	}
	if _, err := Header(dir, VehicleFile); err == nil {
		t.Error("vehicle.toml has a header")
	}
}

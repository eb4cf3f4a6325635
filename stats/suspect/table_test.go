package suspect

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// The causes that documents already name keep their ids.
var named = strings.Fields(`cam_retarded_1t cam_retarded_2t cam_advanced_1t chain_stretch ign_retarded ign_advanced mech_adv_seized vac_adv_torn
	weak_spark dead_cylinder float_high choke_on rich_worn_jet air_leak air_filter exhaust_block low_comp head_gasket valve_tight valve_slack
	thermostat_open brake_bind bearing_gear_oil tyre_low tyre_type odo_error clutch_slip fuel_leak evaporation stale_fuel ethanol winter_blend
	short_trip tow_roof high_speed inj_leak afm cts cold_start_valve oil_thick altitude_carb gauge_fill nothing_wrong not_listed`)

func TestTableHoldsTheCauses(t *testing.T) {
	table := Standard()
	if len(table.Causes) < 50 {
		t.Errorf("%d causes, want at least 50", len(table.Causes))
	}
	for _, id := range named {
		if _, ok := table.rank[id]; !ok {
			t.Errorf("cause %q is missing", id)
		}
	}
	if got := table.Name("ign_retarded"); got != "ignition set late" {
		t.Errorf("ign_retarded is called %q", got)
	}
}

// Every part of a cause is touched by some job or is no part of a vehicle at all, so that no job is without effect by a
// misspelt word.
func TestPartsAndAreasMeet(t *testing.T) {
	table := Standard()
	known := map[string]bool{"use": true, "filling": true, "cam_timing_wear": true}
	for _, a := range table.Areas {
		for _, p := range append(a.WorksOn, a.Disturbs...) {
			known[p] = true
		}
	}
	used := map[string]bool{}
	for _, c := range table.Causes {
		for _, p := range c.Parts {
			if used[p] = true; !known[p] {
				t.Errorf("%s: no job touches the part %q", c.ID, p)
			}
		}
	}
	for name, a := range table.Areas {
		for _, p := range append(a.WorksOn, a.Disturbs...) {
			if !used[p] {
				t.Errorf("area %s: no cause belongs to the part %q", name, p)
			}
		}
	}
}

// A cam job raises what it disturbs, and a job elsewhere does not.
func TestJobsRaiseWhatTheyDisturb(t *testing.T) {
	chance := func(areas ...string) map[string]float64 {
		e := Nothing()
		e.Onset.Form = Sudden
		e.Jobs = []Job{}
		if areas != nil {
			e.Jobs = append(e.Jobs, Job{Areas: areas})
		}
		return chances(Rank(e))
	}
	none, cam, brakes := chance(), chance("camshaft"), chance("brakes")
	for _, id := range []string{"cam_retarded_1t", "ign_retarded", "leads_crossed", "vac_adv_torn", "valve_tight"} {
		if cam[id] <= none[id] || cam[id]/cam["odo_sticking"] <= brakes[id]/brakes["odo_sticking"] {
			t.Errorf("%s: %.4f without work, %.4f after the cam, %.4f after the brakes", id, none[id], cam[id], brakes[id])
		}
	}
	if brakes["brake_bind"] < 3*none["brake_bind"] {
		t.Errorf("brake_bind: %.4f without work, %.4f after the brakes", none["brake_bind"], brakes["brake_bind"])
	}
}

// A row out of shape is refused with what is wrong.
func TestRowsOutOfShape(t *testing.T) {
	for _, c := range []struct{ from, to, want string }{
		{`weak_low = "usually moderate"`, `weak_low = "mostly moderate"`, "usually"},
		{`weak_low = "usually moderate"`, `weak_lo = "usually moderate"`, "not among the signs"},
		{`plug = "sooty 20"`, `plug = "purple 20"`, "purple"},
		{`plug = "sooty 20"`, `plug = "sooty 120"`, "120"},
		{`static_timing = "-9 ± 5"`, `static_timing = "late"`, "departure"},
		{`static_timing = "-9 ± 5"`, `static_timing = "60% -8 ± 4 | 30% 0 ± 2"`, "want 100"},
		{`fuel = [1, 6]`, `fuel = [1]`, "fuel"},
		{`{ work = 60, sudden = 10, gradual = 30 }`, `{ work = 60, sudden = 10, gradual = 3 }`, "comes"},
		{`name = "ignition set late"`, `nmae = "ignition set late"`, "nmae"},
		{`common = 45`, ``, "how common"},
	} {
		dir := t.TempDir()
		if err := os.CopyFS(dir, os.DirFS("table")); err != nil {
			t.Fatal(err)
		}
		file := filepath.Join(dir, "causes", "ignition.toml")
		b, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		text := strings.Replace(string(b), c.from, c.to, 1)
		if text == string(b) {
			t.Fatalf("%q does not stand in the table", c.from)
		}
		if err := os.WriteFile(file, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
		if _, err := Load(os.DirFS(dir)); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%q: error %v, want one that names %q", c.to, err, c.want)
		}
	}
}

package book

import (
	"math"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
)

const wholeVehicle = `name = "Heron"
year = 1974

[show]
economy = "mpg_uk"
distance = "mi"
volume = "l"
currency = "GBP"

[engine]
displacement_cc = 2600
cylinders = 6
compression_ratio = 8.8
fuel_system = "carburettor"
idle_rpm = 750
cam = { intake_opens_btdc = 20, intake_closes_abdc = 56, exhaust_opens_bbdc = 56, exhaust_closes_atdc = 20, sprocket_teeth = 40 }

[body]
mass_kg = 1380
shape = "estate"
drag_area_m2 = 0.85
tyres = "radial"

[driveline]
driven = "rear"
gearbox = "manual"
kmh_per_1000rpm = 32.5

[tank]
capacity_l = 64

[odometer]
unit = "mi"
digits = 5
correction = 1.02

[place]
monthly_c = [4, 4, 6, 9, 12, 15, 17, 17, 14, 11, 7, 5.5]
altitude_m = 120

[fuel.LPG]
mj_per_l = 24.5

[fuel."Own 5.5"]
mj_per_l = 31

[log]
healthy_from = 2024-01-01
healthy_to = "2024-03-01T12:00"

[[from]]
job = "cam-fit"
engine.cam = { intake_opens_btdc = 16, exhaust_opens_bbdc = 59 }
fuel.LPG.mj_per_l = 25

[[from]]
job = "gearbox"
[from.driveline]
gearbox = "automatic"
`

func TestVehicle(t *testing.T) {
	doc, err := parseVehicle([]byte(wholeVehicle))
	if err != nil {
		t.Fatal(err)
	}
	want := Vehicle{Name: "Heron", Year: 1974, Show: Show{"mpg_uk", "mi", "l", "GBP"},
		Engine:    Engine{2600, 6, 8.8, "carburettor", 750, Cam{20, 56, 56, 20, 40}},
		Body:      Body{1380, "estate", 0.85, "radial"},
		Driveline: Driveline{"rear", "manual", 32.5},
		Odometer:  Odometer{"mi", 5, 1.02},
		Fuel:      map[string]float64{"LPG": 24.5, "Own 5.5": 31}}
	want.Tank.CapacityL = 64
	want.Place.MonthlyC, want.Place.AltitudeM = []float64{4, 4, 6, 9, 12, 15, 17, 17, 14, 11, 7, 5.5}, 120
	want.Log.HealthyFrom, want.Log.HealthyTo = moment(t, "2024-01-01"), moment(t, "2024-03-01T12:00")
	if d := cmp.Diff(want, doc.Vehicle, cmpopts.IgnoreFields(Vehicle{}, "From")); d != "" {
		t.Errorf("(-want +got) %s", d)
	}

	after := doc.After(func(job string) bool { return job == "cam-fit" })
	if want := (Cam{16, 56, 59, 20, 40}); after.Engine.Cam != want || after.Driveline.Gearbox != "manual" || after.Fuel["LPG"] != 25 {
		t.Errorf("after the camshaft: %+v, want the cam %+v", after, want)
	}
	if doc.Engine.Cam.IntakeOpensBTDC != 20 || doc.Fuel["LPG"] != 24.5 {
		t.Error("the override reached the vehicle before it")
	}
	if v := doc.After(func(string) bool { return true }); v.Driveline.Gearbox != "automatic" {
		t.Errorf("after both: %+v", v.Driveline)
	}

	wrong := doc.strangers([]Job{{ID: "cam-fit"}, {ID: "gear-box"}})
	if len(wrong) != 1 || wrong[0].Line != 57 || *wrong[0].Suggestion != "gear-box" || wrong[0].Severity != "error" {
		t.Errorf("strangers: %v", wrong)
	}
}

// What is not in the file is not known, and never zero.
func TestVehicleOfANameAlone(t *testing.T) {
	doc, err := parseVehicle([]byte("\ufeffname = \"Heron\"\n")[3:])
	if err != nil {
		t.Fatal(err)
	}
	v := doc.Vehicle
	for i, x := range []float64{v.Year, v.Engine.DisplacementCC, v.Engine.Cylinders, v.Engine.CompressionRatio, v.Engine.IdleRPM,
		v.Engine.Cam.IntakeOpensBTDC, v.Engine.Cam.SprocketTeeth, v.Body.MassKg, v.Body.DragAreaM2, v.Driveline.KmhPer1000RPM,
		v.Tank.CapacityL, v.Odometer.Digits, v.Odometer.Correction, v.Place.AltitudeM} {
		if !math.IsNaN(x) {
			t.Errorf("figure %d is %v", i, x)
		}
	}
	if v.Place.MonthlyC != nil || v.Engine.FuelSystem != "" || !v.Log.HealthyFrom.IsZero() {
		t.Errorf("%+v", v)
	}
}

func TestShowFollowsTheFiles(t *testing.T) {
	for head, want := range map[string]Show{
		"date,odometer_mi,volume_l":      {Economy: "mpg_uk", Distance: "mi", Volume: "l"},
		"date,odometer_mi,volume_gal_us": {Economy: "mpg_us", Distance: "mi", Volume: "gal_us"},
		"date,odometer_km,volume_l":      {Economy: "l_100km", Distance: "km", Volume: "l"},
	} {
		if b := read(t, map[string]string{FillsFile: head + "\n"}); b.Vehicle.Show != want {
			t.Errorf("%s shows %+v, want %+v", head, b.Vehicle.Show, want)
		}
	}
	b := read(t, map[string]string{VehicleFile: heron + "[show]\ndistance = \"mi\"\n"})
	if want := (Show{Economy: "mpg_uk", Distance: "mi", Volume: "l"}); b.Vehicle.Show != want {
		t.Errorf("miles show %+v, want %+v", b.Vehicle.Show, want)
	}
}

func TestVehicleErrors(t *testing.T) {
	for _, c := range []struct{ text, want string }{
		{"year = 1974\n", `vehicle.toml:1: column "name": want the vehicle's name, got none`},
		{"name = \"a\\u001b[31mb\"\n", `vehicle.toml:1: column "name": want a short text in quotes, in one line`},
		{"name = Heron\n", `vehicle.toml:1: want TOML`},
		{heron + "\n[engine\n", `vehicle.toml:3: want TOML`},
		{heron + heron, `vehicle.toml:2: want TOML`},
		{heron + "[engine]\ncylindres = 6\n", `vehicle.toml:3: column "engine.cylindres": want a key that is known, got this one: is it "engine.cylinders"?`},
		{heron + "[engin]\ncylinders = 6\n", `is it "engine.cylinders"?`},
		{heron + "colour = \"green\"\n", `vehicle.toml:2: column "colour": want a key that is known`},
		{heron + "[engine]\ndisplacement_cc = 0\n", `vehicle.toml:3: column "engine.displacement_cc": want a number from 20 to 20000, got 0`},
		{heron + "[body]\nmass_kg = 40000\n", `want a number from 50 to 20000, got 40000`},
		{heron + "[engine]\ncompression_ratio = 2\n", `want a number from 3 to 25, got 2`},
		{heron + "[engine]\ncylinders = \"6\"\n", `want a number from 1 to 24, got "6"`},
		{heron + "[engine]\ncylinders = nan\n", `want a number from 1 to 24, got NaN`},
		{heron + "engine = 6\n", `column "engine": want a key that is known`},
		{heron + "[engine]\nfuel_system = \"carburetor\"\n", `want carburettor or injection, got "carburetor": is it "carburettor"?`},
		{heron + "[engine]\ncam = { intake_opens_btdc = 500 }\n", `vehicle.toml:3: column "engine.cam.intake_opens_btdc": want a number from -60 to 120`},
		{heron + "[engine]\ncam = 5\n", `vehicle.toml:3: column "engine.cam"`},
		{heron + "[place]\nmonthly_c = [1, 2]\n", `want twelve temperatures, January first, got 2`},
		{heron + "[place]\nmonthly_c = [1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 900]\n", `want a number from -70 to 60, got 900`},
		{heron + "[log]\nhealthy_from = \"last May\"\n", `vehicle.toml:3: column "log.healthy_from": want a date`},
		{heron + "[log]\nhealthy_from = 7\n", `want a date such as 2024-02-11, got 7`},
		{heron + "[fuel.LPG]\nmj_per_l = 245\n", `vehicle.toml:3: column "fuel.LPG.mj_per_l": want a number from 5 to 60`},
		{heron + "[fuel.LPG]\nmj = 24\n", `column "fuel.LPG.mj": want a key that is known`},
		{heron + "[from]\njob = \"a\"\n", `want [[from]] with two brackets`},
		{heron + "[[from]]\nyear = 1980\n", `vehicle.toml:2: column "from[0]": want job = "..."`},
		{heron + "[[from]]\njob = \"a\"\n\n[[from]]\njob = \"b\"\nengine.cylinders = 600\n", `vehicle.toml:7: column "from[1].engine.cylinders": want a number from 1 to 24`},
		{heron + "[[from]]\njob = \"a\"\n[from.engine]\ncylinders = 600\n", `vehicle.toml:5: column "from[0].engine.cylinders"`},
		{heron + "[engine]\ncylinders = 600\n[body]\nmass_kg = 1\n", `vehicle.toml:3:`},
	} {
		_, err := Read(logbook(t, map[string]string{VehicleFile: c.text}))
		if err == nil || !strings.Contains(err.Error(), c.want) || strings.Contains(err.Error(), "\n") {
			t.Errorf("%q:\n%v\nwant %s", c.text, err, c.want)
		}
	}
}

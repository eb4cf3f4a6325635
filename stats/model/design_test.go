package model_test

import (
	"math"
	"os"
	"path/filepath"
	"testing"

	"brimlog/ingest/book"
	"brimlog/ingest/tank"
	"brimlog/stats/model"
)

// designOf is the design of a small logbook of four tanks, with a job between the second and the third.
func designOf(t *testing.T, vehicle, fuel, job string) *model.Design {
	t.Helper()
	dir := t.TempDir()
	for name, text := range map[string]string{
		"vehicle.toml": "name = \"Test\"\n" + vehicle,
		"fills.csv":    "date,odometer_km,volume_l,fuel\n2024-01-01,1000,40," + fuel + "\n2024-01-10,1400,40," + fuel + "\n2024-01-19,1800,40," + fuel + "\n2024-01-28,2200,40," + fuel + "\n2024-02-06,2600,40," + fuel + "\n",
		"work.csv":     "id,date,odometer_km,kind,area,idle_min\n" + job,
	} {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	b, err := book.Read(dir)
	if err != nil || len(b.Problems) > 0 {
		t.Fatal(err, b.Problems)
	}
	return model.NewDesign(tank.Build(b))
}

const moved = "move,2024-01-19,1801,fit,other,\n"

// column is an observation's entry for a coefficient.
func column(t *testing.T, d *model.Design, o model.Obs, name string) (x, e float64) {
	t.Helper()
	for k, p := range d.Priors {
		if p.Name == name {
			return o.X[k], o.E[k]
		}
	}
	return 0, 0
}

// An owner who moves to a warmer place says so from a job on.
func TestClimateFromAJobOn(t *testing.T) {
	d := designOf(t, "[place]\nmonthly_c = [0,0,0,0,0,0,0,0,0,0,0,0]\n[[from]]\njob = \"move\"\nplace.monthly_c = [12,12,12,12,12,12,12,12,12,12,12,12]\n", "E5", moved)
	before, _ := column(t, d, d.Obs[1], "per degree below 20 C")
	after, _ := column(t, d, d.Obs[2], "per degree below 20 C")
	if math.Abs(before-20) > 0.2 || math.Abs(after-8) > 0.5 { // the scatter of the weather about its mean adds a little
		t.Errorf("degrees below 20 C: %v and then %v, want 20 and 8", before, after)
	}
}

// A label that holds other energy from a job on is set against what it held at first: as ln(litres/km) goes with 1/energy.
func TestEnergyFromAJobOn(t *testing.T) {
	d := designOf(t, "[fuel.own]\nmj_per_l = 30\n[[from]]\njob = \"move\"\nfuel.own.mj_per_l = 24\n", "own", moved)
	if got, want := d.Obs[3].Y-d.Obs[1].Y, math.Log(24.0/30); math.Abs(got-want) > 1e-12 {
		t.Errorf("the same litres over the same distance differ by %v, want %v", got, want)
	}
}

// Idling that nobody can have done is a slip of the pen.
func TestAbsurdIdling(t *testing.T) {
	for minutes, want := range map[string]float64{"60": 60.0 / 400, "90000": 0} {
		d := designOf(t, "", "E5", "job,2024-01-23,2000,repair,fuel,"+minutes+"\n")
		if _, got := column(t, d, d.Obs[2], "km per minute of idling"); math.Abs(got-want) > 1e-12 {
			t.Errorf("%s minutes: %v a km, want %v", minutes, got, want)
		}
	}
}

// A job on the day of a fill, without a reading, lies in the tank before the fill or in the one after it: its effect holds from the fill
// on either way, and what the workshop adds is as likely in the one as in the other.
func TestJobOnTheDayOfAFill(t *testing.T) {
	const m, v = 0.03 / 2, 0.03*0.03/2 + 0.03*0.03/4
	read, none := designOf(t, "", "E5", "set,2024-01-19,1800,adjust,ignition,\n"), designOf(t, "", "E5", "")
	day := designOf(t, "", "E5", "set,2024-01-19,,adjust,ignition,\n")
	if w := day.Obs[2].Work; w == nil || w.After != 1 || math.Abs(w.DirtyMean-m) > 1e-12 || math.Abs(w.DirtyVar-v) > 1e-12 || day.Obs[1].Work != nil {
		t.Errorf("after the fill: %+v", w)
	}
	if got := none.Obs[1].Y - day.Obs[1].Y; math.Abs(got-m) > 1e-12 {
		t.Errorf("before the fill %v is taken for dirt, want %v", got, m)
	}
	if got := day.Obs[1].Var - none.Obs[1].Var; math.Abs(got-v) > 1e-12 {
		t.Errorf("before the fill the dirt has a variance of %v, want %v", got, v)
	}
	if w := read.Obs[2].Work; w.DirtyMean != 0.03 || read.Obs[1].Y != none.Obs[1].Y {
		t.Errorf("with its reading: %+v", w)
	}
}

package tank_test

import (
	"fmt"
	"strings"
	"testing"
)

func TestOdometerRollsOver(t *testing.T) {
	l := folder{vehicle: "[odometer]\ndigits = 5", fills: `date,odometer_mi,volume_l
		2024-01-01,99600,40
		2024-01-08,99900,41
		2024-01-15,00150,42
		2024-01-22,00400,43`, trips: `date,odometer_start_mi,odometer_end_mi,road
		2024-01-10,99950,00030,town
		2024-01-16,00150,00200,open`, work: `id,date,odometer_mi,kind,area
		plugs,2024-01-12,00100,service,ignition`}.build(t)
	expectTanks(t, l, span{2, 3, 300 * mile, 41}, span{3, 4, 250 * mile, 42}, span{4, 5, 250 * mile, 43})
	expect(t, "noted town", l.Tanks[1].Conditions.Road[0], 80*mile)
	expect(t, "noted open road", l.Tanks[2].Conditions.Road[2], 50*mile)
	if j := l.Jobs[0]; j.Tank != 1 {
		t.Errorf("the job lies in tank %d", j.Tank+1)
	}
	expect(t, "driven after the job", l.Tanks[1].Work[0].After, 50./250)
}

// The instrument's own unit says where it rolls over, not the file's.
func TestOdometerOfAnotherUnit(t *testing.T) {
	l := folder{vehicle: "[odometer]\ndigits = 5\nunit = \"mi\"", fills: `date,odometer_km,volume_l
		2024-01-01,160773.4656,40
		2024-01-08,241.4016,41`}.build(t) // 99,900 and 150 miles
	expectTanks(t, l, span{2, 3, 250 * mile, 41})
}

// A new instrument begins where the job says. The old one's last reading is in the job's row.
func TestOdometerReplaced(t *testing.T) {
	l := folder{fills: `date,odometer_km,volume_l
		2024-01-01,50000,40
		2024-01-08,50400,41
		2024-01-20,150,42
		2024-01-28,550,43`, trips: `date,odometer_start_km,odometer_end_km,road
		2024-01-10,50400,50500,town
		2024-01-18,20,70,open
		2024-01-22,200,300,motorway`, work: `id,date,odometer_km,kind,area,readings
		dial,2024-01-12,50600,fit,odometer,odometer_reset_to=10`}.build(t)
	expectTanks(t, l, span{2, 3, 400, 41}, span{3, 4, 200 + 140, 42}, span{4, 5, 400, 43})
	expect(t, "driven after the job", l.Tanks[1].Work[0].After, 140./340)
	expect(t, "town before it", l.Tanks[1].Conditions.Road[0], 100)
	expect(t, "open road after it", l.Tanks[1].Conditions.Road[2], 50)
	expect(t, "motorway in the next tank", l.Tanks[2].Conditions.Road[3], 100)
}

// Where nobody read the old instrument, the distance across the change is not known: no tank spans it.
func TestOdometerReplacedUnread(t *testing.T) {
	l := folder{fills: `date,odometer_km,volume_l
		2024-01-01,50000,40
		2024-01-08,50400,41
		2024-01-20,150,42
		2024-01-28,550,43`, work: `id,date,kind,area,readings
		dial,2024-01-12,fit,odometer,odometer_reset_to=0`}.build(t)
	expectTanks(t, l, span{2, 3, 400, 41}, span{4, 5, 400, 43})
	if l.Tanks[1].Chained {
		t.Error("chained across the change")
	}
}

// A factor that comes with a job holds from it on.
func TestOdometerCorrectionFromAJobOn(t *testing.T) {
	l := folder{vehicle: "[odometer]\ncorrection = 1.02", fills: `date,odometer_km,volume_l
		2024-01-01,1000,40
		2024-01-08,1400,40
		2024-01-15,1800,40
		2024-01-22,2200,40`, work: `id,date,odometer_km,kind,area,readings
		tyres,2024-01-12,1500,fit,tyres,odometer_correction=0.97`}.build(t)
	expectTanks(t, l, span{2, 3, 408, 40}, span{3, 4, 102 + 300*0.97, 40}, span{4, 5, 388, 40})
}

// A measured factor tells how the instrument has been since its last cause to change.
func TestMeasuredCorrectionReachesBack(t *testing.T) {
	fills := `date,odometer_km,volume_l
		2024-01-01,1000,40
		2024-01-08,1400,40
		2024-01-15,1800,40
		2024-01-22,2200,40
		2024-01-29,2600,40`
	measured := "\nroad,2024-01-25,2400,measure,odometer,odometer_correction=0.96"
	for _, c := range []struct {
		name, work string
		km         [4]float64
	}{
		{"to the log's beginning", "", [4]float64{384, 384, 384, 384}},
		{"past a job on the engine", "\nplugs,2024-01-12,1500,service,ignition,", [4]float64{384, 384, 384, 384}},
		{"to the tyres", "\ntyres,2024-01-12,1500,fit,tyres,", [4]float64{400, 100 + 300*0.96, 384, 384}},
		{"to the axle", "\naxle,2024-01-20,2000,repair,driveline,", [4]float64{400, 400, 200 + 200*0.96, 384}},
		{"to the instrument", "\ndial,2024-01-20,2000,repair,odometer/other,", [4]float64{400, 400, 200 + 200*0.96, 384}},
	} {
		l := folder{fills: fills, work: "id,date,odometer_km,kind,area,readings" + c.work + measured}.build(t)
		if len(l.Tanks) != 4 {
			t.Fatalf("%s: %d tanks", c.name, len(l.Tanks))
		}
		for i, k := range l.Tanks {
			if !near(k.Km, c.km[i]) {
				t.Errorf("%s: tank %d is %v km, want %v", c.name, i+1, k.Km, c.km[i])
			}
		}
	}
}

// One reading out of line costs its own fill its place, and no other. Its fuel counts.
func TestOdometerOutOfLine(t *testing.T) {
	for name, shown := range map[string]string{"far too low": "180", "far too high": "18000"} {
		l := folder{fills: `date,odometer_km,volume_l
			2024-01-01,1000,40
			2024-01-08,1400,41
			2024-01-15,` + shown + `,42
			2024-01-22,2200,43
			2024-01-29,2600,44`}.build(t)
		t.Run(name, func(t *testing.T) {
			expectTanks(t, l, span{2, 3, 400, 41}, span{3, 5, 800, 85}, span{5, 6, 400, 44})
		})
	}
}

// A slip is no roll-over: a digit too few or too many costs its own fill its place, on an instrument of five figures too.
func TestSlipIsNoRollOver(t *testing.T) {
	for _, c := range []struct{ name, reading, slip string }{
		{"a digit too few", "9", "9080"}, {"a digit too many", "0", "98000"},
	} {
		rows, job := "date,odometer_mi,volume_l", "id,date,odometer_mi,kind,area\nplugs,2024-01-10,"+c.reading+"0650,service,ignition"
		for i, mi := range []string{"0200", "0500", c.slip, "1100", "1400", "1700"} {
			if i != 2 {
				mi = c.reading + mi
			}
			rows += fmt.Sprintf("\n2024-%s,%s,4%d", []string{"01-01", "01-08", "01-15", "01-22", "01-29", "02-05"}[i], mi, i)
		}
		t.Run(c.name+", in a fill", func(t *testing.T) {
			l := folder{vehicle: "[odometer]\ndigits = 5", fills: rows, work: job}.build(t)
			expectTanks(t, l, span{2, 3, 300 * mile, 41}, span{3, 5, 600 * mile, 42 + 43}, span{5, 6, 300 * mile, 44}, span{6, 7, 300 * mile, 45})
		})
		t.Run(c.name+", in a job", func(t *testing.T) {
			sound := strings.ReplaceAll(rows, c.slip, c.reading+"0800")
			slipped := strings.ReplaceAll(job, c.reading+"0650", c.slip)
			l := folder{vehicle: "[odometer]\ndigits = 5", fills: sound, work: slipped}.build(t)
			expectTanks(t, l, span{2, 3, 300 * mile, 41}, span{3, 4, 300 * mile, 42}, span{4, 5, 300 * mile, 43}, span{5, 6, 300 * mile, 44}, span{6, 7, 300 * mile, 45})
			if l.Jobs[0].Tank != 1 {
				t.Errorf("job in tank %d, by its date it is the second", l.Jobs[0].Tank+1)
			}
		})
	}
}

// Where two readings contradict each other and either may be the wrong one, neither is leaned on.
func TestOdometerContradicted(t *testing.T) {
	l := folder{fills: `date,odometer_km,volume_l
		2024-01-01,1000,40
		2024-01-08,1400,41
		2024-01-15,1380,42
		2024-01-22,2200,43
		2024-01-29,2600,44`}.build(t)
	expectTanks(t, l, span{2, 5, 1200, 126}, span{5, 6, 400, 44})
}

// An instrument that was changed without a word leaves the longer side, or either of two.
func TestOdometerChangedUnsaid(t *testing.T) {
	l := folder{fills: `date,odometer_km,volume_l
		2024-01-01,50000,40
		2024-01-08,50400,41
		2024-01-15,100,42
		2024-01-22,500,43`}.build(t)
	if len(l.Tanks) != 1 || !near(l.Tanks[0].Km, 400) {
		t.Errorf("tanks %+v", l.Tanks)
	}
	l = folder{fills: `date,odometer_km,volume_l
		2024-01-01,50000,40
		2024-01-08,50400,41
		2024-01-15,100,42
		2024-01-22,500,43
		2024-01-29,900,44`}.build(t)
	expectTanks(t, l, span{4, 5, 400, 43}, span{5, 6, 400, 44})
}

// Readings that stand still are in line.
func TestOdometerTwiceTheSame(t *testing.T) {
	l := folder{fills: `date,odometer_km,volume_l,full
		2024-01-01,1000,40,yes
		2024-01-08,1400,20,no
		2024-01-08T19:00,1400,21,yes
		2024-01-15,1800,42,yes`}.build(t)
	expectTanks(t, l, span{2, 4, 400, 41}, span{4, 5, 400, 42})
}

// Two fills on the day on which the instrument rolls over, neither with a time: the larger reading came first.
func TestOdometerRollsOverWithinADay(t *testing.T) {
	l := folder{vehicle: "[odometer]\ndigits = 5", fills: `date,odometer_km,volume_l
		2024-01-01,99500,40
		2024-01-08,00120,12
		2024-01-08,99900,41
		2024-01-15,00520,42`}.build(t)
	expectTanks(t, l, span{2, 4, 400, 41}, span{4, 3, 220, 12}, span{3, 5, 400, 42})
}

// A drive told by its length alone was read off the same instrument, so the same factor holds for it.
func TestDriveWithoutReadingsIsCorrected(t *testing.T) {
	l := folder{vehicle: "[odometer]\ncorrection = 0.9", fills: `date,odometer_km,volume_l
		2024-01-01,1000,40
		2024-01-08,1400,40
		2024-01-15,1800,40`, trips: `date,odometer_start_km,distance_km,road
		2024-01-04,,400,town
		2024-01-10,1400,200,open`}.build(t)
	expectTanks(t, l, span{2, 3, 360, 40}, span{3, 4, 360, 40})
	expect(t, "noted by date", l.Tanks[0].Conditions.Noted, 360)
	expect(t, "noted by its start", l.Tanks[1].Conditions.Noted, 180)
}

// What a job changed for good holds for the tanks since.
func TestVehicleFromAJobOn(t *testing.T) {
	l := folder{vehicle: "[tank]\ncapacity_l = 50\n[[from]]\njob = \"bigger\"\ntank.capacity_l = 80", fills: `date,odometer_km,volume_l
		2024-01-01,1000,40
		2024-01-08,1400,40
		2024-01-15,1800,40
		2024-01-22,2200,40`, work: `id,date,odometer_km,kind,area
		bigger,2024-01-10,1450,fit,fuel`}.build(t)
	for i, want := range []float64{50, 80, 80} {
		if got := l.VehicleAt(i).Tank.CapacityL; got != want {
			t.Errorf("tank %d holds %v L, want %v", i+1, got, want)
		}
	}
}

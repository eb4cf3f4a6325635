package book

import (
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
)

const heron = `name = "Heron"` + "\n"

// logbook writes a logbook with the files given, and a vehicle.toml where none is.
func logbook(tb testing.TB, files map[string]string) string {
	tb.Helper()
	dir := tb.TempDir()
	if _, ok := files[VehicleFile]; !ok {
		write(tb, filepath.Join(dir, VehicleFile), []byte(heron))
	}
	for name, text := range files {
		write(tb, filepath.Join(dir, name), []byte(text))
	}
	return dir
}

func read(tb testing.TB, files map[string]string) *Book {
	tb.Helper()
	b, err := Read(logbook(tb, files))
	if err != nil {
		tb.Fatal(err)
	}
	return b
}

func moment(tb testing.TB, s string) Moment {
	tb.Helper()
	m, err := ParseMoment(s)
	if err != nil {
		tb.Fatal(err)
	}
	return m
}

// near compares figures to nine digits; the conversions are exact by definition, binary fractions are not.
var near = cmp.Options{cmpopts.EquateApprox(1e-9, 0), cmpopts.EquateNaNs()}

var nan = math.NaN()

func TestReadFills(t *testing.T) {
	b := read(t, map[string]string{FillsFile: "\ufeffNote,volume_gal_uk, Date ,odometer_mi,odometer_km,volume_l,full,cost,fuel,missed,gauge,station,town_share," +
		"short_trips,pace,weak_low,weak_high,my own\r\n" +
		"\"two\r\nlines, and a \"\"quote\"\"\",10,2024-02-11,100,,,,78.10,e10,,,Hilltop,30,Some,USUAL,none,heavy,kept\r\n" +
		"\r\n" +
		",,2024-02-12 17:40,,160.9344,45.4609,n,,Own blend,1,1/4,,60 %,,,,,\r\n" +
		"'=SUM(A1),9 l,2024-02-13T06:05:09,412 km,,,TRUE,,,False,0.5\r\n" +
		",,,,,,,,,,,,,,,,,\r\n"})
	want := []Fill{
		{Place: Place{FillsFile, 2}, Date: moment(t, "2024-02-11"), Odometer: 160.9344, Litres: 45.4609, Full: true, Cost: 78.1, Fuel: "E10",
			Gauge: nan, Station: "Hilltop", TownShare: 0.3, Short: "some", Pace: "usual", WeakLow: None, WeakHigh: Heavy,
			Note: "two\nlines, and a \"quote\""},
		{Place: Place{FillsFile, 5}, Date: moment(t, "2024-02-12T17:40"), Odometer: 160.9344, Litres: 45.4609, Missed: true, Cost: nan,
			Fuel: "Own blend", Gauge: 0.25, TownShare: 0.6},
		{Place: Place{FillsFile, 6}, Date: moment(t, "2024-02-13T06:05:09"), Odometer: 412, Litres: 9, Full: true, Cost: nan, Gauge: 0.5,
			TownShare: nan, Note: "=SUM(A1)"},
	}
	if d := cmp.Diff(want, b.Fills, near); d != "" || len(b.Problems) > 0 {
		t.Errorf("(-want +got) %s\n%v", d, b.Problems)
	}
}

func TestReadTrips(t *testing.T) {
	b := read(t, map[string]string{TripsFile: "date,odometer_start_mi,odometer_end_mi,distance_km,road,pace,cruise_mph,air_f,cold_starts,idle_min,load_lb,tow_kg," +
		"hard_start,knock,runs_cold,note\n" +
		"2024-02-11,100,150,,Town,brisk,50,41,2,0.5 h,100,,trace,None,heavy,hello\n" +
		"2024-02-12,100,,10,,,,-3 c,,,,,,,,\n" +
		"2024-02-13,,150,10,,,,,,,,,,,,\n" +
		"2024-02-14,,,10,,,,,,,,,,,,\n" +
		"2024-02-15,150,100,,,,,,,,,,,,,\n"})
	var symptoms Symptoms
	symptoms[HardStart], symptoms[Knock], symptoms[RunsCold] = Trace, None, Heavy
	bare := func(line int, day string, start, end, km float64) Trip {
		return Trip{Place: Place{TripsFile, line}, Date: moment(t, day), Start: start, End: end, Km: km, CruiseKmh: nan, AirC: nan,
			ColdStarts: nan, IdleMin: nan, LoadKg: nan, TowKg: nan}
	}
	first := bare(2, "2024-02-11", 160.9344, 241.4016, 80.4672)
	first.Road, first.Pace, first.CruiseKmh, first.AirC, first.ColdStarts, first.IdleMin, first.LoadKg, first.Symptoms, first.Note =
		"town", "brisk", 80.4672, 5, 2, 30, 45.359237, symptoms, "hello"
	second := bare(3, "2024-02-12", 160.9344, 170.9344, 10)
	second.AirC = -3
	want := []Trip{first, second, bare(4, "2024-02-13", 231.4016, 241.4016, 10), bare(5, "2024-02-14", nan, nan, 10),
		bare(6, "2024-02-15", 241.4016, 160.9344, nan)}
	if d := cmp.Diff(want, b.Trips, near); d != "" || len(b.Problems) > 0 {
		t.Errorf("(-want +got) %s\n%v", d, b.Problems)
	}
}

func TestReadWork(t *testing.T) {
	b := read(t, map[string]string{WorkFile: "id,date,odometer_mi,kind,area,what,readings,cost,hours,idle_min,fuel_lost_l,note\n" +
		`cam-fit,2024-03-01,100,Fit,camshaft/Ignition,milder cam,"cam_phase_deg=-4.5; compression_bar = 145 psi/150psi/10.2;coast_s=21.6@80-60;` +
		`pull_s=9.5@37-50mph;smoke=Blue;vacuum_needle=drift;odometer_reset_to=100;odometer_correction=1.03;own_word=fine;own_number=7/8",120,6.5,10,2,done` + "\n"})
	want := []Job{{Place: Place{WorkFile, 2}, ID: "cam-fit", Date: moment(t, "2024-03-01"), Odometer: 160.9344, Kind: "fit",
		Areas: []string{"camshaft", "ignition"}, What: "milder cam", Cost: 120, Hours: 6.5, IdleMin: 10, FuelLostL: 2, Note: "done",
		Readings: []Reading{
			{Name: "cam_phase_deg", Text: "-4.5", Values: []float64{-4.5}},
			{Name: "compression_bar", Text: "145 psi/150psi/10.2", Values: []float64{9.997398075, 10.342135940, 10.2}},
			{Name: "coast_s", Text: "21.6@80-60", Values: []float64{21.6}, Speeds: []float64{80, 60}},
			{Name: "pull_s", Text: "9.5@37-50mph", Values: []float64{9.5}, Speeds: []float64{59.545728, 80.4672}},
			{Name: "smoke", Text: "blue"}, {Name: "vacuum_needle", Text: "drift"},
			{Name: "odometer_reset_to", Text: "100", Values: []float64{160.9344}},
			{Name: "odometer_correction", Text: "1.03", Values: []float64{1.03}},
			{Name: "own_word", Text: "fine"}, {Name: "own_number", Text: "7/8", Values: []float64{7, 8}},
		}}}
	if d := cmp.Diff(want, b.Jobs, near); d != "" || len(b.Problems) > 0 {
		t.Errorf("(-want +got) %s\n%v", d, b.Problems)
	}
}

func TestReadingInAnotherUnit(t *testing.T) {
	b := read(t, map[string]string{WorkFile: "id,date,kind,readings\na,2024-03-01,measure,compression_psi=145/150;thermostat_f=176\n"})
	r, ok := b.Jobs[0].Reading("compression_bar")
	if d := cmp.Diff([]float64{9.997398075, 10.342135940}, r.Values, near); !ok || d != "" || r.Name != "compression_psi" {
		t.Errorf("compression in bar: %+v %s", r, d)
	}
	if r, ok := b.Jobs[0].Reading("thermostat_c"); !ok || math.Abs(r.Values[0]-80) > 1e-9 {
		t.Errorf("thermostat in °C: %+v", r)
	}
	if r, ok := b.Jobs[0].Reading("tyre_bar"); ok {
		t.Errorf("a reading that was not taken: %+v", r)
	}
}

func TestReadAnEmptyLogbook(t *testing.T) {
	for _, files := range []map[string]string{{}, {FillsFile: ""}, {FillsFile: "\ufeff"}, {FillsFile: "date,odometer_km,volume_l\n", WorkFile: "id,date\n"}} {
		b := read(t, files)
		if len(b.Fills)+len(b.Trips)+len(b.Jobs)+len(b.Problems) > 0 || b.Vehicle.Name != "Heron" || !b.Last().IsZero() {
			t.Errorf("%v reads as %+v", files, b)
		}
	}
}

// More rows than one lot, with quoted line ends and rows that are none among them: every line stays true.
func TestReadKeepsTrueLines(t *testing.T) {
	var text strings.Builder
	text.WriteString("date,odometer_km,volume_l,note\n")
	line, want := 2, []int{}
	for i := range 3 * lotRows {
		switch i % 5 {
		case 0:
			text.WriteString("2024-01-01,1,1,\"a\nb\nc\"\n")
			want, line = append(want, line), line+3
		case 1:
			text.WriteString("\n")
			line++
		case 2:
			text.WriteString("2024-01-01,1,1,a\"b\n") // no CSV
			line++
		default:
			text.WriteString("2024-01-01,1,1,x\n")
			want, line = append(want, line), line+1
		}
	}
	b := read(t, map[string]string{FillsFile: text.String()})
	var got []int
	for i, f := range b.Fills {
		got = append(got, f.Line)
		if f.Missed != (i%3 == 1) {
			t.Fatalf("line %d: missed %v, a row was lost before every third", f.Line, f.Missed)
		}
	}
	if !slices.Equal(got, want) {
		t.Errorf("lines differ (-want +got) %s", cmp.Diff(want, got))
	}
	for _, p := range b.Problems {
		if row := strings.Split(text.String(), "\n")[p.Line-1]; !strings.Contains(row, `a"b`) {
			t.Fatalf("%v stands at %q", p, row)
		}
	}
}

// A quote that is never closed spoils its own line; the rows after it are read.
func TestReadGoesOnAfterAnOpenQuote(t *testing.T) {
	b := read(t, map[string]string{FillsFile: "date,odometer_km,volume_l,note\n2024-01-01,1,1,\"open\n2024-01-02,2,2,\"closed\"\n2024-01-03,3,3,\n"})
	if len(b.Fills) != 2 || b.Fills[0].Line != 3 || b.Fills[1].Line != 4 || len(b.Problems) != 1 || b.Problems[0].Line != 2 {
		t.Errorf("fills %+v\nproblems %v", b.Fills, b.Problems)
	}
}

func TestUntil(t *testing.T) {
	b := read(t, map[string]string{
		FillsFile: "date,odometer_km,volume_l,pace\n2024-01-01,1,1,\n2024-01-02,2,2,fast\n2024-01-02T17:40,3,3,\nx,4,4,\n2024-01-03,5,5,fast\n",
		TripsFile: "date\n2024-01-02T08:00\n2024-01-04\n",
		WorkFile:  "id,date,kind\na,2024-01-01,fit\nb,2024-01-05,fit\n",
	})
	if got := b.Last().String(); got != "2024-01-05" {
		t.Errorf("the log ends on %s", got)
	}
	for cut, want := range map[string][5]int{ // fills, trips, jobs, problems
		"2023-12-31":          {0, 0, 0, 0},
		"2024-01-01":          {1, 0, 1, 0},
		"2024-01-02T07:59":    {2, 0, 1, 1},
		"2024-01-02T08:00":    {2, 1, 1, 1},
		"2024-01-02T17:39:59": {2, 1, 1, 1},
		"2024-01-02":          {3, 1, 1, 2},
		"2024-01-03":          {4, 1, 1, 3},
		"2024-01-09":          {4, 2, 2, 3},
	} {
		c := b.Until(moment(t, cut))
		if got := [5]int{len(c.Fills), len(c.Trips), len(c.Jobs), len(c.Problems)}; got != want {
			t.Errorf("until %s: %v, want %v", cut, got, want)
		}
	}
	if len(b.Fills) != 4 || len(b.Problems) != 3 {
		t.Error("the logbook itself was changed")
	}
}

func TestReadRefusesWhatIsNoLogbook(t *testing.T) {
	dir := t.TempDir()
	write(t, filepath.Join(dir, "file"), nil)
	for path, want := range map[string]string{
		filepath.Join(dir, "none"): "want a logbook's folder, got nothing there",
		filepath.Join(dir, "file"): "want a logbook's folder, got a file",
		dir:                        "vehicle.toml: want it in " + dir + ", got no such file: run brimlog init " + dir,
	} {
		if _, err := Read(path); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("Read(%s): %v, want %q", path, err, want)
		}
	}
	odd := logbook(t, nil)
	if err := os.Mkdir(filepath.Join(odd, FillsFile), 0o755); err != nil {
		t.Fatal(err)
	}
	if _, err := Read(odd); err == nil || !strings.Contains(err.Error(), "fills.csv: want a file, got a folder") {
		t.Errorf("a folder for a file: %v", err)
	}
}

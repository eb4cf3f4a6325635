package book

import (
	"fmt"
	"path/filepath"
	"strings"
	"testing"
)

const (
	fillsHead = "date,odometer_mi,odometer_km,volume_l,volume_gal_uk,full,cost,fuel,missed,gauge,station,town_share,short_trips,pace,weak_low,weak_high,note\n"
	tripsHead = "date,odometer_start_km,odometer_end_km,distance_km,distance_mi,road,pace,cruise_kmh,air_c,cold_starts,idle_min,load_kg,tow_kg,knock\n"
	workHead  = "id,date,odometer_mi,kind,area,what,readings,cost\n"
)

// Every message that a cell or a row can cause, one row each: where, what kind, how bad, the words that tell
// what to do, and the corrected cell. left is how many rows stay in the book.
func TestProblems(t *testing.T) {
	for _, c := range []struct {
		file, text       string
		line             int
		column, kind     string
		severity         string
		message, correct string
		left             int
	}{
		{FillsFile, "11/02/2024,1,,1\n", 2, "date", "bad_value", "error", `want a date such as 2024-02-11`, "", 0},
		{FillsFile, "25/02/2024,1,,1\n", 2, "date", "bad_value", "error", `got "25/02/2024"`, "2024-02-25", 0},
		{FillsFile, "02-25-2024,1,,1\n", 2, "date", "bad_value", "error", `want a date`, "2024-02-25", 0},
		{FillsFile, "2024-2-1,1,,1\n", 2, "date", "bad_value", "error", `want a date`, "2024-02-01", 0},
		{FillsFile, "2024-02-30,1,,1\n", 2, "date", "bad_value", "error", `a day that the calendar has`, "", 0},
		{FillsFile, "0204-02-11,1,,1\n", 2, "date", "bad_value", "error", `a year from 1885 to 2200`, "", 0},
		{FillsFile, "2024-02-11T17:40Z,1,,1\n", 2, "date", "bad_value", "error", `without zone`, "2024-02-11T17:40", 0},
		{FillsFile, ",1,,1\n", 2, "date", "bad_value", "error", `want a date, got an empty cell`, "", 0},
		{FillsFile, ",,,,,,,,,,,,,,,,totals\n", 2, "date", "bad_value", "error", `got none of them`, "", 0},
		{FillsFile, "2024-02-11,,,1\n", 2, "odometer_mi", "bad_value", "doubt", `the fuel counts, but no tank`, "", 1},
		{FillsFile, "2024-02-11,4821O,,1\n", 2, "odometer_mi", "bad_value", "error", `the digit 0, not the letter O`, "48210", 1},
		{FillsFile, "2024-02-11,-1,,1\n", 2, "odometer_mi", "bad_value", "error", `want 0 to 62137`, "", 1},
		{FillsFile, "2024-02-11,1,2,1\n", 2, "odometer_km", "bad_value", "error", `want one of odometer_mi and odometer_km filled, got both`, "", 1},
		{FillsFile, "2024-02-11,1,,\n", 2, "volume_l", "bad_value", "error", `got an empty cell: the tank that ends here has no figure`, "", 1},
		{FillsFile, "2024-02-11,1,,0\n", 2, "volume_l", "bad_value", "error", `want a volume above zero`, "", 1},
		{FillsFile, "2024-02-11,1,,\"1,234\"\n", 2, "volume_l", "bad_value", "error", `a comma can mark thousands or decimals`, "", 1},
		{FillsFile, "2024-02-11,1,,9 gal\n", 2, "volume_l", "unknown_unit", "error", `write gal_uk (4.546 L) or gal_us (3.785 L)`, "", 1},
		{FillsFile, "2024-02-11,1,,9 km\n", 2, "volume_l", "unknown_unit", "error", `km is a distance, this column holds a volume`, "", 1},
		{FillsFile, "2024-02-11,1,,5,1\n", 2, "volume_gal_uk", "bad_value", "error", `empty one of them`, "", 1},
		{FillsFile, "2024-02-11,1,,1,,maybe\n", 2, "full", "unknown_word", "doubt", `want yes or no, got "maybe"`, "", 1},
		{FillsFile, "2024-02-11,1,,1,,,-12\n", 2, "cost", "bad_value", "doubt", `want 0 to 1000000000, got "-12"`, "", 1},
		{FillsFile, "2024-02-11,1,,1,,,,,,1.5\n", 2, "gauge", "bad_value", "doubt", `want 0 to 1, got "1.5"`, "", 1},
		{FillsFile, "2024-02-11,1,,1,,,,,,5/4\n", 2, "gauge", "bad_value", "doubt", `0.25 or 1/4`, "", 1},
		{FillsFile, "2024-02-11,1,,1,,,,,,,,130\n", 2, "town_share", "bad_value", "doubt", `want 0 to 100 %`, "", 1},
		{FillsFile, "2024-02-11,1,,1,,,,,,,,,mst\n", 2, "short_trips", "unknown_word", "doubt", `want none, some or most`, "most", 1},
		{FillsFile, "2024-02-11,1,,1,,,,,,,,,,birsk\n", 2, "pace", "unknown_word", "doubt", `want easy, usual or brisk`, "brisk", 1},
		{FillsFile, "2024-02-11,1,,1,,,,,,,,,,,havy\n", 2, "weak_low", "unknown_word", "doubt", `want none, trace, moderate or heavy`, "heavy", 1},
		{FillsFile, "2024-02-11,1,,1,,,,,,,,,,,,,a\x1b[31mb\n", 2, "note", "bad_value", "doubt", `want plain text in UTF-8`, "a[31mb", 1},
		{FillsFile, "2024-02-11,1,,1,,,,,,,caf\xe9\n", 2, "station", "bad_value", "doubt", `another encoding`, "café", 1},
		{FillsFile, "2024-02-11,1,,1,,,,,,,,,,,,,a,b\n", 2, "", "bad_value", "error", `want 17 cells as in the header, got 18`, "", 0},
		{FillsFile, "2024-02-11,1,,1,,,,,,,,,,,,,a\"b\n", 2, "", "bad_value", "error", `put quotes around the cell`, "", 0},
		{FillsFile, "2024-02-11,1,,1,,,,,,,,,,,,,\"a\"b\n", 2, "", "bad_value", "error", `want a closing quote`, "", 0},
		{TripsFile, ",1,2\n", 2, "date", "bad_value", "error", `want a date, got an empty cell`, "", 0},
		{TripsFile, "2024-02-30,1,2\n", 2, "date", "bad_value", "error", `a day that the calendar has`, "", 0},
		{TripsFile, "2024-02-11,100,200,50\n", 2, "distance_km", "bad_value", "doubt", `want the distance between start and end, 100 km, got 50 km`, "100", 1},
		{TripsFile, "2024-02-11,,,1,1\n", 2, "distance_mi", "bad_value", "doubt", `want one of distance_km and distance_mi`, "", 1},
		{TripsFile, "2024-02-11,,,1,,motoway\n", 2, "road", "unknown_word", "doubt", `town, mixed, open, motorway or track`, "motorway", 1},
		{TripsFile, "2024-02-11,,,1,,,,,99\n", 2, "air_c", "bad_value", "doubt", `want -70 to 70 °C`, "", 1},
		{TripsFile, "2024-02-11,,,1,,,,,,,,,,slight\n", 2, "knock", "unknown_word", "doubt", `none, trace, moderate or heavy`, "", 1},
		{FillsFile, "2024-02-11,\"47,90\",,1\n", 2, "odometer_mi", "bad_value", "error", `want the odometer with three digits behind a comma`, "", 1},
		{FillsFile, "2024-02-11,1,,\"£52.31\"\n", 2, "volume_l", "bad_value", "error", `the number alone, without a currency sign`, "52.31", 1},
		{FillsFile, "2024-02-11,1,,1,,,\"£6,210\"\n", 2, "cost", "bad_value", "doubt", `want a number`, "", 1},
		{WorkFile, "a,,1,fit\n", 2, "date", "bad_value", "error", `want a date`, "", 0},
		{WorkFile, ",2024-02-11,1,fit\n", 2, "id", "bad_value", "doubt", `until you change it, ask for this job as "work-2"`, "work-2", 1},
		{WorkFile, "a,2024-02-11,1,fit\na,2024-02-12,1,fit\n", 3, "id", "duplicate", "doubt", `got "a", which line 2 has: until you change it, ask for this job as "a-3"`, "a-3", 2},
		{WorkFile, "a,2024-02-11,1,\n", 2, "kind", "bad_value", "doubt", `the job is taken for a change`, "", 1},
		{WorkFile, "a,2024-02-11,1,mesure\n", 2, "kind", "unknown_word", "doubt", `fit, adjust, repair, service or measure`, "measure", 1},
		{WorkFile, "a,2024-02-11,1,fit,fuel/brake\n", 2, "area", "unknown_word", "doubt", `got "brake"`, "fuel/brakes", 1},
		{WorkFile, "a,2024-02-11,1,fit,,,lambda 0.9\n", 2, "readings", "bad_value", "doubt", `name=value split by semicolons`, "", 1},
		{WorkFile, "a,2024-02-11,1,fit,,,lambda=0.9;lambda=1\n", 2, "readings", "bad_value", "doubt", `each reading once`, "", 1},
		{WorkFile, "a,2024-02-11,1,fit,,,lambda=rich\n", 2, "readings", "bad_value", "doubt", `reading lambda: want a number such as`, "", 1},
		{WorkFile, "a,2024-02-11,1,fit,,,lambda=9\n", 2, "readings", "bad_value", "doubt", `reading lambda: want 0.3 to 5`, "", 1},
		{WorkFile, "a,2024-02-11,1,fit,,,lambda=0.9/1\n", 2, "readings", "bad_value", "doubt", `want one number, got 2`, "", 1},
		{WorkFile, "a,2024-02-11,1,fit,,,coast_s=21.6\n", 2, "readings", "bad_value", "doubt", `want the speeds it was timed between`, "", 1},
		{WorkFile, "a,2024-02-11,1,fit,,,coast_s=21.6@80\n", 2, "readings", "bad_value", "doubt", `as in coast_s=21.6@80-60`, "", 1},
		{WorkFile, "a,2024-02-11,1,fit,,,lambda=1;lamda_idle=0.9\n", 2, "readings", "unknown_word", "doubt", `reading "lamda_idle" is kept, but the program knows no such name: was lambda_idle meant?`, "lambda=1;lambda_idle=0.9", 1},
		{WorkFile, "a,2024-02-11,1,fit,,,timming_deg=8\n", 2, "readings", "unknown_word", "doubt", `was timing_2500_deg, timing_2500_vac_deg or timing_idle_deg meant?`, "", 1},
		{WorkFile, "a,2024-02-11,1,fit,,,timing_deg=8\n", 2, "readings", "unknown_word", "doubt", `was timing_2500_deg or timing_idle_deg meant?`, "", 1},
		{WorkFile, "a,2024-02-11,1,fit,,,smoke=blak;x=1\n", 2, "readings", "unknown_word", "doubt", `want smoke=none, black, blue or white`, "smoke=black;x=1", 1},
	} {
		t.Run(c.file+" "+c.text, func(t *testing.T) {
			head := map[string]string{FillsFile: fillsHead, TripsFile: tripsHead, WorkFile: workHead}[c.file]
			b := read(t, map[string]string{c.file: head + c.text})
			if left := len(b.Fills) + len(b.Trips) + len(b.Jobs); len(b.Problems) != 1 || left != c.left {
				t.Fatalf("%d rows left, problems %v; want %d and one problem", left, b.Problems, c.left)
			}
			p := b.Problems[0]
			if p.File != c.file || p.Line != c.line || p.Column != c.column || p.Kind != c.kind || p.Severity != c.severity {
				t.Errorf("%v is %s, %s; want line %d, column %q, %s, %s", p, p.Kind, p.Severity, c.line, c.column, c.kind, c.severity)
			}
			correct := ""
			if p.Suggestion != nil {
				correct = *p.Suggestion
			}
			if !strings.Contains(p.Message, c.message) || correct != c.correct {
				t.Errorf("%v (suggests %q); want %q (%q)", p, correct, c.message, c.correct)
			}
			if strings.ContainsAny(p.Error(), "\n\x1b") {
				t.Errorf("not one harmless line: %q", p.Error())
			}
		})
	}
}

// What is wrong with a file as a whole, in the words that say what to do.
func TestFileErrors(t *testing.T) {
	for _, c := range []struct{ file, text, want string }{
		{FillsFile, "date,odometer_mi\n", `fills.csv:1: want a column volume_l, volume_gal_uk or volume_gal_us in the header, got "date,odometer_mi": add it`},
		{FillsFile, "odometer_mi,volume_l\n", `fills.csv:1: want a column date in the header`},
		{FillsFile, "date,odometer,volume_l\n", `want a unit in the column's name, got "odometer": rename it odometer_km or odometer_mi`},
		{FillsFile, "date,odometer_mi,volume_gal\n", `got "volume_gal": rename it volume_l, volume_gal_uk or volume_gal_us`},
		{FillsFile, "date;odometer_mi;volume_l\n", `want columns split by commas`},
		{FillsFile, "date,odometer_mi,volume_l,cost, Cost\n", `fills.csv:1: column "cost": want each column once, got it twice`},
		{FillsFile, "date,odometer_mi,volume_l\n2024-01-01,1,1\n2024-01-\x0002,2,2\n", `fills.csv:3: want UTF-8 text, got a NUL byte`},
		{FillsFile, "date,odometer_mi,volume_l\n" + strings.Repeat("x", longestLine+1), `fills.csv:2: want lines of at most 1 MiB`},
		{FillsFile, "date,\"odometer_mi,volume_l\n", `fills.csv:1: want a closing quote`},
		{TripsFile, "road\n", `trips.csv:1: want a column date`},
		{WorkFile, "date,kind\n", `work.csv:1: want a column id`},
	} {
		_, err := Read(logbook(t, map[string]string{c.file: c.text}))
		if err == nil || !strings.Contains(err.Error(), c.want) || strings.Contains(err.Error(), "\n") {
			t.Errorf("%.60q: %v; want %s", c.text, err, c.want)
		}
	}
}

// A column one slip away from a known one is doubted; an owner's own column is not.
func TestMisspeltColumn(t *testing.T) {
	b := read(t, map[string]string{FillsFile: "date,odometer_mi,volume_l,town_shar,notes,weather,receipt,stations\n"})
	if len(b.Problems) != 1 || *b.Problems[0].Suggestion != "town_share" || b.Problems[0].Column != "town_shar" || b.Problems[0].Severity != "doubt" {
		t.Errorf("problems %v", b.Problems)
	}
}

// A fill that cannot be used leaves a hole, and no tank may span it; a row of totals leaves none.
func TestHoleCountsAsMissed(t *testing.T) {
	b := read(t, map[string]string{FillsFile: "date,odometer_mi,volume_l\n2024-01-01,100,10\nyesterday,200,10\n2024-01-03,300,10\n2024-01-04,400,10\n"})
	if len(b.Fills) != 3 || b.Fills[0].Missed || !b.Fills[1].Missed || b.Fills[2].Missed {
		t.Errorf("fills %+v", b.Fills)
	}
	b = read(t, map[string]string{FillsFile: "date,odometer_mi,volume_l\n2024-01-04,400,10\n2024-01-03,300,10\nyesterday,200,10\n2024-01-01,100,10\n"})
	if len(b.Fills) != 3 || b.Fills[0].Missed || !b.Fills[1].Missed || b.Fills[2].Missed {
		t.Errorf("newest first: fills %+v", b.Fills)
	}
	for _, first := range []string{"2024-01-02,200,10\n2024-01-03,300,10\n", "2024-01-03,300,10\n2024-01-02,200,10\n"} {
		b = read(t, map[string]string{FillsFile: "date,odometer_mi,volume_l\nyesterday,400,10\n" + first})
		if len(b.Fills) != 2 || b.Fills[0].Missed || b.Fills[1].Missed {
			t.Errorf("lost before the first row: fills %+v", b.Fills)
		}
	}
	b = read(t, map[string]string{FillsFile: "date,odometer_mi,volume_l,note\n2024-01-01,100,10\n,,,totals\n2024-01-03,300,10\n"})
	if len(b.Fills) != 2 || b.Fills[1].Missed || len(b.Problems) != 1 {
		t.Errorf("fills %+v", b.Fills)
	}
	b = read(t, map[string]string{FillsFile: "date,odometer_mi,volume_l,full,missed\n2024-01-01,100,10,what,what\n"})
	if b.Fills[0].Full || !b.Fills[0].Missed {
		t.Errorf("words not known read as %+v", b.Fills[0])
	}
}

// Readings of the owner's own, and known ones in another unit, are nobody's slips; what looks like one is written all the same.
func TestReadingsOfOnesOwn(t *testing.T) {
	dir := logbook(t, nil)
	for i, readings := range []string{"oil_temp_c=90;fuel_pump_bar=0.3;dwell=52", "tyre_psi=28/28/30/30;idle_vacuum_bar=0.6", "rpm=750;idle_rpm=800;gap=0.6", "timming_deg=8"} {
		if _, err := Append(dir, WorkFile, Cells{"id": fmt.Sprint("a", i), "date": "2024-02-11", "kind": "measure", "readings": readings}); err != nil {
			t.Error(err)
		}
	}
	b, err := Read(dir)
	if err != nil || len(b.Problems) != 1 || b.Problems[0].Line != 5 {
		t.Errorf("%v, %v", err, b.Problems)
	}
	if r, ok := b.Jobs[3].Reading("timming_deg"); !ok || r.Text != "8" {
		t.Errorf("it is not kept: %+v", b.Jobs[3])
	}
}

// A reading of words takes its own words alone.
func TestSparkSinceTheCam(t *testing.T) {
	for text, want := range map[string]int{"ignition_since_cam=moved": 0, "ignition_since_cam=reset": 0, "ignition_since_cam=unknown": 0, "ignition_since_cam=maybe": 1} {
		dir := t.TempDir()
		write(t, filepath.Join(dir, VehicleFile), []byte(`name = "Test"`))
		write(t, filepath.Join(dir, WorkFile), []byte("id,date,kind,area,readings\na,2024-02-11,measure,camshaft,"+text+"\n"))
		b, err := Read(dir)
		if err != nil || len(b.Problems) != want {
			t.Errorf("%s: %v, %v", text, err, b.Problems)
		}
	}
}

package foreign

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"brimlog/ingest/book"
)

// lines makes a sheet of rows.
func lines(rows ...string) string { return strings.Join(rows, "\n") + "\n" }

// What can be read in two ways, or in none, is refused: one message a test, with the line, and the log stays as it was.
func TestRefusals(t *testing.T) {
	const head = "Date,Odo,Litres"
	good := "25/02/2024,48213,52.31"
	for _, c := range []struct {
		name, sheet, want string
		change            func(*Options)
	}{
		{"nothing at all", "", "sheet.csv:1: want a table with a row of headings, got none", nil},
		{"no headings", lines("25/02/2024,48213,52.31", "26/02/2024,48400,40"), "sheet.csv:1: want a row of headings with a date and what goes with it, got none in the first 40 rows", nil},
		{"headings alone", lines(head), "sheet.csv:1: want rows below the headings, got none", nil},
		{"a workbook", "PK\x03\x04\x00\x00", "sheet.csv:1: want text, got a NUL byte: save the sheet as CSV, not as a workbook", nil},
		{"a NUL byte in a later line", lines(head, good) + "25/02/2024,4\x00,1\n", "sheet.csv:3: want text, got a NUL byte", nil},
		{"another encoding", lines(head, good) + "25/02/2024,48213,\x81\n", "sheet.csv:3: want UTF-8, UTF-16 or Windows-1252, got a byte 81", nil},
		{"a long line", lines(head, good+","+strings.Repeat("x", 1<<20)), "sheet.csv:2: want lines of at most 1 MiB", nil},
		{"too many columns", lines("Date,Odo,Litres" + strings.Repeat(",Note", 198)), "sheet.csv:1: want at most 200 headings, got 201", nil},
		{"an open quote", lines(head, good, `"26/02/2024,48400,40`, good), `sheet.csv:3: want a closing quote at the end of the cell`, nil},
		{"a quote inside", lines(head, good, `26/02/2024,48"400,40`), `sheet.csv:3: want quotes around the whole cell`, nil},

		{"both orders of dates", lines(head, "03/04/2024,48213,52.31"),
			`sheet.csv:2: column "Date": want one reading, got "03/04/2024", which can be 3 April 2024 or 4 March 2024: say --dates dmy, mdy or ymd`, nil},
		{"a first line that says nothing", lines(head, "03/03/2024,48213,52.31", "03/04/2024,48400,40"), `sheet.csv:3: column "Date": want one reading, got "03/04/2024"`, nil},
		{"dates that one pair of readings orders", lines(head, "01/02/2024,48213,50", "05/02/2024,48413,40", "03/03/2024,48600,41"),
			`sheet.csv:2: column "Date": want one reading, got "01/02/2024", which can be 1 February 2024 or 2 January 2024 (by mdy the odometer runs back once, to line 4, ` +
				`which is too little to go by): say --dates dmy, mdy or ymd`, nil},
		{"two orders in one sheet", lines(head, "25/02/2024,48213,52.31", "02/26/2024,48400,40"),
			`sheet.csv:3: column "Date": want dates in one order in the whole sheet, got "02/26/2024" here and "25/02/2024" in line 2`, nil},
		{"years of two digits", lines(head, "03/04/05,48213,52.31"), `3 April 2005 or 4 March 2005 or 5 April 2003`, nil},
		{"a day that is not", lines(head, good, "31/02/2024,48400,40"), `sheet.csv:3: column "Date": want a day that the calendar has and that is past, in the order dmy, got "31/02/2024"`, nil},
		{"a day to come", lines(head, good, "25/02/2036,48400,40"), `sheet.csv:3: column "Date": want a day that the calendar has and that is past`, nil},
		{"a spreadsheet's day number", lines(head, good, "45333,48400,40"), `sheet.csv:3: column "Date": want a date, got "45333", a spreadsheet's count of days`, nil},
		{"no date", lines(head, good, ",48400,40"), `sheet.csv:3: column "Date": want a date, got an empty cell in a row with figures`, nil},
		{"words for a date", lines(head, good, "soon,48400,40"), `sheet.csv:3: column "Date": want a date such as 2024-02-11, got "soon"`, nil},
		{"told dates that do not fit", lines(head, good), `sheet.csv:2: column "Date": want a day that the calendar has and that is past, in the order mdy, got "25/02/2024"`,
			func(o *Options) { o.Dates = "mdy" }},
		{"a time that is none", lines("Date,Time,Odo,Litres", "25/02/2024,teatime,48213,52.31"), `sheet.csv:2: column "Time": want a time of day such as 17:40, got "teatime"`, nil},

		{"a mark for thousands or decimals", lines("Date;Odo;Litres", "25/02/2024;48213;52", "26/02/2024;48400;1.234"),
			`sheet.csv:3: column "Litres": want one reading, got "1.234", which can be 1234 or 1.234: say --decimal comma or point`, nil},
		{"price of three digits", lines("Date;Odo;Litres;Price/L", "25/02/2024;48213;52;1.499", "26/02/2024;48500;40;1.519"),
			`sheet.csv:2: column "Price/L": want one reading, got "1.499", which can be 1499 or 1.499: say --decimal comma or point`, nil},
		{"two decimal marks", lines("Date;Odo;Litres", "25/02/2024;48213;52,31", "26/02/2024;48400;40.5"),
			`sheet.csv:2: column "Litres": want one decimal mark in the whole sheet, got "52,31" here and "40.5" in line 3`, nil},
		{"a number that is none", lines(head, good, "26/02/2024,48400,40ish"), `sheet.csv:3: column "Litres": want a number with a unit or none, got "40ish"`, nil},
		{"words for a number", lines(head, good, "26/02/2024,48400,lots"), `sheet.csv:3: column "Litres": want a number such as 48213, got "lots"`, nil},
		{"a formula that failed", lines(head, good, "26/02/2024,48400,#REF!"), `sheet.csv:3: column "Litres": want a number, got "#REF!", a formula that failed`, nil},
		{"a formula", lines(head, good, "26/02/2024,48400,=A1*2"), `sheet.csv:3: column "Litres": want a number such as 48213, got "=A1*2"`, nil},
		{"broken groups", lines(head, good, `26/02/2024,"1,23,456",40`), `sheet.csv:3: column "Odo": want a number with a decimal point, as in the rest of the sheet, got "1,23,456"`, nil},
		{"the wrong unit", lines(head, good, "26/02/2024,48400,40 km"), `sheet.csv:3: column "Litres": want a figure in L, got "40 km"`, nil},
		{"told a decimal mark that does not fit", lines("Date;Odo;Litres", "25/02/2024;48213;52.31"), `sheet.csv:2: column "Litres": want a number with a decimal comma`,
			func(o *Options) { o.Decimal = "comma" }},
		{"no volume", lines(head, good, "26/02/2024,48400,"), `sheet.csv:3: column "Litres": want a volume, got an empty cell in a row with a date and figures`, nil},
		{"nought litres", lines(head, good, "26/02/2024,48400,0"), `sheet.csv:3: column "Litres": want a volume above zero, got 0`, nil},
		{"beyond all bounds", lines(head, good, "26/02/2024,48400,40000"), `sheet.csv:3: column "Litres": want 0 to 10000 L, got "40000"`, nil},

		{"gallons of nobody", lines("Date,Odo,Gal", "25/02/2024,48213,9.9"),
			`sheet.csv:1: column "Gal": want UK or US gallons, got gallons without their country: say --map volume_gal_uk=Gal or --map volume_gal_us=Gal`, nil},
		{"a price for nobody's gallon", lines("Date,Odo,Litres,Price/gal", "25/02/2024,48213,52.31,6.50"), `column "Price/gal": want UK or US gallons`, nil},
		{"two units", lines("Date,Odo (km),Litres", ",mi,l", good), `sheet.csv:2: column "Odo (km)": want one unit, got km in the heading and mi below it`, nil},
		{"distances alone", lines("Date,Trip,Litres", "25/02/2024,213,52.31", "26/02/2024,180,40"),
			`sheet.csv:1: column "Trip": want odometer readings, got only the distance of each tank`, nil},
		{"distances under another heading", lines("Date,Odo,Litres", "25/02/2024,213,52.31", "26/02/2024,180,40", "27/02/2024,240,55", "28/02/2024,199,48"),
			`sheet.csv:1: column "Odo": want odometer readings, got only the distance of each tank`, nil},
		{"readings or distances", lines("Date,Miles,Litres", "25/02/2024,213,52.31"),
			`sheet.csv:1: column "Miles": want either the odometer or the distance of a tank, got a word for both, and the figures do not tell: say --map odometer=Miles or --map distance=Miles`, nil},
		{"price or cost", lines("Date,Odo,Litres,Price", "25/02/2024,48213,52.31,1.5"),
			`sheet.csv:1: column "Price": want either what was paid or the price of a litre or gallon, got a word for both: say --map cost=Price or --map price_per_l=Price`, nil},
		{"the odometer of a drive", lines("Date,Odo,Road", "25/02/2024,48213,town"),
			`sheet.csv:1: column "Odo": want either odometer end or odometer start, got a word for both: say --map odometer_end=Odo or --map odometer_start=Odo`,
			func(o *Options) { o.File = book.TripsFile }},
		{"two odometers", lines("Date,Odo,Odometer reading,Litres", "25/02/2024,48213,1,52.31"),
			`sheet.csv:1: column "Odo": want one column of the odometer, got "Odometer reading" as well: choose with --map odometer=Odo`, nil},
		{"no odometer", lines("Date,Litres,Weather", "25/02/2024,52.31,fog"), `sheet.csv:1: want a column of the odometer, got the headings "Date", "Litres", "Weather": name it with --map odometer=heading`, nil},
		{"a heading that is not there", lines(head, good), `sheet.csv:1: want a heading "Clock" for --map, got "Date", "Odo", "Litres"`,
			func(o *Options) { o.Map = []string{"odometer=Clock"} }},

		{"neither yes nor no", lines(head+",Full?", good+",perhaps"), `sheet.csv:2: column "Full?": want yes or no, got "perhaps": mend it, or leave the column out with --map none='Full?'`, nil},
		{"a word that the log does not know", lines(head+",Pace", good+",furious"),
			`sheet.csv:2: column "Pace": want easy, usual or brisk, got "furious"; or leave the column out with --map none=Pace`, nil},
		{"a control character", lines(head+",Note", good+",a\x1b[2Jb"), `sheet.csv:2: column "note": want plain text in UTF-8`, nil},
		{"a very long cell", lines(head+",Note", good+","+strings.Repeat("x", 10001)), `sheet.csv:2: column "note": want at most 10000 bytes`, nil},
		{"another volume in the log", lines(head, "11/02/2024,48000,41.5", good), `sheet.csv:2: column "Litres": want the volume that fills.csv:2 has for the same day and odometer, got 41.50 L`, nil},
		{"a row of figures that are no sums", lines(head, good, "26/02/2024,48400,40", ",,90"), `sheet.csv:4: column "Date": want a date, got an empty cell in a row with figures`, nil},
		{"a distance missing", lines("Date,Trip,Litres", "25/02/2024,213,52.31", "26/02/2024,,40"), `sheet.csv:3: column "Trip": want the distance since the last fill`,
			func(o *Options) { o.Odometer = "48000" }},
		{"distances out of order", lines("Date,Trip,Litres", "25/02/2024,213,52.31", "24/02/2024,180,40"), `sheet.csv:3: column "Date": want the rows in the order of their dates`,
			func(o *Options) { o.Odometer = "48000" }},
	} {
		t.Run(c.name, func(t *testing.T) {
			dir := logbook(t, book.UK, "2024-02-11,48000,40,yes,,E5,,,,,,,,,")
			was, err := os.ReadFile(filepath.Join(dir, book.FillsFile))
			if err != nil {
				t.Fatal(err)
			}
			o := fills("sheet.csv")
			if c.change != nil {
				c.change(&o)
			}
			_, err = Import(dir, []byte(c.sheet), o)
			_, rehearsed := Rehearse(dir, []byte(c.sheet), o)
			for _, err := range []error{err, rehearsed} {
				if err == nil || !strings.Contains(err.Error(), c.want) || strings.Contains(err.Error(), "\n") {
					t.Errorf("%v\nwant %s", err, c.want)
				}
			}
			if now, err := os.ReadFile(filepath.Join(dir, book.FillsFile)); err != nil || string(now) != string(was) {
				t.Errorf("the log is now %q, %v", now, err)
			}
		})
	}
}

// An option that cannot be followed, whatever the sheet, is told apart: it is the call that is wrong.
func TestBadOptions(t *testing.T) {
	sheet := []byte(lines("Date,Trip,Litres", "25/02/2024,213,52.31"))
	for want, change := range map[string]func(*Options){
		`want fills.csv, trips.csv or work.csv to take rows into, got "notes.csv"`: func(o *Options) { o.File = "notes.csv" },
		`--map: want column=heading, got "odo"`:                                    func(o *Options) { o.Map = []string{"odo"} },
		`--map: fills.csv has no column "petrol": want one of`:                     func(o *Options) { o.Map = []string{"petrol=Litres"} },
		`--dates: want dmy, mdy or ymd, got "iso"`:                                 func(o *Options) { o.Dates, o.Odometer = "iso", "1" },
		`--decimal: want point or comma, got "dot"`:                                func(o *Options) { o.Decimal = "dot" },
		`--odometer: want a number`:                                                func(o *Options) { o.Odometer = "x" },
	} {
		o := fills("sheet.csv")
		change(&o)
		_, err := Import(logbook(t, book.UK), sheet, o)
		if _, ok := err.(OptionError); !ok || !strings.Contains(err.Error(), want) {
			t.Errorf("%v, want %s", err, want)
		}
	}
}

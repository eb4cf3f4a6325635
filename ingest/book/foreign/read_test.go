package foreign

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"golang.org/x/text/encoding/charmap"
	"golang.org/x/text/encoding/unicode"

	"brimlog/ingest/book"
)

// A case is a sheet, and the rows that come of it.
type readCase struct {
	name, sheet string
	units       book.Units
	change      func(*Options)
	want        []book.Cells
	check       func(t *testing.T, r *Report)
}

func (c readCase) run(t *testing.T, file string) {
	t.Helper()
	if c.units == "" {
		c.units = book.UK
	}
	o := Options{File: file, Name: "sheet.csv", Now: noon}
	if c.change != nil {
		c.change(&o)
	}
	r, err := Rehearse(logbook(t, c.units), []byte(c.sheet), o)
	if err != nil {
		t.Fatal(err)
	}
	if d := cmp.Diff(c.want, r.First); d != "" {
		t.Errorf("(-want +got)\n%s", d)
	}
	if c.check != nil {
		c.check(t, r)
	}
}

func TestFillsAreRead(t *testing.T) {
	for _, c := range []readCase{
		{name: "an owner's words", sheet: lines("Date,Miles,Litres,Price/L,Brimmed?", "25/02/2024,48213,52.31,1.499,Y", "9/3/2024,48400,40,1.519,n"),
			want: []book.Cells{{"date": "2024-02-25", "odometer_mi": "48213", "volume_l": "52.31", "cost": "78.41", "full": "yes"},
				{"date": "2024-03-09", "odometer_mi": "48400", "volume_l": "40", "cost": "60.76", "full": "no"}}},
		{name: "a logbook in US gallons", units: book.US, sheet: lines("Date\tOdo\tGal\tTotal $", "02/25/2024\t48,213\t13.8\t$48.20"),
			want: []book.Cells{{"date": "2024-02-25", "odometer_mi": "48213", "volume_gal_us": "13.8", "cost": "48.20"}}},
		{name: "gallons told by another heading", sheet: lines("Date,Odo,Gal,MPG (US)", "02/25/2024,48213,13.8,20"),
			want: []book.Cells{{"date": "2024-02-25", "odometer_mi": "48213", "volume_gal_us": "13.8"}}},
		{name: "gallons told by the owner", sheet: lines("Date,Odo,Gal", "25/02/2024,48213,9.9"), change: func(o *Options) { o.Map = []string{"volume_gal_uk=Gal"} },
			want: []book.Cells{{"date": "2024-02-25", "odometer_mi": "48213", "volume_gal_uk": "9.9"}}},
		{name: "a row of units", sheet: lines("Date;Reading;Volume;Price", "dd.mm.yyyy;km;l;€/l", "03.04.2024;77.590;52,31;1,499", "05.04.2024;77.790;40,5;1,5"),
			change: func(o *Options) { o.Map = []string{"price=Price"} },
			want: []book.Cells{{"date": "2024-04-03", "odometer_km": "77590", "volume_l": "52.31", "cost": "78.41"},
				{"date": "2024-04-05", "odometer_km": "77790", "volume_l": "40.5", "cost": "60.75"}}},
		{name: "units in the cells", sheet: lines("Date,Odo,Volume,Paid", "25/02/2024,48213 mi,52.31 l,£78.41", "26/02/2024,77900 km,9.9 imp gal,GBP 60"),
			want: []book.Cells{{"date": "2024-02-25", "odometer_mi": "48213", "volume_l": "52.31", "cost": "78.41"},
				{"date": "2024-02-26", "odometer_km": "77900", "volume_gal_uk": "9.9", "cost": "60"}}},
		{name: "pence", sheet: lines("Date,Odo,Litres,Pence per litre", "25/02/2024,48213,50,149.9"),
			want: []book.Cells{{"date": "2024-02-25", "odometer_mi": "48213", "volume_l": "50", "cost": "74.95"}}},
		{name: "a price for a UK gallon, volume in litres", sheet: lines("Date,Odo,Litres,Price per UK gallon", "25/02/2024,48213,45.4609,6.50"),
			want: []book.Cells{{"date": "2024-02-25", "odometer_mi": "48213", "volume_l": "45.4609", "cost": "65.00"}}},
		{name: "the cost goes before the price", sheet: lines("Date,Odo,Litres,Price,Cost", "25/02/2024,48213,50,1.5,74", "26/02/2024,48413,50,1.5,"),
			want: []book.Cells{{"date": "2024-02-25", "odometer_mi": "48213", "volume_l": "50", "cost": "74"},
				{"date": "2024-02-26", "odometer_mi": "48413", "volume_l": "50", "cost": "75.00"}}},
		{name: "ticks and empty cells", sheet: lines("Date,Odo,Litres,Full", "25/02/2024,48213,50,✓", "26/02/2024,48413,20,"),
			want: []book.Cells{{"date": "2024-02-25", "odometer_mi": "48213", "volume_l": "50", "full": "yes"},
				{"date": "2024-02-26", "odometer_mi": "48413", "volume_l": "20", "full": "no"}}},
		{name: "part fills ticked", sheet: lines("Date,Odo,Litres,Partial?", "25/02/2024,48213,50,", "26/02/2024,48413,20,x"),
			want: []book.Cells{{"date": "2024-02-25", "odometer_mi": "48213", "volume_l": "50", "full": "yes"},
				{"date": "2024-02-26", "odometer_mi": "48413", "volume_l": "20", "full": "no"}}},
		{name: "labels of fuel", sheet: lines("Date,Odo,Litres,Fuel", "25/02/2024,48213,50,E10", "26/02/2024,48413,20,Super 98"),
			want: []book.Cells{{"date": "2024-02-25", "odometer_mi": "48213", "volume_l": "50", "fuel": "E10"},
				{"date": "2024-02-26", "odometer_mi": "48413", "volume_l": "20", "fuel": "Super 98"}}},
		{name: "fuel as a volume", sheet: lines("Date,Odo,Fuel", "25/02/2024,48213,50.2", "26/02/2024,48413,40.1"),
			want: []book.Cells{{"date": "2024-02-25", "odometer_mi": "48213", "volume_l": "50.2"}, {"date": "2024-02-26", "odometer_mi": "48413", "volume_l": "40.1"}}},
		{name: "octane numbers", sheet: lines("Date,Odo,Litres,Petrol", "25/02/2024,48213,50.2,95", "26/02/2024,48413,40.1,98"),
			want: []book.Cells{{"date": "2024-02-25", "odometer_mi": "48213", "volume_l": "50.2", "fuel": "95"}, {"date": "2024-02-26", "odometer_mi": "48413", "volume_l": "40.1", "fuel": "98"}}},
		{name: "days that only the odometer can order", sheet: lines("Date,Odo,Litres", "01/02/2024,48213,50", "05/02/2024,48413,40", "03/03/2024,48600,41", "07/04/2024,48800,42", "06/05/2024,49000,43"),
			want: []book.Cells{{"date": "2024-02-01", "odometer_mi": "48213", "volume_l": "50"}, {"date": "2024-02-05", "odometer_mi": "48413", "volume_l": "40"},
				{"date": "2024-03-03", "odometer_mi": "48600", "volume_l": "41"}, {"date": "2024-04-07", "odometer_mi": "48800", "volume_l": "42"},
				{"date": "2024-05-06", "odometer_mi": "49000", "volume_l": "43"}}},
		{name: "newest first", sheet: lines("Date,Odo,Litres", "06/05/2024,49000,43", "07/04/2024,48800,42", "03/03/2024,48600,41", "05/02/2024,48413,40", "01/02/2024,48213,50"),
			want: []book.Cells{{"date": "2024-05-06", "odometer_mi": "49000", "volume_l": "43"}, {"date": "2024-04-07", "odometer_mi": "48800", "volume_l": "42"}, {"date": "2024-03-03", "odometer_mi": "48600", "volume_l": "41"}, {"date": "2024-02-05", "odometer_mi": "48413", "volume_l": "40"},
				{"date": "2024-02-01", "odometer_mi": "48213", "volume_l": "50"}}},
		{name: "a pump's three decimals", sheet: lines("Date;Odo;Litres", "25/02/2024;48213;52.310", "26/02/2024;48400;48.220"),
			want: []book.Cells{{"date": "2024-02-25", "odometer_mi": "48213", "volume_l": "52.310"}, {"date": "2024-02-26", "odometer_mi": "48400", "volume_l": "48.220"}}},
		{name: "thousands of miles alone", sheet: lines("Date;Odo;Litres", "25/02/2024;48.213;52", "26/02/2024;48.400;48"),
			want: []book.Cells{{"date": "2024-02-25", "odometer_mi": "48213", "volume_l": "52"}, {"date": "2024-02-26", "odometer_mi": "48400", "volume_l": "48"}}},
		{name: "a price that the cost explains", sheet: lines("Date;Odo;Litres;Price/L;Cost", "25/02/2024;48213;50;1.499;75", "26/02/2024;48400;40;1.525;61"),
			want: []book.Cells{{"date": "2024-02-25", "odometer_mi": "48213", "volume_l": "50", "cost": "75"}, {"date": "2024-02-26", "odometer_mi": "48400", "volume_l": "40", "cost": "61"}}},
		{name: "a clock", sheet: lines("Date,Time,Odo,Litres", "25/02/2024,5:40 pm,48213,52.31", "26/02/2024,,48400,40"),
			want: []book.Cells{{"date": "2024-02-25T17:40", "odometer_mi": "48213", "volume_l": "52.31"}, {"date": "2024-02-26", "odometer_mi": "48400", "volume_l": "40"}}},
		{name: "midnight everywhere", sheet: lines("Date,Odo,Litres", "2024-02-25 00:00:00,48213,52.31"),
			want: []book.Cells{{"date": "2024-02-25", "odometer_mi": "48213", "volume_l": "52.31"}}},
		{name: "only distances, and where they begin", sheet: lines("Date,Trip,Litres", "25/02/2024,213.5,52.31", "26/02/2024,180,40"),
			change: func(o *Options) { o.Odometer = "48000 mi" },
			want:   []book.Cells{{"date": "2024-02-25", "odometer_mi": "48213.5", "volume_l": "52.31"}, {"date": "2024-02-26", "odometer_mi": "48393.5", "volume_l": "40"}}},
		{name: "distance beside the odometer", sheet: lines("Date,Odo,Miles,Litres", "25/02/2024,48213,213,52.31", "26/02/2024,48400,187,40"),
			want:  []book.Cells{{"date": "2024-02-25", "odometer_mi": "48213", "volume_l": "52.31"}, {"date": "2024-02-26", "odometer_mi": "48400", "volume_l": "40"}},
			check: func(t *testing.T, r *Report) { passed(t, r, "Miles: the odometer says it") }},
		{name: "titles, totals, notes, blank rows, headings again", sheet: lines("Fuel 2024", "", "Date,Odo,Litres,Cost", "25/02/2024,48213,52.31,70", ",,,", "new plugs here,,,",
			"26/02/2024,48400,40,60", "27/02/2024 service,,,", "2024,,,", "Date,Odo,Litres,Cost", "28/02/2024,,,", ",,92.31,130", "Average,,46.155,65", "29/02/2024,48600,41,61"),
			want: []book.Cells{{"date": "2024-02-25", "odometer_mi": "48213", "volume_l": "52.31", "cost": "70"}, {"date": "2024-02-26", "odometer_mi": "48400", "volume_l": "40", "cost": "60"},
				{"date": "2024-02-29", "odometer_mi": "48600", "volume_l": "41", "cost": "61"}},
			check: func(t *testing.T, r *Report) {
				if d := cmp.Diff([][]int{{12, 13}, {6, 8, 9, 11}}, [][]int{r.Totals, r.Notes}); d != "" || r.Blank != 1 || r.Headings != 3 {
					t.Errorf("%s%+v", d, r)
				}
			}},
		{name: "the same row twice", sheet: lines("Date,Odo,Litres", "25/02/2024,48213,52.31", "25/02/2024,48213,52.31", "25/02/2024,48213,10"),
			want:  []book.Cells{{"date": "2024-02-25", "odometer_mi": "48213", "volume_l": "52.31"}, {"date": "2024-02-25", "odometer_mi": "48213", "volume_l": "10"}},
			check: func(t *testing.T, r *Report) { equal(t, r.Twice, []int{3}) }},
		{name: "a first line that names the separator", sheet: lines("sep=|", "Date|Odo|Litres", "25/02/2024|48213|52,31"),
			want:  []book.Cells{{"date": "2024-02-25", "odometer_mi": "48213", "volume_l": "52.31"}},
			check: func(t *testing.T, r *Report) { equal(t, r.Headings, 2) }},
		{name: "old line ends", sheet: "Date,Odo,Litres\r25/02/2024,48213,52.31\r", want: []book.Cells{{"date": "2024-02-25", "odometer_mi": "48213", "volume_l": "52.31"}}},
		{name: "what looks like formulas", sheet: lines("Date,Odo,Litres,Station,Notes,Remarks", "25/02/2024,48213,52.31,@the bend,=1+1,-2"),
			want: []book.Cells{{"date": "2024-02-25", "odometer_mi": "48213", "volume_l": "52.31", "station": "@the bend", "note": "=1+1; -2"}}},
		{name: "headings by number", sheet: lines("Date,Odo,Odo,Litres", "25/02/2024,1,48213,52.31"), change: func(o *Options) { o.Map = []string{"odometer=#3"} },
			want: []book.Cells{{"date": "2024-02-25", "odometer_mi": "48213", "volume_l": "52.31"}}},
		{name: "a heading left out", sheet: lines("Date,Odo,Litres,Pace", "25/02/2024,48213,52.31,furious"), change: func(o *Options) { o.Map = []string{"none=pace"} },
			want:  []book.Cells{{"date": "2024-02-25", "odometer_mi": "48213", "volume_l": "52.31"}},
			check: func(t *testing.T, r *Report) { passed(t, r, "Pace: told by --map") }},
		{name: "signs for nothing", sheet: lines("Date,Odo,Litres,Cost,Gauge", "25/02/2024,n/a,52.31,-,1/4", "26/02/2024,48400,40,\"78,-\",25 %"),
			want: []book.Cells{{"date": "2024-02-25", "volume_l": "52.31", "gauge": "1/4"}, {"date": "2024-02-26", "odometer_mi": "48400", "volume_l": "40", "cost": "78", "gauge": "0.25"}}},
		{name: "a logbook's own file", sheet: lines("date,odometer_km,volume_gal_uk,full,fuel,town_share,short_trips,pace,weak_low", "2024-02-25,412,9.9,no,E5,60,some,brisk,trace"),
			want: []book.Cells{{"date": "2024-02-25", "odometer_km": "412", "volume_gal_uk": "9.9", "full": "no", "fuel": "E5", "town_share": "60", "short_trips": "some", "pace": "brisk", "weak_low": "trace"}}},
	} {
		t.Run(c.name, func(t *testing.T) { c.run(t, book.FillsFile) })
	}
}

func TestTripsAndWorkAreRead(t *testing.T) {
	for _, c := range []readCase{
		{name: "drives", units: book.Metric, sheet: lines("Datum;Strecke (km);Straße;Temp. (°C);Kaltstarts;Bemerkung", "25.02.2024;12,5;Stadt;-3;1;kalt", "26.02.2024;1.200;Autobahn;;;"),
			want: []book.Cells{{"date": "2024-02-25", "distance_km": "12.5", "road": "town", "air_c": "-3", "cold_starts": "1", "note": "kalt"},
				{"date": "2024-02-26", "distance_km": "1200", "road": "motorway"}}},
		{name: "one odometer told, the other by its words", sheet: lines("Date,Start odo,Odo", "25/02/2024,48213,48240"),
			want: []book.Cells{{"date": "2024-02-25", "odometer_start_mi": "48213", "odometer_end_mi": "48240"}}},
		{name: "readings and miles an hour", sheet: lines("Date,Start odo,End odo,Speed (mph),Knock", "25/02/2024,48213,48240,55,trace"),
			want: []book.Cells{{"date": "2024-02-25", "odometer_start_mi": "48213", "odometer_end_mi": "48240", "cruise_mph": "55", "knock": "trace"}}},
	} {
		t.Run(c.name, func(t *testing.T) { c.run(t, book.TripsFile) })
	}
	for _, c := range []readCase{
		{name: "jobs without ids", sheet: lines("Date,Miles,Work done,Type,Area,Cost,Hours", "25/02/2024,48213,New plugs,replaced,ignition/carb,\"1,234.50\",1.5", "26/02/2024,,New plugs again,service,,20,"),
			want: []book.Cells{{"id": "new-plugs", "date": "2024-02-25", "odometer_mi": "48213", "what": "New plugs", "kind": "fit", "area": "ignition/fuel", "cost": "1234.50", "hours": "1.5"},
				{"id": "new-plugs-2", "date": "2024-02-26", "what": "New plugs again", "kind": "service", "cost": "20"}}},
	} {
		t.Run(c.name, func(t *testing.T) { c.run(t, book.WorkFile) })
	}
}

func passed(t *testing.T, r *Report, want string) {
	t.Helper()
	for _, p := range r.Passed {
		if p.Heading+": "+p.Why == want {
			return
		}
	}
	t.Errorf("not taken are %+v, want %s", r.Passed, want)
}

func equal(t *testing.T, got, want any) {
	t.Helper()
	if d := cmp.Diff(want, got); d != "" {
		t.Errorf("(-want +got)\n%s", d)
	}
}

// One sheet in every encoding reads the same, and its report names the encoding.
func TestEncodings(t *testing.T) {
	text := lines("Date,Odo,Litres,Notes", "25/02/2024,48213,52.31,café “1”", "26/02/2024,48400,40,Ærø")
	encode := func(b []byte, err error) string {
		if err != nil {
			t.Fatal(err)
		}
		return string(b)
	}
	for name, sheet := range map[string]string{
		"UTF-8": text, "UTF-8 with a mark": "\ufeff" + text,
		"UTF-16":                               encode(unicode.UTF16(unicode.LittleEndian, unicode.UseBOM).NewEncoder().Bytes([]byte(text))),
		"UTF-16 little-endian, without a mark": encode(unicode.UTF16(unicode.LittleEndian, unicode.IgnoreBOM).NewEncoder().Bytes([]byte(text))),
		"UTF-16 big-endian, without a mark":    encode(unicode.UTF16(unicode.BigEndian, unicode.IgnoreBOM).NewEncoder().Bytes([]byte(text))),
		"Windows-1252":                         encode(charmap.Windows1252.NewEncoder().Bytes([]byte(text))),
	} {
		readCase{name: name, sheet: sheet,
			want: []book.Cells{{"date": "2024-02-25", "odometer_mi": "48213", "volume_l": "52.31", "note": "café “1”"},
				{"date": "2024-02-26", "odometer_mi": "48400", "volume_l": "40", "note": "Ærø"}},
			check: func(t *testing.T, r *Report) { equal(t, r.Encoding, name) }}.run(t, book.FillsFile)
	}
	big := encode(unicode.UTF16(unicode.BigEndian, unicode.UseBOM).NewEncoder().Bytes([]byte(text)))
	if r, err := Rehearse(logbook(t, book.UK), []byte(big), fills("sheet.csv")); err != nil || r.Rows != 2 {
		t.Errorf("big-endian with a mark: %+v, %v", r, err)
	}
	if !strings.HasPrefix(big, "\xfe\xff") {
		t.Errorf("no mark in %q", big[:4])
	}
}

// A figure of tens of thousands is no tank's distance, even where nobody knows the volume's heading: that one is asked for.
func TestReadingsAreNoDistances(t *testing.T) {
	for sheet, want := range map[string]string{
		lines("When,Mileage,How much", "31/01/2024,48213,41.0", "12/02/2024,48413,41.2"): "volume",
		lines("When,Mileage,How much", "31/01/2024,213,41.0", "12/02/2024,198,41.2"):     "want either the odometer or the distance of a tank",
	} {
		_, err := Rehearse(logbook(t, book.UK), []byte(sheet), fills("sheet.csv"))
		if err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%s: %v, want %s", sheet, err, want)
		}
	}
}

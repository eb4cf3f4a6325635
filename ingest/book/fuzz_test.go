package book

import (
	"strings"
	"testing"
	"unicode/utf8"

	"brimlog/ingest/quantity"
)

// holds checks what is true of every book, however odd the file that it was read from.
func holds(t *testing.T, b *Book, err error) {
	t.Helper()
	if err != nil && (err.Error() == "" || len(err.Error()) > 2000) {
		t.Fatalf("error of %d bytes", len(err.Error()))
	}
	for _, p := range b.Problems {
		if p.Line < 1 || p.Message == "" || p.Kind == "" || p.Severity != isError && p.Severity != isDoubt {
			t.Fatalf("problem %+v", p)
		}
	}
	last := 1
	for _, f := range b.Fills {
		if f.Date.IsZero() || f.Litres <= 0 || f.Odometer < 0 || f.Line <= last || !utf8.ValidString(f.Note+f.Station+f.Fuel) {
			t.Fatalf("fill %+v", f)
		}
		last = f.Line
	}
	for _, x := range b.Trips {
		if x.Date.IsZero() || x.Km < 0 || !utf8.ValidString(x.Note) {
			t.Fatalf("trip %+v", x)
		}
	}
	ids := map[string]bool{}
	for _, j := range b.Jobs {
		if j.Date.IsZero() || j.ID == "" || ids[j.ID] {
			t.Fatalf("job %+v", j)
		}
		ids[j.ID] = true
		for _, r := range j.Readings {
			for _, x := range append(r.Values, r.Speeds...) {
				if !quantity.Known(x) {
					t.Fatalf("reading %+v", r)
				}
			}
		}
	}
}

func FuzzFills(f *testing.F) {
	f.Add([]byte(fillsHead + "2024-02-11,100,,52.31,,yes,78.1,E5,no,1/4,Hilltop,30,some,usual,none,heavy,\"a\nb\"\n"))
	f.Add([]byte("\ufeffdate,odometer_km,volume_gal_us\r\n2024-02-11 17:40,9 mi,\"1,234\"\r\n\"open\n2024-02-12,1,2"))
	f.Fuzz(func(t *testing.T, data []byte) {
		b := &Book{}
		_, err := parseSheet[fillRow](b, fillSchema, data)
		holds(t, b, err)
	})
}

func FuzzTrips(f *testing.F) {
	f.Add([]byte(tripsHead + "2024-02-11,100,200,50,,town,easy,90,-3 c,1,2,3,4,trace\n"))
	f.Fuzz(func(t *testing.T, data []byte) {
		b := &Book{}
		_, err := parseSheet[tripRow](b, tripSchema, data)
		holds(t, b, err)
	})
}

func FuzzWork(f *testing.F) {
	f.Add([]byte(workHead + "a,2024-02-11,1,fit,fuel/brakes,x,coast_s=21.6@80-60;compression_bar=9/10 psi;smoke=blak;odometer_reset_to=0,1\na,2024-02-11\n,2024-02-11\nwork-4,2024-02-11"))
	f.Fuzz(func(t *testing.T, data []byte) {
		b := &Book{}
		_, err := parseSheet[jobRow](b, workSchema, data)
		holds(t, b, err)
	})
}

func FuzzVehicle(f *testing.F) {
	f.Add([]byte(wholeVehicle))
	f.Add([]byte(heron + "a=[[[[{b={c=[{}]}}]]]]\n[[from]]\n[from.x]\n[[from.y]]\n"))
	f.Fuzz(func(t *testing.T, data []byte) {
		doc, err := parseVehicle(data)
		if (doc == nil) == (err == nil) {
			t.Fatalf("document %v and error %v", doc, err)
		}
		if err == nil {
			doc.After(func(string) bool { return true })
			doc.strangers(nil)
		}
	})
}

func FuzzMoment(f *testing.F) {
	for _, s := range []string{"2024-02-11", "2024-02-11T17:40:05", "25/02/2024", "2024-2-1"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		m, err := ParseMoment(s)
		if err != nil {
			return
		}
		again, err := ParseMoment(m.String())
		if err != nil || !again.Equal(m.Time) || again.Timed != m.Timed {
			t.Fatalf("%q is written %q, which reads %v, %v", s, m, again, err)
		}
	})
}

// Whatever a file holds and whatever is typed: a row that is taken reads back, every byte before it stays, and undo gives back
// the very file.
func FuzzAppend(f *testing.F) {
	f.Add([]byte(memFills), "a note", "52.31")
	f.Add([]byte("date,odometer_mi,volume_l,note\r\n\r\n2024-01-01,1,1,\"open"), "=1+1", "9 gal_uk")
	f.Add([]byte("note,odometer_km,date,volume_gal_us\n\n\n"), "'=\r\n\"", "1,5")
	f.Fuzz(func(t *testing.T, before []byte, note, volume string) {
		d := newMemDisk(map[string]string{"b/" + FillsFile: string(before)})
		line, err := appendTo(d, "b", FillsFile, []Cells{{"date": "2024-02-11", "odometer": "9 km", "volume": volume, "note": note}})
		after := d.fills()
		if err != nil {
			if after != string(before) {
				t.Fatalf("refused (%v), and the file is %q", err, after)
			}
			return
		}
		b := &Book{}
		if _, err := parseSheet[fillRow](b, fillSchema, []byte(after)); err != nil || len(b.Fills) == 0 {
			t.Fatalf("%q reads %+v, %v", after, b, err)
		}
		want := strings.TrimSpace(strings.NewReplacer("\r\n", "\n", "\r", "\n").Replace(note))
		if got := b.Fills[len(b.Fills)-1]; got.Line != line || got.Note != want || !(got.Litres > 0) {
			t.Fatalf("%q in line %d reads back as %+v", note, line, got)
		}
		l, err := newLayout(FillsFile, before)
		if err != nil {
			t.Fatal(err)
		}
		widened := l.header == nil || newComposer(nil, l.header, nil).lacks("note") || newComposer(nil, l.header, nil).lacks("volume")
		if _, err := undo(d, "b"); err != nil {
			t.Fatal(err)
		}
		if got := d.fills(); got != string(before) && !widened {
			t.Fatalf("after undo %q, want %q", got, before)
		}
	})
}

// lacks tells whether no column is of that name, with any unit.
func (c *composer) lacks(stem string) bool {
	for _, n := range c.names {
		if bare, _ := quantity.SplitColumn(n); bare == stem {
			return false
		}
	}
	return true
}

package stats

import (
	"strconv"
	"strings"
	"testing"

	"brimlog/ingest/book"
	"brimlog/ingest/quantity"
	"brimlog/ingest/tank"
	"brimlog/stats/suspect"
)

// workshop is a log of weekly tanks from January 2025 on, with jobs written as "day kind area name=value;name=value".
func workshop(t *testing.T, jobs ...string) ground {
	t.Helper()
	u, b := quantity.Unknown, &book.Book{}
	b.Vehicle.Odometer.Correction, b.Vehicle.Odometer.Unit = 1, "km"
	for i := range 20 {
		f := book.Fill{Date: moment(t, "2025-01-01"), Odometer: 1000 + 400*float64(i), Litres: 44, Full: true, Gauge: u, Cost: u, TownShare: u}
		f.Date.Time = f.Date.AddDate(0, 0, 7*i)
		b.Fills = append(b.Fills, f)
	}
	for i, text := range jobs {
		part := strings.Fields(text)
		j := book.Job{ID: strconv.Itoa(i), Date: moment(t, part[0]), Kind: part[1], Areas: strings.Split(part[2], "/"), Odometer: u, IdleMin: u, FuelLostL: u}
		for pair := range strings.SplitSeq(strings.Join(part[3:], ""), ";") {
			name, value, ok := strings.Cut(pair, "=")
			if !ok {
				continue
			}
			r := book.Reading{Name: name, Text: value}
			if x, err := strconv.ParseFloat(strings.Split(value, "@")[0], 64); err == nil {
				r.Values = []float64{x}
			}
			if _, speeds, ok := strings.Cut(value, "@"); ok {
				from, to, _ := strings.Cut(speeds, "-")
				a, _ := strconv.ParseFloat(from, 64)
				z, _ := strconv.ParseFloat(to, 64)
				r.Speeds = []float64{a, z}
			}
			j.Readings = append(j.Readings, r)
		}
		b.Jobs = append(b.Jobs, j)
	}
	return ground{log: tank.Build(b)}
}

func asWritten(rs []book.Reading) string {
	var all []string
	for _, r := range rs {
		all = append(all, r.Name+"="+r.Text)
	}
	return strings.Join(all, " ")
}

// A reading counts until work touches it; what is older than the fault, or was taken while the vehicle was healthy, is what it
// is held against.
func TestReadingsThatCount(t *testing.T) {
	shift := stretch{turn: turn{job: -1, place: 10}, began: true}
	for _, c := range []struct {
		name           string
		began          stretch
		vouched        []int
		jobs           []string
		read, baseline string
	}{
		{"the newest, held against an older one", stretch{}, nil, []string{"2025-01-10 measure ignition idle_vacuum_inhg=18", "2025-04-10 measure ignition idle_vacuum_inhg=14"},
			"idle_vacuum_inhg=14", "idle_vacuum_inhg=18"},
		{"work between them leaves nothing to hold it against", stretch{}, nil, []string{"2025-01-10 measure ignition idle_vacuum_inhg=11", "2025-02-10 adjust ignition", "2025-04-10 measure ignition idle_vacuum_inhg=18"},
			"idle_vacuum_inhg=18", ""},
		{"unless it was healthy then", stretch{}, []int{2, 3}, []string{"2025-01-10 measure ignition idle_vacuum_inhg=18", "2025-02-10 adjust ignition", "2025-04-10 measure ignition idle_vacuum_inhg=11"},
			"idle_vacuum_inhg=11", "idle_vacuum_inhg=18"},
		{"or something was fitted since", stretch{}, []int{2, 3}, []string{"2025-01-10 measure ignition idle_vacuum_inhg=18", "2025-02-10 fit camshaft", "2025-04-10 measure ignition idle_vacuum_inhg=14"},
			"idle_vacuum_inhg=14", ""},
		{"work elsewhere touches nothing", stretch{}, nil, []string{"2025-01-10 measure brakes coast_s=21.6@80-60", "2025-02-10 repair ignition"}, "coast_s=21.6@80-60", ""},
		{"a job's own readings are from after it", stretch{}, nil, []string{"2025-01-10 adjust ignition timing_idle_deg=8"}, "timing_idle_deg=8", ""},
		{"all from before a shift", shift, nil, []string{"2025-01-10 measure brakes coast_s=21.6@80-60;hubs=even"}, "", "coast_s=21.6@80-60 hubs=even"},
		{"one since a shift", shift, nil, []string{"2025-01-10 measure brakes coast_s=21.6@80-60", "2025-04-20 measure brakes coast_s=19@80-60"}, "coast_s=19@80-60", "coast_s=21.6@80-60"},
		{"other speeds tell nothing of it", shift, nil, []string{"2025-01-10 measure brakes coast_s=25@90-60", "2025-04-20 measure brakes coast_s=19@80-60"}, "coast_s=19@80-60", ""},
		{"a corrected distance is allowed for", stretch{}, nil, []string{"2025-01-10 measure odometer odometer_correction=1.07"}, "odometer_correction=1.07", "odometer_correction=1.07"},
		{"the newer tells the same thing", stretch{}, nil, []string{"2025-01-10 measure ignition ignition_deg=-9", "2025-02-10 measure ignition timing_idle_deg=8"}, "timing_idle_deg=8", "ignition_deg=-9"},
		{"what is of no use stays out", stretch{}, nil, []string{"2025-01-10 measure ignition points_gap_mm=0.4"}, "", ""},
	} {
		e := suspect.Nothing()
		g := workshop(t, c.jobs...)
		held := g.read(&e, c.began, Expected{Vouched: c.vouched})
		if got := asWritten(e.Readings); got != c.read || len(held) != len(e.Readings) {
			t.Errorf("%s: read %q, want %q", c.name, got, c.read)
		}
		if got := asWritten(e.Baseline); got != c.baseline {
			t.Errorf("%s: held against %q, want %q", c.name, got, c.baseline)
		}
	}
}

// Jobs count within two tanks before it began; those of a log without any say nothing.
func TestJobsBeforeItBegan(t *testing.T) {
	shift := stretch{turn: turn{job: -1, place: 10, from: moment(t, "2025-03-05"), to: moment(t, "2025-03-19")}, began: true, inTank: 10}
	if got := workshop(t, "2025-01-10 measure ignition").jobsBefore(shift); got != nil {
		t.Errorf("a log without work: %v, want nil", got)
	}
	got := workshop(t, "2025-01-10 repair fuel", "2025-02-28 repair brakes", "2025-03-12 fit tyres", "2025-04-10 fit exhaust").jobsBefore(shift)
	if len(got) != 2 || got[0].Areas[0] != "brakes" || !(got[0].TanksBefore > 1 && got[0].TanksBefore < 2) || got[1].Areas[0] != "tyres" || got[1].TanksBefore != 0 {
		t.Errorf("jobs before the shift: %+v, want the brakes more than a tank before and the tyres within its window", got)
	}
	now := workshop(t, "2025-01-10 repair fuel", "2025-05-10 fit exhaust")
	if got := now.jobsBefore(stretch{inTank: 19}); len(got) != 1 || got[0].Areas[0] != "exhaust" {
		t.Errorf("jobs before now: %+v, want the exhaust", got)
	}
}

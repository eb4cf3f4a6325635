package stats

import (
	"math"
	"slices"
	"strings"
	"testing"

	"brimlog/ingest/book"
	"brimlog/ingest/quantity"
	"brimlog/stats/suspect"
)

// heronOn is the demo's logbook as it stood on a day, with more jobs where given.
func heronOn(t testing.TB, day string, more ...book.Job) *Review {
	t.Helper()
	b, err := book.Read("../testdata/heron")
	if err != nil {
		t.Fatal(err)
	}
	b.Jobs = append(b.Jobs, more...)
	m, err := book.ParseMoment(day)
	if err != nil {
		t.Fatal(err)
	}
	return Look(b, Options{AsOf: m, Suspect: true})
}

// place is where a cause stands in the list, from 1, and its chance.
func place(t testing.TB, s *Suspected, cause string) (int, float64) {
	t.Helper()
	i := slices.IndexFunc(s.Suspects, func(c suspect.Suspect) bool { return c.Cause == cause })
	if i < 0 {
		t.Fatalf("%s does not stand in the list", cause)
	}
	return i + 1, s.Suspects[i].Chance
}

// The demo's story. Its ignition was set late by ear in October 2024 and read with a strobe on 11 January; the milder camshaft
// went in on 18 May 2025 and left nothing amiss; a brake has dragged since 14 July 2026, and nobody has looked.
func TestDemosFaultsAreFound(t *testing.T) {
	before := heronOn(t, "2025-01-10").Suspects
	if at, chance := place(t, before, "ign_retarded"); at > 2 {
		t.Errorf("before it is measured, late ignition stands in place %d (%.2f)", at, chance)
	}
	if b := before.Began; b.With != "job" || b.Job != "distributor" || !b.Worse || !(b.RisePct > 4 && b.RisePct < 15) {
		t.Errorf("it began with %+v, want the distributor, some 10 %% more fuel and worse to drive", b)
	}
	after := heronOn(t, "2025-01-11").Suspects
	if at, chance := place(t, after, "ign_retarded"); at != 1 || chance < 0.6 {
		t.Errorf("once measured, late ignition stands in place %d (%.2f)", at, chance)
	}
	if slices.ContainsFunc(after.NextChecks, func(c suspect.NextCheck) bool { return c.Check == "timing_light" }) {
		t.Error("the timing light is asked for again on the day it was used")
	}
}

func TestNothingIsAccusedAfterTheNewCamshaft(t *testing.T) {
	s := heronOn(t, "2025-10-10").Suspects
	if at, chance := place(t, s, suspect.NothingWrong); at != 1 || chance < 0.5 {
		t.Errorf("nothing wrong stands in place %d (%.2f), behind %s", at, chance, s.Suspects[0].Cause)
	}
	if s.Began.With != "" {
		t.Errorf("it is said to have begun with %+v", s.Began)
	}
}

func TestDemosBrake(t *testing.T) {
	now := heronOn(t, "2026-08-30").Suspects
	if at, chance := place(t, now, "brake_bind"); at > 2 {
		t.Errorf("at the end of the log the brake stands in place %d (%.2f)", at, chance)
	}
	if now.Began.With != "shift" || now.Began.FromDate > "2026-07-14" || now.Began.ToDate < "2026-07-14" {
		t.Errorf("it began with %+v, want a shift about 14 July 2026", now.Began)
	}
	if len(now.Evidence.Baseline) == 0 || len(now.Evidence.Readings) != 0 {
		t.Errorf("readings %v, baseline %v: all were taken while it was sound", now.Evidence.Readings, now.Evidence.Baseline)
	}
	hubs := book.Job{ID: "hubs", Date: moment(t, "2026-08-30"), Kind: "measure", Areas: []string{"brakes"}, Odometer: quantity.Unknown,
		Readings: []book.Reading{{Name: "hubs", Text: "one_hot"}}}
	felt := heronOn(t, "2026-08-30", hubs).Suspects
	if at, chance := place(t, felt, "brake_bind"); at != 1 || chance < 0.6 {
		t.Errorf("with one hub hot the brake stands in place %d (%.2f)", at, chance)
	}
}

func moment(t testing.TB, day string) book.Moment {
	t.Helper()
	m, err := book.ParseMoment(day)
	if err != nil {
		t.Fatal(err)
	}
	return m
}

// A log without a tank, a drive or a key of the vehicle gives the priors, and says what is missing.
func TestSuspectsOfAnEmptyLog(t *testing.T) {
	u := quantity.Unknown
	var v book.Vehicle
	v.Name = "Wren"
	v.Engine = book.Engine{DisplacementCC: u, Cylinders: u, CompressionRatio: u, IdleRPM: u, Cam: book.Cam{IntakeOpensBTDC: u, IntakeClosesABDC: u, ExhaustOpensBBDC: u, ExhaustClosesATDC: u, SprocketTeeth: u}}
	v.Body.MassKg, v.Body.DragAreaM2, v.Driveline.KmhPer1000RPM = u, u, u
	v.Place.AltitudeM, v.Odometer.Digits, v.Odometer.Correction, v.Tank.CapacityL, v.Year = u, u, 1, u, u
	doc := Look(&book.Book{Vehicle: v}, Options{Suspect: true})
	d := doc.SuspectsDocument()
	want := suspect.Rank(suspect.Nothing()).Suspects
	for i, s := range d.Suspects {
		if s.Cause != want[i].Cause || math.Abs(s.Chance-want[i].Chance) > 1e-9 {
			t.Fatalf("place %d: %s %.4f, want the prior's %s %.4f", i+1, s.Cause, s.Chance, want[i].Cause, want[i].Chance)
		}
	}
	if d.Book != "Wren" || len(d.Notes) == 0 || quantity.Known(float64(d.Began.ExcessPct)) || d.Evidence.Jobs != nil {
		t.Errorf("%+v, notes %q", d.Began, d.Notes)
	}
	if said := d.Suspected.Sentence(); !strings.Contains(said, "too little is known") {
		t.Errorf("says %q", said)
	}
}

// How the demo drove is told by what was done to it, not by the time of year: only the late ignition and its cure were felt.
func TestDemosJobsAsTheyDrive(t *testing.T) {
	want := map[string]string{"distributor": "worse", "retime": "better"}
	for _, j := range heronOn(t, "2026-08-30").Jobs {
		if v := j.Driveability.Verdict; v != nil && *v != "undecided" != (want[j.ID] != "") || want[j.ID] != "" && (v == nil || *v != want[j.ID]) {
			t.Errorf("%s: how it drives %v, want %q", j.ID, v, want[j.ID])
		}
	}
}

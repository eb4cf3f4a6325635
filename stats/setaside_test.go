package stats

import (
	"slices"
	"strings"
	"testing"

	"brimlog/ingest/book"
	"brimlog/ingest/quantity"
	"brimlog/stats/suspect"
)

// measured is a measurement of the demo's last days.
func measured(t *testing.T, id, area string, readings ...book.Reading) book.Job {
	t.Helper()
	return book.Job{ID: id, Date: moment(t, "2026-08-29"), Kind: "measure", Areas: []string{area}, Odometer: quantity.Unknown, IdleMin: quantity.Unknown,
		FuelLostL: quantity.Unknown, Cost: quantity.Unknown, Readings: readings}
}

// A time that no vehicle can take speaks for no cause, and is told.
func TestImpossibleRunSpeaksForNoCause(t *testing.T) {
	without := heronOn(t, "2026-08-30").Suspects
	with := heronOn(t, "2026-08-30", measured(t, "roll", "brakes", book.Reading{Name: "coast_s", Text: "500@80-60", Values: []float64{500}, Speeds: []float64{80, 60}})).Suspects
	for i, s := range without.Suspects {
		if with.Suspects[i].Cause != s.Cause || with.Suspects[i].Chance != s.Chance {
			t.Fatalf("place %d: %s %.3f, without that run %s %.3f", i+1, with.Suspects[i].Cause, with.Suspects[i].Chance, s.Cause, s.Chance)
		}
	}
	if slices.ContainsFunc(with.Readings, func(h Held) bool { return h.Name == "coast_s" }) || !strings.Contains(strings.Join(with.notes, "; "), "coast_s is not counted") {
		t.Errorf("as read: %v; notes %q", with.Readings, with.notes)
	}
	short := heronOn(t, "2026-08-30", measured(t, "roll", "brakes", book.Reading{Name: "coast_s", Text: "18.6@80-60", Values: []float64{18.6}, Speeds: []float64{80, 60}})).Suspects
	if at, chance := place(t, short, "brake_bind"); at != 1 || chance < 0.5 {
		t.Errorf("coasting short, a dragging brake stands in place %d (%.2f)", at, chance)
	}
}

// A cam that was read early says nothing of the spark where knock is known not to be there.
func TestCamAloneWarnsOfNoKnock(t *testing.T) {
	s := heronOn(t, "2026-08-30", measured(t, "wheel", "camshaft", book.Reading{Name: "cam_phase_deg", Text: "16", Values: []float64{16}})).Suspects
	if said := strings.Join(s.Grounds(), "; "); len(s.Stop) > 0 || strings.Contains(said, "knock under load") || strings.Contains(said, "it knocks") {
		t.Errorf("stop %v; %s", s.Stop, said)
	}
	g := workshop(t, "2025-04-10 measure camshaft cam_phase_deg=16")
	e, n := suspect.Nothing(), notes{}
	g.danger(&e, &n)
	if len(n) != 1 || !strings.Contains(n[0], "timing light") {
		t.Errorf("nobody has read the spark or judged a knock: %q", n)
	}
	g = workshop(t, "2025-04-10 measure camshaft cam_phase_deg=16;ignition_deg=0")
	e, n = suspect.Nothing(), notes{}
	if g.danger(&e, &n); len(n) > 0 {
		t.Errorf("the spark was read right, yet %q", n)
	}
}

// What is dangerous stays so though it was read before the newest fault began.
func TestOldDangerStillStands(t *testing.T) {
	j := measured(t, "squeeze-3", "compression", book.Reading{Name: "compression_bar", Text: "11/11/0/11/11/11", Values: []float64{11, 11, 0, 11, 11, 11}})
	j.Date = moment(t, "2026-06-01")
	r := heronOn(t, "2026-08-30", j)
	if s := r.Suspects; len(s.Stop) != 1 || s.Stop[0].Sign != "compression_bar" || len(s.Evidence.Readings) != 0 {
		t.Errorf("stop %v, as read %v", s.Stop, s.Evidence.Readings)
	}
	if notes := r.SuspectsDocument().Notes; len(notes) == 0 || !strings.HasPrefix(notes[0], "Stop: ") {
		t.Errorf("notes %q, want the stop first", notes)
	}
}

// A shorter camshaft gives up a little at the top by itself; a longer one idles unevenly. More than a trace is a fault all the same.
func TestTheCamsOwnWays(t *testing.T) {
	card := func(opens, closes float64) book.Cam {
		return book.Cam{IntakeOpensBTDC: opens, IntakeClosesABDC: closes, ExhaustClosesATDC: opens}
	}
	for _, c := range []struct {
		name     string
		was, now book.Cam
		want     []book.Symptom // not counted
	}{
		{"milder", card(26, 66), card(16, 56), []book.Symptom{book.WeakHigh}},
		{"livelier", card(16, 56), card(26, 66), []book.Symptom{book.RoughIdle, book.WeakLow}},
		{"the same", card(16, 56), card(17, 57), nil},
		{"long overlap from the first", card(26, 66), card(26, 66), []book.Symptom{book.RoughIdle}},
		{"not told", card(quantity.Unknown, 56), card(16, 56), nil},
	} {
		g := workshop(t, "2025-02-10 fit camshaft")
		g.log.Vehicle.Engine.Cam = c.was
		g.log.Vehicle.From = []book.Override{{Job: "0", Apply: func(v *book.Vehicle) { v.Engine.Cam = c.now }}}
		e, n := suspect.Nothing(), notes{}
		for k := range e.Grades {
			e.Grades[k].Typical = book.Trace
		}
		e.Grades[book.Stall].Typical = book.Moderate
		g.asFitted(&e, &n)
		for k := range book.SymptomCount {
			if left := e.Grades[k].Typical == book.NotJudged; left != slices.Contains(c.want, k) {
				t.Errorf("%s: %s left out: %v", c.name, k, left)
			}
		}
		for _, k := range c.want {
			e.Grades[k].Typical = book.Moderate
		}
		if g.asFitted(&e, &n); len(n) != len(c.want) {
			t.Errorf("%s: notes %q", c.name, n)
		}
	}
}

// Where nothing began, what it uses was taken from many tanks: one fill can't stand behind it.
func TestOneFillIsNoMatterOfManyTanks(t *testing.T) {
	s := heronOn(t, "2026-06-25").Suspects
	if s.Evidence.Onset.Tanks < 10 {
		t.Errorf("the excess was taken from %d tanks", s.Evidence.Onset.Tanks)
	}
	if at, chance := place(t, s, "gauge_fill"); chance > 0.02 {
		t.Errorf("one odd fill stands in place %d (%.2f)", at, chance)
	}
}

// What has no chance to speak of is not told, and where one fault stands out, mending it comes before more checks.
func TestWhatHasNoChanceIsNotTold(t *testing.T) {
	s := &Suspected{}
	e := suspect.Nothing()
	e.Seen = map[string]string{"advance_weights": "loose", "knock": "trace", "rough_idle": "trace"}
	s.Weigh(e)
	if first := s.Suspects[0]; first.Cause != "advance_springs_weak" || !s.Settled() {
		t.Fatalf("%s stands first with %.2f", first.Cause, first.Chance)
	}
	for _, c := range s.Likeliest() {
		if c.Chance < neverTold {
			t.Errorf("%s is told with a chance of %.4f", c.Cause, c.Chance)
		}
	}
	if said := s.Sentence() + s.Rest(); strings.Contains(said, " 0 %") || strings.Contains(said, "(0 %") {
		t.Errorf("says %q", said)
	}
	s.Weigh(suspect.Nothing())
	if s.Settled() || len(s.Likeliest()) < atLeastTold {
		t.Errorf("of nothing known %d are told", len(s.Likeliest()))
	}
}

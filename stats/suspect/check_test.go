package suspect

import (
	"math"
	"slices"
	"strings"
	"testing"

	"brimlog/ingest/book"
)

// Shannon's binary symmetric channel (Bell System Technical Journal, 1948): a check that is right nine times in ten
// between two even chances tells 1 - H(0.1) = 0.531 bits; a perfect one tells 1, a useless one 0.
func TestGainOfAChannel(t *testing.T) {
	even := []hypothesis{{0, -1, 0.5}, {1, -1, 0.5}}
	for _, c := range []struct{ right, bits float64 }{{1, 1}, {0.9, 0.5310044}, {0.5, 0}} {
		got, _ := gain(even, [][]float64{{c.right, 1 - c.right}, {1 - c.right, c.right}})
		if math.Abs(got-c.bits) > 1e-6 {
			t.Errorf("right in %v: %v bits, want %v", c.right, got, c.bits)
		}
	}
}

func TestChecksAreRankedByWhatTheyTellPerMinute(t *testing.T) {
	checks := Rank(heronLate()).NextChecks
	if len(checks) == 0 {
		t.Fatal("no check is offered")
	}
	if !slices.IsSortedFunc(checks, func(a, b NextCheck) int {
		return int(math.Copysign(1, b.Bits/max(b.Minutes, 1)-a.Bits/max(a.Minutes, 1)))
	}) {
		t.Error("the checks are not in the order of what they tell per minute")
	}
	if !slices.ContainsFunc(checks[:5], func(c NextCheck) bool { return c.Check == "timing_light" }) {
		t.Error("the timing light is not among the first five checks for an ignition set by ear")
	}
}

func TestEveryCheckSaysHowAndWithWhatCaution(t *testing.T) {
	table := Standard()
	if len(table.Checks) < 40 {
		t.Errorf("%d checks, want at least 40", len(table.Checks))
	}
	for _, c := range table.Checks {
		for what, text := range map[string]string{"caution": c.Caution, "how": c.How, "read": c.Read, "enter": c.Enter, "title": c.Title} {
			if len(text) < 10 {
				t.Errorf("%s: %s is %q", c.ID, what, text)
			}
		}
		if c.State == "running" && !strings.Contains(c.Caution, "utdoors") {
			t.Errorf("%s: the engine runs, and the caution does not send it outdoors", c.ID)
		}
		if c.Minutes < 1 {
			t.Errorf("%s: %v minutes", c.ID, c.Minutes)
		}
	}
}

// What a check's `enter` says to write is understood when it is written.
func TestWhatIsEnteredIsUnderstood(t *testing.T) {
	table := Standard()
	for _, c := range table.Checks {
		for _, id := range c.Signs {
			s := table.Signs[table.sign[id]]
			name := s.ID
			if s.Kind == "number" {
				name = s.Reading
			}
			if id == "compression_pattern" {
				name = "compression_bar"
			}
			if id == "compression_wet" {
				name = "compression_wet_bar"
			}
			if !strings.Contains(c.Enter, name+"=") {
				t.Errorf("%s: enter %q does not write %s", c.ID, c.Enter, name)
			}
		}
	}
}

func TestACheckMadeIsNotAskedAgain(t *testing.T) {
	table := Standard()
	for _, c := range table.Checks {
		e := Nothing()
		if c.Only != "" {
			e.FuelSystem = c.Only
		}
		s := table.Signs[table.sign[c.Signs[0]]]
		switch s.ID {
		case "compression":
			e.Readings = []book.Reading{{Name: "compression_bar", Text: "10/10", Values: []float64{10, 10}}}
		case "compression_wet":
			e.Readings = []book.Reading{{Name: "compression_bar", Text: "10/10", Values: []float64{10, 10}}, {Name: "compression_wet_bar", Text: "10/10", Values: []float64{10, 10}}}
		case "centrifugal":
			e.Readings = []book.Reading{{Name: "timing_idle_deg", Text: "9", Values: []float64{9}}, {Name: "timing_2500_deg", Text: "24", Values: []float64{24}}}
		case "coast", "pull":
			e.Expected = map[string]Figure{s.Reading: {20, 1}}
			e.Readings = []book.Reading{{Name: s.Reading, Text: "20@80-60", Values: []float64{20}}}
		default:
			r := book.Reading{Name: s.Reading, Text: "1", Values: []float64{1}}
			if s.Kind == "word" {
				r = book.Reading{Name: s.ID, Text: s.Words[0]}
			}
			e.Readings = []book.Reading{r}
		}
		asked := func(e Evidence) bool {
			return slices.ContainsFunc(Rank(e).NextChecks, func(n NextCheck) bool { return n.Check == c.ID })
		}
		if asked(e) {
			t.Errorf("%s is asked for again though %v is written down", c.ID, e.Readings)
		}
		e = Nothing()
		e.Done = []string{c.ID}
		if asked(e) {
			t.Errorf("%s is asked for again though it was done", c.ID)
		}
	}
}

func TestChecksWithoutTheirToolsComeLast(t *testing.T) {
	e := heronLate()
	e.Tools = []string{"torch"}
	lacking := false
	for _, c := range Rank(e).NextChecks {
		if len(c.ToolsMissing) == 0 && lacking {
			t.Errorf("%s needs nothing that is missing, and comes after one that does", c.Check)
		}
		lacking = lacking || len(c.ToolsMissing) > 0
	}
	if !lacking {
		t.Error("with a torch alone no check lacks its tools")
	}
}

func TestGroupsShareTheirState(t *testing.T) {
	r := Rank(heronLate())
	n, seen := 0, map[string]bool{}
	for _, g := range r.Groups() {
		if seen[g.State] {
			t.Errorf("state %s comes twice", g.State)
		}
		seen[g.State] = true
		for _, c := range g.Checks {
			if n++; c.State != g.State {
				t.Errorf("%s needs %s and stands under %s", c.Check, c.State, g.State)
			}
		}
	}
	if n != len(r.NextChecks) {
		t.Errorf("%d checks in groups, %d in all", n, len(r.NextChecks))
	}
}

func TestStopComesFirst(t *testing.T) {
	for _, c := range []struct {
		seen    map[string]string
		reading book.Reading
		sign    string
	}{
		{map[string]string{"fuel_leak": "trace"}, book.Reading{}, "fuel_leak"},
		{map[string]string{"smell": "petrol"}, book.Reading{}, "fuel_leak"},
		{map[string]string{"hubs": "one_hot"}, book.Reading{}, "hubs"},
		{map[string]string{"knock": "heavy"}, book.Reading{}, "knock"},
		{map[string]string{"overheating": "heavy"}, book.Reading{}, "overheating"},
		{nil, book.Reading{Name: "oil_pressure_bar", Text: "0.4", Values: []float64{0.4}}, "oil_pressure_bar"},
		{nil, book.Reading{Name: "oil_dip", Text: "thin"}, "fuel_leak"},
		{nil, book.Reading{Name: "leak", Text: "wet"}, "fuel_leak"},
		{nil, book.Reading{Name: "thermostat_c", Text: "112", Values: []float64{112}}, "overheating"},
	} {
		e := Nothing()
		e.Seen, e.Readings = c.seen, []book.Reading{c.reading}
		r := Rank(e)
		if len(r.Stop) != 1 || r.Stop[0].Sign != c.sign || !strings.HasPrefix(r.Stop[0].Why, "Stop") {
			t.Errorf("%v %v: stop is %v, want %s", c.seen, c.reading, r.Stop, c.sign)
		}
		for _, n := range r.NextChecks {
			if n.State == "road" || n.State == "running" && c.sign != "knock" && c.sign != "hubs" {
				t.Errorf("%s: the %s check %s is offered", c.sign, n.State, n.Check)
			}
		}
	}
	for _, c := range []struct{ readings, sign, why string }{
		{"cam_phase_deg=-30", "cam_phase_deg", "valves may meet pistons"},
		{"ignition_deg=11", "ignition_deg", "too early"},
		{"ignition_deg=-18", "ignition_deg", "too late"},
		{"lambda_cruise=1.3", "lambda_cruise", "misfires"},
		{"compression_bar=11/11/2/11", "compression_bar", "cylinder 3"},
	} {
		e := Nothing()
		e.Standing = readingsOf(t, c.readings)
		r := Rank(e)
		if len(r.Stop) != 1 || r.Stop[0].Sign != c.sign || !strings.Contains(r.Stop[0].Why, c.why) || !strings.Contains(strings.ToLower(r.Stop[0].Do), "do not") {
			t.Errorf("%s: stop is %v", c.readings, r.Stop)
		}
		for _, n := range r.NextChecks {
			if n.State == "road" || n.State == "running" && c.sign == "cam_phase_deg" {
				t.Errorf("%s: the %s check %s is offered", c.readings, n.State, n.Check)
			}
		}
	}
	for _, sound := range []string{"cam_phase_deg=16", "cam_phase_deg=-8; ignition_deg=-5", "compression_bar=11/10.5/10/11", "lambda_idle=0.66"} {
		e := Nothing()
		e.Readings = readingsOf(t, sound)
		if stops := Rank(e).Stop; len(stops) > 0 {
			t.Errorf("%s: nothing is known that forbids to drive, yet %v", sound, stops)
		}
	}
	rich := Nothing()
	rich.Readings = readingsOf(t, "lambda_idle=0.66")
	if notes := strings.Join(Rank(rich).Notes, "; "); !strings.Contains(notes, "carbon monoxide") {
		t.Errorf("so rich an idle warns of no carbon monoxide: %q", notes)
	}
	e := Nothing()
	e.Seen = map[string]string{"fuel_leak": "none", "knock": "trace", "overheating": "none"}
	e.Readings = []book.Reading{{Name: "oil_pressure_bar", Text: "3.2", Values: []float64{3.2}}}
	if stops := Rank(e).Stop; len(stops) > 0 {
		t.Errorf("nothing is dangerous, yet %v", stops)
	}
}

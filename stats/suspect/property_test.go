package suspect

import (
	"encoding/json"
	"fmt"
	"io/fs"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"brimlog/ingest/book"
)

// chances by cause id.
func chances(r Report) map[string]float64 {
	m := map[string]float64{}
	for _, s := range r.Suspects {
		m[s.Cause] = s.Chance
	}
	return m
}

// weighed gives the chances alone, without the reasons and checks of a whole report.
func weighed(table *Table, e Evidence) map[string]float64 {
	w, _ := table.weigh(e)
	m := map[string]float64{}
	for i, c := range table.Causes {
		m[c.ID] = w.chance[i]
	}
	return m
}

func sameChances(t interface{ Fatalf(string, ...any) }, got, want map[string]float64) {
	for id, p := range want {
		if math.Abs(got[id]-p) > 1e-9 {
			t.Fatalf("%s: chance %v, want %v", id, got[id], p)
		}
	}
}

// anyEvidence draws what an owner may know: any grades, answers, readings, jobs, however odd.
func anyEvidence(t *rapid.T) Evidence {
	e := Nothing()
	if rapid.Bool().Draw(t, "figure") {
		e.Excess = rapid.Float64Range(-0.5, 1.5).Draw(t, "excess")
		e.ExcessSD = rapid.Float64Range(0.005, 0.2).Draw(t, "sd")
	}
	e.Onset = Onset{Form: Form(rapid.IntRange(0, 2).Draw(t, "form")), Tanks: rapid.IntRange(0, 5).Draw(t, "tanks")}
	e.FuelSystem = rapid.SampledFrom([]string{"", carburettor, injection}).Draw(t, "system")
	areas := rapid.SampledFrom([]string{"camshaft", "ignition", "fuel", "brakes", "tyres", "other", "compression"})
	if rapid.Bool().Draw(t, "jobs noted") {
		e.Jobs = []Job{}
		for range rapid.IntRange(0, 3).Draw(t, "jobs") {
			e.Jobs = append(e.Jobs, Job{Areas: rapid.SliceOfN(areas, 1, 2).Draw(t, "areas"), TanksBefore: rapid.Float64Range(0, 3).Draw(t, "before")})
		}
	}
	for i := range e.Grades {
		e.Grades[i].Typical = book.Grade(rapid.IntRange(0, 4).Draw(t, "grade"))
	}
	for _, name := range rapid.SliceOfDistinct(rapid.SampledFrom([]string{"ignition_deg", "idle_vacuum_inhg", "lambda_cruise", "tyre_bar", "fuel_pressure_bar", "cam_phase_deg", "thermostat_c"}), rapid.ID).Draw(t, "readings") {
		x := rapid.Float64Range(-100, 100).Draw(t, name)
		e.Readings = append(e.Readings, book.Reading{Name: name, Text: fmt.Sprint(x), Values: []float64{x}})
	}
	return e
}

func TestNothingKnownGivesBackThePriors(t *testing.T) {
	table := Standard()
	sum := 0.0
	for _, c := range table.Causes {
		if c.Only == injection {
			c.Common *= injectionShare
		}
		sum += c.Common
	}
	got := chances(Rank(Nothing()))
	for _, c := range table.Causes {
		want := c.Common / sum
		if c.Only == injection {
			want *= injectionShare
		}
		if math.Abs(got[c.ID]-want) > 1e-12 {
			t.Errorf("%s: chance %v, want %v", c.ID, got[c.ID], want)
		}
	}
}

func TestChancesSumToOne(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		sum := 0.0
		for id, p := range weighed(Standard(), anyEvidence(t)) {
			if math.IsNaN(p) || p < 0 {
				t.Fatalf("%s: chance %v", id, p)
			}
			sum += p
		}
		if math.Abs(sum-1) > 1e-9 {
			t.Fatalf("chances make %v", sum)
		}
	})
}

func TestOrderOfEvidenceIsIrrelevant(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		e := anyEvidence(t)
		want := weighed(Standard(), e)
		rng := rand.New(rand.NewPCG(rapid.Uint64().Draw(t, "seed"), 0))
		e.Readings, e.Jobs = slices.Clone(e.Readings), slices.Clone(e.Jobs)
		rng.Shuffle(len(e.Readings), func(i, j int) { e.Readings[i], e.Readings[j] = e.Readings[j], e.Readings[i] })
		rng.Shuffle(len(e.Jobs), func(i, j int) { e.Jobs[i], e.Jobs[j] = e.Jobs[j], e.Jobs[i] })
		sameChances(t, weighed(Standard(), e), want)
	})
}

// The same answer moves the chances alike whether it comes before or after the others.
func TestAnswersInAnyOrder(t *testing.T) {
	q := func(sign string) Question { return Question{Sign: sign} }
	a := heronLate().Answer(q("smoke"), "black").Answer(q("stall"), "").Answer(q("smell"), "rich")
	b := heronLate().Answer(q("smell"), "rich").Answer(q("smoke"), "black").Answer(q("stall"), "")
	sameChances(t, chances(Rank(a)), chances(Rank(b)))
}

// withSharedSign is the standard table with one more sign that every cause shows alike.
func withSharedSign(t *testing.T, sign, line string) *Table {
	t.Helper()
	files := fstest.MapFS{}
	err := fs.WalkDir(embedded, "table", func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		b, err := fs.ReadFile(embedded, path)
		text := string(b)
		if strings.HasPrefix(path, "table/causes/") {
			text = strings.ReplaceAll(text, "[cause.signs]\n", "[cause.signs]\n"+line+"\n")
		}
		if path == "table/signs/found.toml" {
			text += sign
		}
		files[strings.TrimPrefix(path, "table/")] = &fstest.MapFile{Data: []byte(text)}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	table, err := Load(files)
	if err != nil {
		t.Fatal(err)
	}
	return table
}

func TestSharedSignMovesNothing(t *testing.T) {
	table := withSharedSign(t, "\n[[sign]]\nid = \"shared\"\nkind = \"word\"\nsays = \"shared\"\nwords = [\"no\", \"yes\"]\nsound = [90, 10]\n", `shared = "yes 70"`)
	rapid.Check(t, func(t *rapid.T) {
		e := anyEvidence(t)
		want := weighed(table, e)
		e.Seen = map[string]string{"shared": rapid.SampledFrom([]string{"no", "yes"}).Draw(t, "answer")}
		sameChances(t, weighed(table, e), want)
	})
}

// A graded symptom tells how severe a fault is as well as which; shared by all, it still tells nothing of which while
// nothing else is known.
func TestSharedSymptomMovesNothing(t *testing.T) {
	table := withSharedSign(t, "\n[[sign]]\nid = \"shared\"\nkind = \"grade\"\nsays = \"shared\"\nsound = [80, 15, 4, 1]\n", `shared = "usually moderate"`)
	want := weighed(table, Nothing())
	for _, grade := range grades {
		e := Nothing()
		e.Seen = map[string]string{"shared": grade}
		sameChances(t, weighed(table, e), want)
	}
}

// A prime suspect that its own check then rules out leaves more room for what is not listed.
func TestContradictionRaisesNotListed(t *testing.T) {
	table := Standard()
	tried := 0
	for i, c := range table.Causes {
		decisive, sound := -1, 0.25
		for k, sign := range table.Signs {
			if l := table.laws[i][k]; sign.Kind == "word" && sign.Ask == "" && !l.sound && l.chances[0][0] < sound {
				decisive, sound = k, l.chances[0][0]
			}
		}
		if !c.listed() || decisive < 0 {
			continue
		}
		e := typical(table, i)
		fits := table.Rank(e)
		if fits.Suspects[0].Cause != c.ID {
			continue
		}
		tried++
		e.Seen[table.Signs[decisive].ID] = table.Signs[decisive].Words[0]
		before, after := chances(fits), chances(table.Rank(e))
		if after[NotListed] <= before[NotListed] || after[c.ID] >= before[c.ID] {
			t.Errorf("%s: %s says no: its chance %.4f to %.4f, not listed %.4f to %.4f", c.ID, table.Signs[decisive].ID,
				before[c.ID], after[c.ID], before[NotListed], after[NotListed])
		}
	}
	if tried < 15 {
		t.Errorf("only %d prime suspects were ruled out, want at least 15", tried)
	}
}

// typical is a vehicle that shows just what the cause most often shows.
func typical(table *Table, cause int) Evidence {
	e := Nothing()
	e.FuelSystem = table.Causes[cause].Only
	e.Seen = map[string]string{}
	for s, sign := range table.Signs {
		if sign.Kind != "grade" && sign.Ask == "" || sign.Kind == "number" {
			continue
		}
		chances := table.laws[cause][s].chances[1]
		e.Seen[sign.ID] = sign.Words[slices.Index(chances, slices.Max(chances))]
	}
	return e
}

func TestNotJudgedIsNotAbsent(t *testing.T) {
	e := heronLate()
	unknown := chances(Rank(e))
	e.Seen = map[string]string{"backfire": "none"}
	if absent := chances(Rank(e)); absent["leads_crossed"] >= unknown["leads_crossed"] {
		t.Errorf("crossed leads: %v when no backfire was noted, %v when nobody judged", absent["leads_crossed"], unknown["leads_crossed"])
	}
	e.Seen = nil
	e.DontKnow = []string{"backfire"}
	sameChances(t, chances(Rank(e)), unknown)
}

// Figures that no gauge gives must not turn chances into nonsense.
func TestWildFigures(t *testing.T) {
	for _, x := range []float64{-1e9, 0, 1e9, math.NaN(), math.Inf(1)} {
		e := heronLate()
		e.Excess, e.ExcessSD = x, 1e-9
		for _, name := range []string{"ignition_deg", "compression_bar", "compression_wet_bar", "tyre_bar", "coast_s", "lambda_cruise"} {
			e.Readings = append(e.Readings, book.Reading{Name: name, Text: "?", Values: []float64{x, x}})
		}
		sum := 0.0
		for _, p := range chances(Rank(e)) {
			sum += p
		}
		if math.Abs(sum-1) > 1e-9 {
			t.Errorf("with %v everywhere the chances make %v", x, sum)
		}
	}
}

func TestSameEvidenceSameReport(t *testing.T) {
	first, err := json.Marshal(Rank(heronLate()))
	if err != nil {
		t.Fatal(err)
	}
	again, _ := json.Marshal(Rank(heronLate()))
	if diff := cmp.Diff(string(first), string(again)); diff != "" {
		t.Error(diff)
	}
}

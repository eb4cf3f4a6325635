package main

import (
	"bytes"
	"encoding/json"
	"slices"
	"strings"
	"testing"

	"brimlog/stats"
	"brimlog/stats/suspect"
)

// answered calls the program with answers on standard input.
func answered(t *testing.T, dir, answers string, args ...string) (out, asked string, status int) {
	t.Helper()
	var o, e bytes.Buffer
	status = (&app{in: strings.NewReader(answers), out: &o, err: &e}).run(append([]string{"--book", dir}, args...))
	return o.String(), e.String(), status
}

// Asked, the most telling question comes first; what cannot be used is asked again, not knowing is an answer, and enough is
// enough.
func TestSuspectsAsk(t *testing.T) {
	dir := steadyLog(t)
	first, _ := suspect.NextQuestion(suspect.Nothing())
	plain, _, status := answered(t, dir, "", "suspects", "--json")
	if status != statusDone {
		t.Fatalf("exit %d", status)
	}
	out, asked, status := answered(t, dir, "purple\n\nenough\n", "suspects", "--ask", "--json")
	if status != statusDone || strings.Count(asked, "?") != 3 || !strings.Contains(asked, "don't know") {
		t.Errorf("exit %d, asked %q, want the first question twice and one more; of a log without anything it is %q", status, asked, first.Text)
	}
	if out != plain {
		t.Error("not knowing and having had enough changed the list")
	}
	if out, _, _ := answered(t, dir, "", "suspects", "--ask", "--json"); out != plain {
		t.Error("the end of the answers changed the list")
	}
}

// Answers move the list as --seen does, whichever of the two tells them, and each question is the most telling one left.
func TestAnswersCountAsSeen(t *testing.T) {
	dir := steadyLog(t)
	r, err := (&app{dir: dir}).review(stats.Options{Suspect: true})
	if err != nil {
		t.Fatal(err)
	}
	e, answers, args := r.Suspects.Evidence, "", []string{"suspects"}
	for range 3 {
		q, any := suspect.NextQuestion(e)
		if !any {
			t.Fatal("no three questions are worth asking")
		}
		word := q.Answers[0]
		e, answers, args = e.Answer(q, word), answers+word+"\n", append(args, "--seen", q.Sign+"="+word)
	}
	out, asked, status := answered(t, dir, answers+"enough\n", "suspects", "--ask")
	if status != statusDone || !strings.Contains(out, "what you have seen: ") {
		t.Fatalf("exit %d, asked %s, told %s", status, asked, out)
	}
	if seen, _, _ := answered(t, dir, "", args...); seen != out {
		t.Errorf("%v says otherwise than the same told by answers", args)
	}
}

// At a terminal the questions are offered, and the answer is told anew once they are through.
func TestSuspectsOfferQuestions(t *testing.T) {
	dir := steadyLog(t)
	shown, status := atTerminal(t, dir, []string{"suspects"}, lines("yes", "enough")...)
	if status != statusDone || !strings.Contains(shown, "be asked what would tell more? (yes, no) [no]: ") {
		t.Fatalf("exit %d, shown:\n%s", status, shown)
	}
	if strings.Count(shown, "What to look at next") != 2 {
		t.Errorf("the list is not told again after the questions:\n%s", shown)
	}
	shown, status = atTerminal(t, dir, []string{"suspects"}, lines("")...)
	if status != statusDone || strings.Count(shown, "What to look at next") != 1 {
		t.Errorf("exit %d; Enter alone must leave it at that:\n%s", status, shown)
	}
	shown, _ = atTerminal(t, dir, []string{"suspects", "--seen", "fuel_leak=heavy"})
	if stop, list := strings.Index(shown, "Stop:"), strings.Index(shown, "fits best"); strings.Contains(shown, "be asked") || stop < 0 || list < stop {
		t.Errorf("where it says stop nothing is asked:\n%s", shown)
	}
}

// The document is the contract's, whole where the terminal cuts.
func TestSuspectsDocument(t *testing.T) {
	out, _, _ := answered(t, steadyLog(t), "", "suspects", "--json")
	var doc struct {
		Book     string   `json:"book"`
		AsOf     string   `json:"as_of"`
		Notes    []string `json:"notes"`
		Suspects []struct {
			Cause   string   `json:"cause"`
			Chance  float64  `json:"chance"`
			Because []string `json:"because"`
			Against []string `json:"against"`
			Extra   *float64 `json:"extra_fuel_pct"`
		} `json:"suspects"`
		Checks []struct {
			Check   string   `json:"check"`
			Minutes float64  `json:"minutes"`
			Bits    float64  `json:"bits"`
			Apart   []string `json:"tells_apart"`
			Caution string   `json:"caution"`
		} `json:"next_checks"`
	}
	if err := json.Unmarshal([]byte(out), &doc); err != nil {
		t.Fatal(err)
	}
	if doc.Book != "Heron" || doc.AsOf == "" || doc.Notes == nil || len(doc.Suspects) != len(suspect.Standard().Causes) || len(doc.Checks) == 0 {
		t.Fatalf("%s, %s, %d notes, %d causes, %d checks", doc.Book, doc.AsOf, len(doc.Notes), len(doc.Suspects), len(doc.Checks))
	}
	sum, last := 0.0, 1.0
	for _, s := range doc.Suspects {
		if s.Chance > last || s.Because == nil || s.Against == nil || (s.Extra == nil) != (s.Cause == suspect.NotListed) {
			t.Errorf("%+v", s)
		}
		sum, last = sum+s.Chance, s.Chance
	}
	if sum < 1-1e-9 || sum > 1+1e-9 {
		t.Errorf("the chances sum to %v", sum)
	}
	for _, c := range doc.Checks {
		if c.Caution == "" || !(c.Bits > 0) || slices.ContainsFunc(c.Apart, func(id string) bool { return suspect.Standard().Name(id) == id }) {
			t.Errorf("%+v", c)
		}
	}
}

// Leaking fuel, knock, overheating and low oil pressure are answered with stop before all else: in the text, among the notes, and
// in place of questions.
func TestStopStandsBeforeAllElse(t *testing.T) {
	dir := steadyLog(t)
	for _, seen := range []string{"fuel_leak=trace", "knock=heavy", "overheating=moderate", "oil_pressure_bar=0.4", "compression_bar=11/11/0/11"} {
		out, _, _ := answered(t, dir, "", "suspects", "--seen", seen)
		if !strings.HasPrefix(out, "Stop") {
			t.Errorf("%s: begins with %.80q", seen, out)
		}
		var doc struct {
			Notes []string `json:"notes"`
			Stop  []struct{ Why, Do string }
		}
		out, asked, _ := answered(t, dir, "", "suspects", "--ask", "--json", "--seen", seen)
		if err := json.Unmarshal([]byte(out), &doc); err != nil {
			t.Fatal(err)
		}
		if len(doc.Notes) == 0 || !strings.HasPrefix(doc.Notes[0], "Stop") || len(doc.Stop) == 0 || !strings.Contains(doc.Notes[0], doc.Stop[0].Do) {
			t.Errorf("%s: notes %q, stop %v", seen, doc.Notes, doc.Stop)
		}
		if asked != "" {
			t.Errorf("%s: asks %q", seen, asked)
		}
	}
}

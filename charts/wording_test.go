package charts

import (
	"math"
	"testing"

	"brimlog/ingest/book"
	"brimlog/stats"
)

func TestNumber(t *testing.T) {
	for _, c := range []struct {
		x        float64
		decimals int
		want     string
	}{
		{23.94, 1, "23.9"}, {0.04, 1, "0.0"}, {-0.04, 1, "0.0"}, {-3.26, 1, "−3.3"}, {1234, 0, "1234"}, {12345, 0, "12\u202f345"},
		{1234567.8, 1, "1\u202f234\u202f567.8"}, {math.NaN(), 1, "–"}, {math.Inf(1), 1, "–"},
	} {
		if got := number(c.x, c.decimals); got != c.want {
			t.Errorf("number(%v, %d) = %q, want %q", c.x, c.decimals, got, c.want)
		}
	}
}

func TestChangesAndOddsInWords(t *testing.T) {
	for _, c := range []struct{ got, want string }{
		{changed(-6.14), "6.1\u00a0% less fuel"}, {changed(12), "12.0\u00a0% more fuel"}, {changed(0.01), "as much fuel"},
		{changes(-8.9, -3.2), "3.2 to 8.9\u00a0% less"}, {changes(1, 2.5), "1.0 to 2.5\u00a0% more"}, {changes(-2, 4), "from 2.0\u00a0% less to 4.0\u00a0% more"},
		{changes(math.NaN(), 4), "–"},
		{odds(120), "120 to 1 for a change"}, {odds(1e6), "a million to 1 or more for a change"}, {odds(0.25), "4.0 to 1 against a change"}, {odds(1), "even"}, {odds(math.NaN()), "–"},
		{wager(120), "120 to 1"}, {wager(0.25), "4.0 to 1 against"}, {wager(2e6), "a million to 1 or more"}, {wager(1e-7), "a million to 1 or more against"}, {odds(1e-7), "a million to 1 or more against a change"}, {wager(0.97), "even"},
		{count(1, "tank", "tanks"), "1 tank"}, {count(12, "tank", "tanks"), "12 tanks"},
	} {
		if c.got != c.want {
			t.Errorf("got %q, want %q", c.got, c.want)
		}
	}
}

// The verdict words are those of the contract; each has a mark of its own.
func TestEveryVerdictHasItsOwnMark(t *testing.T) {
	seen := map[string]bool{}
	for _, verdict := range []string{"less_fuel", "leaning_less", "no_change", "undecided", "leaning_more", "more_fuel"} {
		v := verdict
		j := job{Job: stats.Job{Kind: "fit", Verdict: &v, ChangePct: -5, LowPct: -8, HighPct: -2}}
		r := j.ruling()
		if r.Word == "" || r.Mark == "" || seen[r.Mark] || seen[r.Word] {
			t.Errorf("%s has mark %q and word %q", verdict, r.Mark, r.Word)
		}
		seen[r.Mark], seen[r.Word] = true, true
		if j.finding() == "" || j.headline() == "" {
			t.Errorf("%s has no words", verdict)
		}
	}
	none := job{Job: stats.Job{Kind: "fit"}}
	if got := none.finding(); got != "No answer: there is no whole tank before it and none since." {
		t.Errorf("a job without tanks says %q", got)
	}
}

// Factors from exact definitions: mile 1.609344 km, gallons 4.54609 L (UK Units of Measurement Regulations 1995) and 231 cubic inches.
func TestUnitsOfTheSwitch(t *testing.T) {
	all, own := units(book.Show{Economy: "l_100km", Distance: "mi", Volume: "gal_uk"})
	if len(all) != 4 || all[own].ID != "l_100km" {
		t.Fatalf("units are %v with %d the owner's", all, own)
	}
	if all[own].Distance.Label != "miles" || all[own].Volume.Label != "gal (UK)" {
		t.Error("the owner's own distance and volume do not go with the owner's economy")
	}
	for _, c := range []struct {
		unit int
		want float64
	}{{0, 100 * 4.54609 / 1.609344}, {1, 100 * 3.785411784 / 1.609344}, {3, 100}} {
		if got := all[c.unit].Economy.Factor; math.Abs(got-c.want) > 1e-9 || !all[c.unit].Economy.Inverse {
			t.Errorf("%s has the factor %v, want %v", all[c.unit].ID, got, c.want)
		}
	}
	if f := all[1].Temperature; math.Abs(f.Factor*100+f.Offset-212) > 1e-9 || f.Offset != 32 {
		t.Errorf("water boils at %v °F", f.Factor*100+f.Offset)
	}
}

package slip

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"brimlog/ingest/book"
)

func numbers(all []variant) (n []string) {
	for _, v := range all {
		n = append(n, v.number)
	}
	return n
}

// Whatever one slip of the pen makes of a number, the number is among its variants.
func TestVariantsUndoEverySlip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		meant := rapid.StringMatching(`[1-9][0-9]{2,5}(\.[0-9]{1,2})?`).Draw(t, "meant")
		i := rapid.IntRange(0, len(meant)-1).Draw(t, "at")
		if meant[i] == '.' {
			t.Skip()
		}
		digit := rapid.StringMatching(`[0-9]`).Draw(t, "digit")
		written := map[string]string{
			"a wrong digit": meant[:i] + digit + meant[i+1:],
			"one more":      meant[:i] + digit + meant[i:],
		}
		if i > 0 && i < len(meant)-1 && meant[i+1] != '.' {
			written["two exchanged"] = meant[:i] + meant[i+1:i+2] + meant[i:i+1] + meant[i+2:]
		}
		if point := len(shifted(meant, 9)) - 9; i < min(point, 3) && i > 0 {
			written["one left out"] = meant[:i] + meant[i+1:]
		}
		for slip, w := range written {
			if w != meant && w[0] != '0' && !slices.Contains(numbers(digitSlips(w, odometer)), meant) {
				t.Fatalf("%s: %s written for %s, and no way back", slip, w, meant)
			}
		}
	})
}

func TestPointSlipsUndoEachOther(t *testing.T) {
	for _, c := range []struct {
		written string
		by      int
		want    string
	}{
		{"45.45", 1, "454.5"}, {"45.45", -1, "4.545"}, {"45.45", 2, "4545"}, {"45.45", -2, "0.4545"}, {"45.45", -3, "0.04545"},
		{"45.45", 3, "45450"}, {"48213", -1, "4821.3"}, {"0.45", 2, "45"}, {"7", -1, "0.7"},
	} {
		if got := shifted(c.written, c.by); got != c.want {
			t.Errorf("%s by %d is %s, want %s", c.written, c.by, got, c.want)
		}
		if back := shifted(c.want, -c.by); number(back) != number(c.written) {
			t.Errorf("%s by %d is %s, want %s again", c.want, -c.by, back, c.written)
		}
	}
}

// The rarer a slip, the less it counts, and all of them together are rare.
func TestSlipsOfThePenAreRare(t *testing.T) {
	for _, written := range []string{"48213", "45.45", "7", "104365.2"} {
		sum := 0.0
		for _, v := range slices.Concat(digitSlips(written, odometer), pointSlips(written, 3)) {
			if v.prior >= 0 || math.IsNaN(v.prior) {
				t.Errorf("%s for %s has the log chance %g", v.number, written, v.prior)
			}
			sum += math.Exp(v.prior)
		}
		if sum > 0.05 {
			t.Errorf("%s: one row in %.0f has a slip of the pen, want fewer than one in 20", written, 1/sum)
		}
	}
}

func TestMergedVariantsKeepTheirWeight(t *testing.T) {
	all := merged([]variant{{number: "5", kind: odometer, prior: math.Log(0.1)}, {number: "7", kind: decimal, prior: math.Log(0.2)}, {number: "5", kind: decimal, prior: math.Log(0.3)}})
	if len(all) != 2 || all[0].number != "5" || all[0].kind != decimal || math.Abs(math.Exp(all[0].prior)-0.4) > 1e-12 {
		t.Errorf("got %v", all)
	}
}

func TestDatesThatOneSlipMakes(t *testing.T) {
	for _, c := range []struct{ meant, written string }{
		{"2024-02-11", "2024-11-02"}, {"2024-02-11", "2023-02-11"}, {"2024-02-11", "2042-02-11"}, {"2024-02-11", "2014-02-11"},
		{"2024-02-11", "2024-03-11"}, {"2024-02-12", "2024-02-21"}, {"2024-02-11", "2024-02-17"}, {"2024-02-11T17:40", "2024-11-02T17:40"},
	} {
		meant, _ := book.ParseMoment(c.meant)
		written, _ := book.ParseMoment(c.written)
		if !slices.ContainsFunc(datings(written), func(d dating) bool { return d.date == meant }) {
			t.Errorf("%s written for %s, and no way back", c.written, c.meant)
		}
	}
	leap, _ := book.ParseMoment("2024-02-29")
	for _, d := range datings(leap) {
		if m, err := book.ParseMoment(d.date.String()); err != nil || m != d.date {
			t.Errorf("29 February was never meant to be %s", d.date)
		}
	}
}

package calc_test

import (
	"math"
	"strconv"
	"testing"

	"pgregory.net/rapid"

	"brimlog/stats/calc"
	"brimlog/testdata/table"
)

// R lists every exchange one by one: testdata/permutation/enumerate.R.
func TestPermutationAgreesWithEnumeration(t *testing.T) {
	strata := map[string]map[string]*calc.Stratum{}
	for _, row := range table.Rows(t, "../../testdata/permutation/scores.csv") {
		if strata[row[0]] == nil {
			strata[row[0]] = map[string]*calc.Stratum{}
		}
		s := strata[row[0]][row[1]]
		if s == nil {
			s = &calc.Stratum{}
			strata[row[0]][row[1]] = s
		}
		score, err := strconv.Atoi(row[3])
		if err != nil {
			t.Fatal(err)
		}
		if row[2] == "before" {
			s.Before = append(s.Before, score)
		} else {
			s.After = append(s.After, score)
		}
	}
	values := table.Rows(t, "../../testdata/permutation/p.csv")
	if len(values) != len(strata) || len(values) < 6 {
		t.Fatalf("%d cases, %d values", len(strata), len(values))
	}
	for _, row := range values {
		want, err := strconv.ParseFloat(row[1], 64)
		if err != nil {
			t.Fatal(err)
		}
		var all []calc.Stratum
		for _, s := range strata[row[0]] {
			all = append(all, *s)
		}
		if got := calc.Permutation(all); math.Abs(got-want) > 1e-12 {
			t.Errorf("%s: p = %.15g, R lists %.15g", row[0], got, want)
		}
	}
}

// With ranks for scores it is the exact rank-sum test: R 4.2.2, wilcox.test(a, b)$p.value.
func TestPermutationOfRanksIsTheRankSumTest(t *testing.T) {
	a := []int{1, 2, 4, 6, 7, 9, 10} // 1.1 2.2 3.3 4.7 5.9 7.3 8.8
	b := []int{3, 5, 8, 11, 12}      // 2.9 4.1 6.5 9.2 10.4
	if got := calc.Permutation([]calc.Stratum{{Before: a, After: b}}); math.Abs(got-0.343434343434343) > 1e-14 {
		t.Errorf("p = %.15g", got)
	}
}

// Any group of drives, against a listing of all exchanges made here.
func TestPermutationCountsEveryExchange(t *testing.T) {
	scores := rapid.SliceOfN(rapid.IntRange(0, 12), 1, 5)
	rapid.Check(t, func(t *rapid.T) {
		before, after := scores.Draw(t, "before"), scores.Draw(t, "after")
		got := calc.Permutation([]calc.Stratum{{Before: before, After: after}})
		if want := listed(before, after); math.Abs(got-want) > 1e-12 {
			t.Fatalf("p = %v, listed %v", got, want)
		}
		if back := calc.Permutation([]calc.Stratum{{Before: after, After: before}}); math.Abs(got-back) > 1e-12 {
			t.Fatalf("p = %v, with the groups exchanged %v", got, back)
		}
	})
}

// listed is the share of all choices of the labels with a sum at least as far out.
func listed(before, after []int) float64 {
	all := append(append([]int{}, before...), after...)
	n, k := len(all), len(after)
	total, observed := 0, 0
	for i, x := range all {
		total += x
		if i >= len(before) {
			observed += x
		}
	}
	// all in n-ths, so that nothing is rounded
	far := abs(n*observed - k*total)
	ways, out := 0, 0
	for mask := range 1 << n {
		size, sum := 0, 0
		for i, x := range all {
			if mask>>i&1 == 1 {
				size++
				sum += x
			}
		}
		if size != k {
			continue
		}
		ways++
		if abs(n*sum-k*total) >= far {
			out++
		}
	}
	return float64(out) / float64(ways)
}

func abs(x int) int { return max(x, -x) }

func TestPermutationOfNothing(t *testing.T) {
	for _, s := range [][]calc.Stratum{nil, {}, {{Before: []int{1, 2}}}, {{After: []int{3}}}, {{Before: []int{1}}, {After: []int{2}}}} {
		if p := calc.Permutation(s); !math.IsNaN(p) {
			t.Errorf("%v: p = %v, want none", s, p)
		}
	}
}

// Thirty drives on either side, cold and warm: the most that one job asks for.
func BenchmarkPermutation(b *testing.B) {
	var s calc.Stratum
	for i := range 30 {
		s.Before, s.After = append(s.Before, i%7*6), append(s.After, i%5*4)
	}
	for b.Loop() {
		calc.Permutation([]calc.Stratum{s, s})
	}
}

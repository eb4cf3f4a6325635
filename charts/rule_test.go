package charts

import (
	"math"
	"regexp"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
)

// A rule lies the way the charts stand: less fuel to the right, where in them it is up; nothing runs off its ends.
func TestRuleOfAChange(t *testing.T) {
	r := ruleOf(rulingNamed("less_fuel"), -6, -9, -4)
	if r.Less != "10\u00a0% less" || r.Off != "10\u00a0% more" || r.At != 80 || r.Range != (stretchOf{70, 25}) || *r.Band != (stretchOf{35, 30}) {
		t.Errorf("6 %% less, from 4 to 9, lies as %+v on a band %+v", r, *r.Band)
	}
	if r = ruleOf(0, 12, 8, 19.5); r.Less != "50\u00a0% less" {
		t.Errorf("19.5 %% has the rule of %s: it would lie at its very end", r.Less)
	}
	if r = ruleOf(0, 80, 30, 300); r.At != 0 || r.Range.From != 0 || r.Range.Long != 20 {
		t.Errorf("80 %% more, from 30 to 300, lies as %+v", r)
	}
	for _, bad := range [][3]float64{{math.NaN(), 1, 2}, {1, math.NaN(), 2}, {1, 1, math.Inf(1)}} {
		if r := ruleOf(0, bad[0], bad[1], bad[2]); r != nil {
			t.Errorf("%v lies on a rule: %+v", bad, r)
		}
	}
	h := normalRule(heron().Expect, 5) // 41 % over healthy, which is known within 10 % either way
	if h == nil || !h.Healthy || *h.Band != (stretchOf{40, 20}) || h.At != 9 {
		t.Errorf("41 %% over healthy lies as %+v", h)
	}
}

// Every mark has the same outline on the rules as in the charts: as many, and hollow alike.
func TestRulesMarksAreTheCharts(t *testing.T) {
	if len(outlines) != len(rulings) || len(hollowMarks) != len(rulings) {
		t.Fatalf("%d outlines and %d hollow for %d rulings", len(outlines), len(hollowMarks), len(rulings))
	}
	m := regexp.MustCompile(`const hollow = \[([^\]]*)\]`).FindStringSubmatch(script())
	for i, h := range strings.Split(m[1], ", ") {
		if (h == "true") != hollowMarks[i] {
			t.Errorf("ruling %d is hollow in charts: %s, on rules: %v", i, h, hollowMarks[i])
		}
	}
}

// The three answers, each shift and each job with a verdict have a rule, and in the window its mark stands where the figure says.
func TestRulesAreDrawn(t *testing.T) {
	r := heron()
	s := visit(t, r, desk)
	s.do(chromedp.WaitReady(`[data-chart=timeline] svg`))
	got := ask[[]struct{ At, Want float64 }](s, `[...document.querySelectorAll('.answer, article.job')].filter(a => a.querySelector('.rule')).map(a => {
		const rule = a.querySelector('.rule > svg').getBoundingClientRect(), mark = a.querySelector('.pointer').getBoundingClientRect(), ends = a.querySelector('.rule p').textContent.match(/\d+/)[0];
		const said = a.querySelector('.figure').textContent.match(/([\d.]+)\s% (more|less)/);
		return { at: (mark.left + mark.right) / 2 - rule.left - rule.width / 2, want: said ? rule.width / 2 * said[1] / ends * (said[2] === 'less' ? 1 : -1) : NaN };
	}).map(r => ({ at: r.at, want: Number.isNaN(r.want) ? r.at : r.want }))`)
	if want := 3 + 2 + 5; len(got) != want {
		t.Errorf("%d rules, want %d: three answers, two shifts, five jobs", len(got), want)
	}
	for i, g := range got {
		if math.Abs(g.At-g.Want) > 3 {
			t.Errorf("rule %d: its mark stands %.1f pixels right of the middle, its figure says %.1f", i, g.At, g.Want)
		}
	}
	s.quiet()
}

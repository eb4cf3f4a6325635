package charts

import (
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
)

// Every chart has a description with figures in it, written from the data; that of the levels follows the unit.
func TestEveryChartIsDescribed(t *testing.T) {
	s := visit(t, heron(), desk)
	s.unfold()
	for _, dumb := range ask[[]string](s, `[...document.querySelectorAll('.chart')].filter(c => !/\d/.test(document.getElementById(c.getAttribute('aria-describedby'))?.textContent || '')).map(c => c.dataset.chart + ' ' + c.dataset.job)`) {
		t.Errorf("chart %s has no description", dumb)
	}
	const levels = `document.getElementById(document.querySelector('[data-chart=levels]').getAttribute('aria-describedby')).textContent`
	before := heron().Jobs[5].Before.Mid
	for unit, label := range map[string]string{"l_100km": "L/100\u00a0km", "km_l": "km/L"} {
		s.do(chromedp.Click(`input[name=unit][value=`+unit+`]`, chromedp.NodeVisible))
		if got := ask[string](s, levels); strings.Count(got, label) != 4 || unit == "l_100km" && !strings.HasPrefix(got, "Before it "+number(float64(before), 1)) {
			t.Errorf("in %s the levels are described as %q", unit, got)
		}
	}
	s.quiet()
}

// The chart of all jobs is summed up in a sentence that counts every job once.
func TestTallyOfTheJobs(t *testing.T) {
	r := heron()
	for i, v := range []string{"more_fuel", "less_fuel", "", "less_fuel", "no_change", "leaning_less"} {
		if v != "" {
			r.Jobs[i].Verdict = &v
		}
	}
	want := "Of 6 jobs: 2 are proved to have brought less fuel (strobe, cam-fit); 1 is proved to have brought more (distributor); " +
		"1 changed less than 3 % either way; 1 is not decided; 1 has nothing to be judged by."
	if got := strings.ReplaceAll(textIn(open(r).tally()), "\u00a0", " "); got != want {
		t.Errorf("the jobs are summed up as %q", got)
	}
	if !strings.Contains(textOf(t, r, "work"), want) {
		t.Error("the page does not say so")
	}
}

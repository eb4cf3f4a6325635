package charts

import (
	"encoding/json"
	"math"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
)

// The level steps on the day of the job within its tank, and the tank before reaches up to it.
func TestLevelStepsWhereTheJobFell(t *testing.T) {
	r := heron()
	cam := &r.Jobs[3] // of tank 39
	from, to := day(r.Tanks[38].FromDate), day(r.Tanks[38].ToDate)
	cam.Date = dated(from + 3).Format("2006-01-02")
	l := open(r)
	var turn row
	for _, at := range l.data.Turns {
		if at[0] == 38 {
			turn = at
		}
	}
	if turn == nil || float64(turn[1]) != from+3 {
		t.Fatalf("the tank from %v to %v turns at %v, want the job's own day %v", from, to, turn, from+3)
	}
	s := visit(t, r, desk)
	s.do(chromedp.WaitReady(`[data-chart=timeline] svg`))
	rows := ask[[][]float64](s, `echarts.getInstanceByDom(document.querySelector('[data-chart=timeline]')).getOption().series.find(s => s.name === 'level').data`)
	found := 0
	for i, at := range rows {
		if at[0] == (from+3)*864e5 {
			found++
			if at[1] != to*864e5 || rows[i-1][1] != at[0] {
				t.Errorf("the level of the job's tank runs from %v to %v, that of the one before up to %v", at[0], at[1], rows[i-1][1])
			}
		}
	}
	if found != 1 {
		t.Errorf("%d levels begin on the day of the job", found)
	}
	s.quiet()
}

// A job dated outside the tank that its odometer puts it in turns the level at that tank's end, never outside.
func TestTurnStaysWithinItsTank(t *testing.T) {
	r := heron()
	r.Jobs[3].Date = "2031-01-01"
	for _, at := range open(r).data.Turns {
		if at[0] == 38 && float64(at[1]) != day(r.Tanks[38].ToDate) {
			t.Errorf("the level turns on day %v", at[1])
		}
	}
}

// The healthy band lies in the timeline where the review has it, in every unit, and legend and description name it.
func TestHealthyBandIsDrawn(t *testing.T) {
	r := heron()
	r.Expect = foretold(10.4, 9, 0)
	h := r.HealthyLevel()
	p := payloadOf(t, pageOf(t, r))
	text, _ := json.Marshal(p.Charts["timeline"].Option)
	if !strings.Contains(string(text), `"strip"`) {
		t.Fatal("the timeline has no band")
	}
	said := textOf(t, r, "timeline")
	for _, want := range []string{"healthy, as the vehicle is built now, ", "Healthy, as it is built now, it should return ", "the band with dashed edges"} {
		if !strings.Contains(said, want) {
			t.Errorf("the timeline does not say %q", want)
		}
	}
	s := visit(t, r, desk)
	s.do(chromedp.WaitReady(`[data-chart=timeline] svg`))
	for unit, economy := range map[string]func(float64) float64{"mpg_uk": func(x float64) float64 { return 282.480936 / x }, "l_100km": func(x float64) float64 { return x }} {
		s.do(chromedp.Click(`input[name=unit][value=`+unit+`]`, chromedp.NodeVisible))
		ends, err := json.Marshal([]float64{economy(float64(h.Low)), economy(float64(h.High))})
		if err != nil {
			t.Fatal(err)
		}
		off := ask[float64](s, `(() => { const el = document.querySelector('[data-chart=timeline]'), chart = echarts.getInstanceByDom(el), o = el.getBoundingClientRect();
			const want = `+string(ends)+`.map(e => chart.convertToPixel({ gridIndex: 0 }, [chart.getOption().xAxis[0].min, e])[1]).sort((a, b) => a - b);
			const wide = [...el.querySelectorAll('svg path')].map(p => p.getBoundingClientRect()).filter(r => r.width > 900 && r.height > 5).map(r => [r.top - o.top, r.bottom - o.top]);
			return Math.min(...wide.map(w => Math.max(Math.abs(w[0] - want[0]), Math.abs(w[1] - want[1]))));
		})()`)
		if !(math.Abs(off) < 2) {
			t.Errorf("%s: the nearest band is %v pixels off", unit, off)
		}
	}
	s.quiet()
	r.Expect = nil
	if said = textOf(t, r, "timeline"); strings.Contains(said, "ealthy") {
		t.Error("without an expected range the timeline speaks of what is healthy")
	}
}

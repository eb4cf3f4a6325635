package charts

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
)

// What the timeline has drawn: every shape's box within the chart, and where the library puts a day and an economy.
const drawnAt = `(() => { const el = document.querySelector('[data-chart=timeline]'), o = el.getBoundingClientRect(), chart = echarts.getInstanceByDom(el);
	const boxes = [...el.querySelectorAll('svg path, svg circle, svg polygon')].map(p => { const r = p.getBoundingClientRect(); return [r.left - o.left, r.top - o.top, r.right - o.left, r.bottom - o.top]; });
	const at = (day, y) => chart.convertToPixel({ gridIndex: 0 }, [day * 864e5, y]), y = chart.getOption().yAxis[0];
	return { boxes, shifts: %s.map(([a, b]) => [at(a, y.min)[0], at(b, y.min)[0]]), tanks: %s.map(([d, e]) => at(d, e)), edges: [y.min, y.max].map(e => at(0, e)[1]).sort((a, b) => a - b) };
})()`

// The shifts are hatched over their dates from edge to edge, and each tank that stands out has its shape where it lies.
func TestWatchIsDrawn(t *testing.T) {
	r := heron()
	s := visit(t, r, desk)
	s.do(chromedp.WaitReady(`[data-chart=timeline] svg`))
	days := func(pairs [][2]float64) string { return strings.ReplaceAll(fmt.Sprint(pairs), " ", ",") }
	var shifts, tanks [][2]float64
	for _, h := range r.Watch.Shifts {
		shifts = append(shifts, [2]float64{day(h.FromDate), day(h.ToDate)})
	}
	for i, w := range r.Watch.Tanks {
		if w.Reading != nil {
			tanks = append(tanks, [2]float64{(day(r.Tanks[i].FromDate) + day(r.Tanks[i].ToDate)) / 2, 282.480936 / float64(r.Tanks[i].LPer100Km)})
		}
	}
	got := ask[struct {
		Boxes         [][4]float64
		Shifts, Tanks [][2]float64
		Edges         [2]float64
	}](s, fmt.Sprintf(drawnAt, days(shifts), days(tanks)))
	near := func(a, b, within float64) bool { return math.Abs(a-b) < within }
	found := func(test func(b [4]float64) bool) (n int) {
		for _, b := range got.Boxes {
			if test(b) {
				n++
			}
		}
		return n
	}
	for i, x := range got.Shifts {
		if found(func(b [4]float64) bool {
			return near(b[0], x[0], 2) && near(b[2], x[1], 2) && near(b[1], got.Edges[0], 2) && near(b[3], got.Edges[1], 2)
		}) == 0 {
			t.Errorf("shift %d is not hatched from %v to %v", i+1, x[0], x[1])
		}
	}
	for i, at := range got.Tanks {
		y := min(max(at[1], got.Edges[0]+17), got.Edges[1]-17)
		if found(func(b [4]float64) bool {
			return near((b[0]+b[2])/2, at[0], 2) && near((b[1]+b[3])/2, y, 3) && b[2]-b[0] >= 12 && b[2]-b[0] < 25
		}) == 0 {
			t.Errorf("tank that stands out %d has no shape at %v", i+1, at)
		}
	}
	s.quiet()
}

// On a phone the story of a tank that lies off the scale stands within the window, and tells what was unusual.
func TestStoryOfATankThatStandsOut(t *testing.T) {
	as := look{width: 360, height: 900}
	s := visit(t, heron(), as)
	s.do(chromedp.Focus(`[data-chart=timeline]`), chromedp.WaitReady(`[data-chart=timeline] svg`), chromedp.KeyEvent(kb.End))
	for range 70 - 52 {
		s.do(chromedp.KeyEvent(kb.ArrowLeft))
	}
	const story = `document.querySelector('[data-chart=timeline] .story')`
	s.until(story + `?.querySelector('b')?.textContent === 'Tank 52' && getComputedStyle(` + story + `).visibility === 'visible'`)
	for _, want := range []string{"Stands out✕ slip of the pen?", "Expected, 90\u00a0% sure"} {
		if got := ask[string](s, story+`.textContent`); !strings.Contains(got, want) {
			t.Errorf("the story lacks %q: %s", want, got)
		}
	}
	if got := ask[string](s, `document.getElementById('aloud').textContent`); !strings.Contains(got, "Stands out: slip of the pen?") {
		t.Errorf("aloud it is %q", got)
	}
	box := ask[[2]float64](s, `[`+story+`.getBoundingClientRect().left, `+story+`.getBoundingClientRect().right]`)
	if wide := ask[float64](s, `document.documentElement.scrollWidth`); box[0] < 0 || box[1] > 360 || wide > 360 {
		t.Errorf("the story reaches from %v to %v, the page is %v wide", box[0], box[1], wide)
	}
	s.do(chromedp.KeyEvent(kb.End), chromedp.KeyEvent(kb.ArrowLeft))
	for range 69 - 62 {
		s.do(chromedp.KeyEvent(kb.ArrowLeft))
	}
	if got := ask[string](s, `document.getElementById('aloud').textContent`); !strings.HasPrefix(got, "Tank 62") || !strings.Contains(got, "A shift, perhaps here: 6.8\u00a0% more fuel") {
		t.Errorf("a tank within a shift says %q", got)
	}
	s.quiet()
}

func TestWatchFollowsTheUnit(t *testing.T) {
	s := visit(t, heron(), desk)
	s.do(chromedp.Click(`input[name=unit][value=l_100km]`, chromedp.NodeVisible))
	got := strings.ReplaceAll(ask[string](s, `document.querySelector('#answers').textContent + document.querySelector('#watch').textContent`), "\u00a0", " ")
	if n := strings.Count(got, "thriftier than 9.9 L/100 km"); n != 2 || strings.Contains(got, "mpg") {
		t.Errorf("in L/100 km answer and section say %s", got)
	}
	low, high := heron().Watch.Tanks[69].ExpectedLow, heron().Watch.Tanks[69].ExpectedHigh
	want := number(float64(low), 1) + dash + number(float64(high), 1)
	if got := ask[string](s, `(() => { const t = document.querySelector('#tank-table'), i = [...t.tHead.rows[0].cells].findIndex(c => c.textContent.startsWith('Expected')); return t.tBodies[0].rows[0].cells[i].textContent; })()`); got != want {
		t.Errorf("the newest tank was expected at %q, want %q", got, want)
	}
	s.quiet()
}

package charts

import (
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
)

func TestKeyboardLeadsThroughThePage(t *testing.T) {
	s := visit(t, heron(), desk)
	s.do(chromedp.WaitReady(`[data-chart=timeline] svg`))
	type stop struct {
		Place         int
		What, Name    string
		Width, Height float64
		Outline       string
	}
	var stops []stop
	for range 60 {
		s.do(chromedp.KeyEvent(kb.Tab))
		at := ask[stop](s, `(() => { const e = document.activeElement, r = e.getBoundingClientRect(), ring = e.matches('.switch input') ? e.nextElementSibling : e;
			return { place: [...document.querySelectorAll('*')].indexOf(e), what: e.dataset.chart || e.tagName, name: e.getAttribute('aria-label') || e.textContent || e.value,
				width: r.width, height: r.height, outline: getComputedStyle(ring).outlineStyle }; })()`)
		if at.What == "BODY" {
			break
		}
		stops = append(stops, at)
	}
	if len(stops) < 25 {
		t.Fatalf("Tab stops at %d places only", len(stops))
	}
	if !strings.Contains(stops[0].Name, "Skip") {
		t.Errorf("Tab stops first at %q, want the way past the navigation", stops[0].Name)
	}
	reached := map[string]bool{}
	for i, at := range stops {
		reached[at.What] = true
		if i > 0 && at.Place < stops[i-1].Place {
			t.Errorf("Tab leads back from %q to %q", stops[i-1].Name, at.Name)
		}
		if at.Width == 0 || at.Height == 0 || at.Outline == "none" {
			t.Errorf("%s %q can't be seen when it has the focus", at.What, at.Name)
		}
	}
	for _, want := range []string{"INPUT", "timeline", "effects", "levels", "growth", "odds", "expected", "SUMMARY"} {
		if !reached[want] {
			t.Errorf("Tab does not reach %s", want)
		}
	}
	s.quiet()
}

func TestArrowKeysWalkTheCharts(t *testing.T) {
	s := visit(t, heron(), desk)
	s.do(chromedp.WaitReady(`[data-chart=timeline] svg`), chromedp.Focus(`[data-chart=timeline]`), chromedp.KeyEvent(kb.End), chromedp.KeyEvent(kb.ArrowLeft))
	if got := ask[string](s, `document.getElementById('aloud').textContent`); !strings.HasPrefix(got, "Tank 69. Dates: ") {
		t.Errorf("two steps from the end the page says %q, want tank 69", got)
	}
	s.until(`document.querySelector('[data-chart=timeline] .story b')?.textContent === 'Tank 69'`)
	s.do(chromedp.Focus(`input[name=unit]:checked`), chromedp.KeyEvent(kb.ArrowRight))
	if got := ask[string](s, `document.querySelector('[name=unit]:checked').value + ' ' + document.querySelector('#timeline .axis').textContent`); got != "mpg_us mpg (US): better is up ↑" {
		t.Errorf("the switch, moved by an arrow key, shows %q", got)
	}
	s.unfold()
	for _, c := range []struct{ chart, want string }{{"effects", "1 distributor"}, {"levels", "Before"}, {"growth", "After 1 tank, "}, {"odds", "After 1 tank, "}, {"expected", "healthy"}} {
		s.do(chromedp.Focus(`[data-chart=`+c.chart+`]`), chromedp.KeyEvent(kb.Home))
		if got := ask[string](s, `document.getElementById('aloud').textContent`); !strings.HasPrefix(got, c.want) {
			t.Errorf("the first mark of %s says %q, want %q", c.chart, got, c.want)
		}
	}
	s.quiet()
}

func TestLightFollowsTheReader(t *testing.T) {
	s := visit(t, heron(), desk)
	s.do(chromedp.WaitReady(`[data-chart=timeline] svg`))
	const label = `getComputedStyle(document.querySelector('[data-chart=timeline] svg text')).fill`
	before := ask[string](s, label)
	s.see(look{width: 1280, height: 900, dark: true})
	s.until(label + ` !== '` + before + `'`)
	s.quiet()
}

// The bar that stays at the top never hides what its links lead to.
func TestBarLeavesHeadingsInSight(t *testing.T) {
	s := visit(t, suspected(nil), desk)
	for _, width := range []int64{360, 768, 1024, 1200, 1280, 2560} {
		s.see(look{width: width, height: 700})
		s.until(settled)
		for _, id := range []string{"watch", "money", "tanks"} {
			gap := ask[float64](s, `(async () => { document.querySelector('.bar a[href="#`+id+`"]').click(); await new Promise(requestAnimationFrame);
				return document.getElementById('`+id+`-title').getBoundingClientRect().top - Math.max(0, document.querySelector('.bar').getBoundingClientRect().bottom); })()`)
			if gap < 0 || gap > 250 {
				t.Errorf("%d pixels: the heading of %s stands %.0f below the bar", width, id, gap)
			}
		}
	}
	s.quiet()
}

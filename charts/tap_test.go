package charts

import (
	"strings"
	"testing"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/input"
	"github.com/chromedp/chromedp"
)

// On a phone a tap on the timeline tells the tank's story, whole and within the window; what is meant for a finger is large enough for one.
func TestTapTellsTheTanksStory(t *testing.T) {
	s := visit(t, heron(), look{width: 360, height: 780})
	s.do(emulation.SetTouchEmulationEnabled(true), chromedp.Reload(), chromedp.WaitReady("#aloud"))
	ask[bool](s, `(document.querySelector('[data-chart=timeline]').scrollIntoView({ block: 'center' }), true)`)
	s.do(chromedp.WaitReady(`[data-chart=timeline] svg`))
	at := ask[[]float64](s, `(() => { const r = document.querySelector('[data-chart=timeline]').getBoundingClientRect(); return [r.x + r.width / 2, r.y + r.height / 2]; })()`)
	finger := []*input.TouchPoint{{X: at[0], Y: at[1]}}
	s.do(input.DispatchTouchEvent(input.TouchStart, finger), input.DispatchTouchEvent(input.TouchEnd, []*input.TouchPoint{}))
	s.until(`document.querySelector('[data-chart=timeline] .story dl')`)
	story := ask[struct {
		Text        string
		Left, Right float64
		Hidden      bool
	}](s, `(() => { const e = document.querySelector('[data-chart=timeline] .story'), r = e.getBoundingClientRect(); return { text: e.textContent, left: r.left, right: r.right, hidden: getComputedStyle(e).visibility === 'hidden' }; })()`)
	if !strings.Contains(story.Text, "Lines in fills.csv") || story.Left < 0 || story.Right > 360 || story.Hidden {
		t.Errorf("a tap tells %+v", story)
	}
	for _, small := range ask[[]string](s, `[...document.querySelectorAll('.switch label, summary, .bar a')].filter(e => e.getClientRects().length && e.getBoundingClientRect().height < 40).map(e => e.textContent + ' ' + e.getBoundingClientRect().height)`) {
		t.Errorf("too low for a finger: %s", small)
	}
	s.quiet()
}

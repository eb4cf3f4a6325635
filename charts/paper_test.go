package charts

import (
	"bytes"
	"context"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"
)

func (s *sheet) pdf() (pdf []byte) {
	s.Helper()
	s.do(chromedp.ActionFunc(func(ctx context.Context) (err error) {
		pdf, _, err = page.PrintToPDF().WithPreferCSSPageSize(true).Do(ctx)
		return err
	}))
	return pdf
}

func TestPaper(t *testing.T) {
	s := visit(t, heron(), look{width: 1280, height: 900, dark: true})
	s.do(chromedp.WaitReady(`[data-chart=timeline] svg`))
	ask[bool](s, `(addEventListener('beforeprint', () => { window.printed = [...document.querySelectorAll('.chart')].filter(c => c.style.width).map(c => [c.dataset.chart,
		c.querySelector('svg').getAttribute('width') + 'px' === c.style.width, getComputedStyle(c.querySelector('svg text')).fill].join(' ')); }), true)`)
	pdf := s.pdf()
	if !bytes.HasPrefix(pdf, []byte("%PDF-")) || bytes.Count(pdf, []byte("/Type /Page\n")) < 2 {
		t.Errorf("%d bytes of paper with %d pages", len(pdf), bytes.Count(pdf, []byte("/Type /Page\n")))
	}
	printed := ask[[]string](s, `window.printed`)
	want := strings.Fields("timeline effects levels growth odds levels growth odds expected") // two jobs are open
	if len(printed) != len(want) {
		t.Fatalf("for paper the charts are %q", printed)
	}
	for i := range want {
		if want := want[i] + " true rgb(51, 51, 51)"; printed[i] != want {
			t.Errorf("for paper a chart is %q, want %q: its own width, dark on white", printed[i], want)
		}
	}
	if left := ask[int](s, `document.querySelectorAll('.chart[style*=px]').length + (document.documentElement.dataset.paper ? 1 : 0)`); left != 0 {
		t.Error("after printing, the charts keep the width of the paper")
	}
	s.quiet()
}

// On an A4 page between its margins nothing is cut off, and what can only be clicked is gone.
func TestPaperLayout(t *testing.T) {
	const a4 = 688 // 210 mm less twice 14, at 96 to the inch
	as := look{width: a4, height: 1000}
	s := visit(t, heron(), as)
	s.unfold()
	s.do(emulation.SetEmulatedMedia().WithMedia("print"))
	ask[bool](s, `(dispatchEvent(new Event('beforeprint')), true)`)
	if got := ask[[]string](s, `[...document.querySelectorAll('body *')].filter(e => e.getClientRects().length && !e.closest('.unseen, .skip, svg, .story') && e.getBoundingClientRect().right > 689)
		.slice(0, 4).map(e => e.tagName + '.' + e.className + ' ' + e.textContent.slice(0, 30) + ' reaches ' + e.getBoundingClientRect().right)`); len(got) > 0 {
		t.Errorf("beyond the paper: %q", got)
	}
	if n := ask[int](s, `[...document.querySelectorAll('.bar, .switch, summary, .behind')].filter(e => e.getClientRects().length).length`); n != 0 {
		t.Errorf("%d things that can only be clicked are printed", n)
	}
	if bg := ask[string](s, `getComputedStyle(document.documentElement).backgroundColor + getComputedStyle(document.querySelector('.job')).backgroundColor`); bg != "rgb(255, 255, 255)rgb(255, 255, 255)" {
		t.Errorf("the paper is %s", bg)
	}
	for _, said := range ask[[]string](s, collisions) {
		t.Error("on paper: ", said)
	}
}

// On paper, where the band of what is healthy has no colour, its edges are drawn on the rule, and mark and range lie on one line.
func TestRuleOnPaper(t *testing.T) {
	s := visit(t, heron(), look{width: 688, height: 1000})
	s.do(emulation.SetEmulatedMedia().WithMedia("print"))
	ask[bool](s, `(dispatchEvent(new Event('beforeprint')), true)`)
	got := ask[struct {
		Opacity, Stroke string
		Off             float64
	}](s, `(() => { const rule = document.querySelector('.answer .rule'), edge = getComputedStyle(rule.querySelector('.well')), mid = e => { const r = rule.querySelector(e).getBoundingClientRect(); return r.top + r.height / 2; };
		return { opacity: edge.opacity, stroke: edge.stroke, off: Math.abs(mid('.left') - mid('.pointer')) }; })()`)
	if got.Opacity != "1" || got.Stroke != "rgb(0, 0, 0)" || got.Off > 1.5 {
		t.Errorf("on paper the rule has %+v", got)
	}
}

package charts

import (
	"os"
	"strings"
	"testing"

	"brimlog/stats"

	"github.com/chromedp/chromedp"
)

// TestLooks opens the page as different readers see it, unfolds all of it, and holds every look to the same demands: all charts drawn,
// nothing cut off, no text on text, contrast, no complaint, no request; and axe-core finds no violation.
func TestLooks(t *testing.T) {
	axe, err := os.ReadFile("../testdata/axe/axe.min.js")
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		name   string
		review *stats.Review
		as     look
		charts int
		axe    bool // slow: once for each kind of content
	}{
		{"light", heron(), desk, 3 + 5*3, true},
		{"dark phone", heron(), look{width: 360, height: 780, dark: true}, 3 + 5*3, true},
		{"wide dark", tiny(), look{width: 2560, height: 1440, dark: true}, 2 + 3, false},
		{"tiny phone", tiny(), look{width: 360, height: 780}, 2 + 3, true},
		{"empty phone", empty(), look{width: 360, height: 780}, 0, true},
		{"hostile phone", hostile(), look{width: 360, height: 780}, 3 + 5*3, true},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := visit(t, c.review, c.as)
			s.unfold()
			s.drawn(c.charts)
			s.fits(c.as)
			s.contrasts()
			if c.axe {
				s.accessible(axe)
			}
			s.quiet()
		})
	}
}

// marksIn counts the shapes that each chart has drawn.
const marksIn = `[...document.querySelectorAll('.chart')].map(el => ({
	chart: el.dataset.chart, job: el.dataset.job || '', marks: el.querySelectorAll('svg path, svg circle, svg polygon, svg polyline, svg rect').length,
	text: el.querySelectorAll('svg text').length }))`

func (s *sheet) drawn(charts int) {
	s.Helper()
	all := ask[[]struct {
		Chart, Job  string
		Marks, Text int
	}](s, marksIn)
	if len(all) != charts {
		s.Errorf("%d charts, want %d", len(all), charts)
	}
	tanks := ask[int](s, `(document.querySelector('#tank-table')?.tBodies[0].rows.length || 0)`)
	for _, d := range all {
		if d.Marks < 8 || d.Text < 3 {
			s.Errorf("chart %s of job %q has %d marks and %d labels", d.Chart, d.Job, d.Marks, d.Text)
		}
		if d.Chart == "timeline" && d.Marks < 2*(tanks-2) {
			s.Errorf("the timeline has %d marks for %d tanks", d.Marks, tanks)
		}
	}
}

// The widest thing on the page, and how far it reaches beyond the window; boxes that scroll by themselves may.
const widest = `(() => {
	const edge = document.documentElement.clientWidth;
	const all = [...document.querySelectorAll('body *')].filter(e => !e.closest('.scroll table, .unseen, .skip, .story, svg') && e.getBoundingClientRect().right > edge + 0.5);
	return all.slice(0, 3).map(e => e.tagName + '.' + e.className + ' reaches ' + Math.round(e.getBoundingClientRect().right))
		.concat(document.documentElement.scrollWidth > edge ? ['the page scrolls to ' + document.documentElement.scrollWidth] : []);
})()`

// Text in a chart may neither leave it nor lie on other text, nor touch it.
const collisions = `[...document.querySelectorAll('.chart')].flatMap(el => {
	const frame = el.getBoundingClientRect(), said = [];
	const texts = [...el.querySelectorAll('svg text')].filter(t => t.textContent.trim()).map(t => [t.textContent, t.getBoundingClientRect()]);
	texts.forEach(([text, r], i) => {
		if (r.left < frame.left - 1 || r.right > frame.right + 1 || r.top < frame.top - 1 || r.bottom > frame.bottom + 1) said.push(el.dataset.chart + ': "' + text + '" leaves the chart');
		for (const [other, o] of texts.slice(i + 1)) {
			const across = Math.min(r.right, o.right) - Math.max(r.left, o.left), down = Math.min(r.bottom, o.bottom) - Math.max(r.top, o.top);
			if (across > -3 && down > 3) said.push(el.dataset.chart + ' of job ' + el.dataset.job + ': "' + text + '" lies on "' + other + '"');
		}
	});
	return said;
})`

func (s *sheet) fits(as look) {
	s.Helper()
	units := []string{"l_100km", "mpg_uk"}
	if as == desk {
		units = append(units, "km_l", "mpg_us")
	}
	for _, unit := range units {
		if ask[bool](s, `!document.querySelector('.switch')`) {
			break // an empty log has no figures to choose a unit for
		}
		s.do(chromedp.Click(`input[name=unit][value=`+unit+`]`, chromedp.NodeVisible))
		if got := ask[[]string](s, widest); len(got) > 0 {
			s.Errorf("%d pixels in %s: %q", as.width, unit, got)
		}
		for _, said := range ask[[]string](s, collisions) {
			s.Errorf("in %s: %s", unit, said)
		}
	}
}

// The contrast of every text with what lies behind it, in charts too, after WCAG 2.2 (relative luminance).
const contrasts = `(() => {
	const parse = c => (c.match(/[\d.]+/g) || []).map(Number);
	const light = c => { const [r, g, b] = c.map(v => { v /= 255; return v <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4; }); return 0.2126 * r + 0.7152 * g + 0.0722 * b; };
	const ratio = (a, b) => { const [x, y] = [light(a), light(b)].sort((p, q) => q - p); return (x + 0.05) / (y + 0.05); };
	const behind = el => { for (; el; el = el.parentElement) { const c = parse(getComputedStyle(el).backgroundColor); if (c.length === 3 || c[3] === 1) return c.slice(0, 3); } return [255, 255, 255]; };
	const low = []; let looked = 0;
	const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
	while (walker.nextNode()) {
		const el = walker.currentNode.parentElement, text = walker.currentNode.data.trim();
		if (!text || el.closest('script, style, noscript, svg, .unseen, .skip') || !el.getClientRects().length) continue;
		looked++;
		const r = ratio(parse(getComputedStyle(el).color).slice(0, 3), behind(el));
		if (r < 4.5) low.push(text.slice(0, 30) + ' ' + r.toFixed(2));
	}
	for (const t of document.querySelectorAll('.chart svg text')) {
		looked++;
		const at = t.getBoundingClientRect(), x = at.x + at.width / 2, y = at.y + at.height / 2;
		let ground = behind(t.closest('.chart'));
		for (const p of t.closest('svg').querySelectorAll('path, rect')) {
			if (p.compareDocumentPosition(t) & Node.DOCUMENT_POSITION_PRECEDING) continue;
			const r = p.getBoundingClientRect(), style = getComputedStyle(p), fill = parse(style.fill);
			if (fill.length !== 3 || p.closest('defs') || x < r.left || x > r.right || y < r.top || y > r.bottom) continue;
			const o = Number(style.fillOpacity) * Number(style.opacity);
			ground = ground.map((g, i) => g * (1 - o) + fill[i] * o);
		}
		const r = ratio(parse(getComputedStyle(t).fill).slice(0, 3), ground);
		if (r < 4.5) low.push(t.closest('.chart').dataset.chart + ' ' + t.textContent.slice(0, 30) + ' ' + r.toFixed(2));
	}
	return { looked, low: low.slice(0, 8) };
})()`

func (s *sheet) contrasts() {
	s.Helper()
	got := ask[struct {
		Looked int
		Low    []string
	}](s, contrasts)
	if got.Looked < 20 {
		s.Errorf("only %d texts were looked at", got.Looked)
	}
	if len(got.Low) > 0 {
		s.Errorf("contrast below 4.5: %q", got.Low)
	}
}

func (s *sheet) accessible(axe []byte) {
	s.Helper()
	s.do(chromedp.Evaluate(string(axe)+";true", nil))
	result := ask[struct {
		Passes     int
		Violations []struct {
			ID, Help string
			Nodes    []string
		}
	}](s, `axe.run(document).then(r => ({ passes: r.passes.length, violations: r.violations.map(v => ({ id: v.id, help: v.help, nodes: v.nodes.slice(0, 3).map(n => n.html.slice(0, 120)) })) }))`)
	if result.Passes < 10 {
		s.Errorf("only %d rules were looked at", result.Passes)
	}
	for _, v := range result.Violations {
		s.Errorf("%s: %s: %s", v.ID, v.Help, strings.Join(v.Nodes, " | "))
	}
}

// All text in the charts is in the type of the page, in whatever browser.
func TestChartsAreInThePagesType(t *testing.T) {
	s := visit(t, heron(), desk)
	s.unfold()
	if got := ask[[]string](s, `[...new Set([...document.querySelectorAll('.chart svg text')].map(t => getComputedStyle(t).fontFamily))].concat(getComputedStyle(document.body).fontFamily)`); len(got) != 2 || got[0] != got[1] {
		t.Errorf("the charts are lettered in %q, the page in %q", got[:len(got)-1], got[len(got)-1])
	}
	s.quiet()
}

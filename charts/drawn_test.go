package charts

import (
	"encoding/json"
	"fmt"
	"strings"
	"testing"

	"brimlog/stats"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/input"
	"github.com/chromedp/chromedp"
)

// A long log opens with few charts drawn, shows all of itself when asked, and prints its last tanks.
func TestThirtyYears(t *testing.T) {
	s := visit(t, huge(), desk)
	s.do(chromedp.WaitReady(`[data-chart=timeline] svg`))
	if n := ask[int](s, `document.querySelectorAll('.chart svg').length`); n > 6 {
		t.Errorf("%d charts are drawn before anyone has looked at them", n)
	}
	s.spellsAsThePage(huge())
	s.do(chromedp.Click(`input[name=window][value="0"]`, chromedp.NodeVisible))
	if n := ask[int](s, `document.querySelectorAll('[data-chart=timeline] svg path, [data-chart=timeline] svg circle').length`); n < 2*1560 {
		t.Errorf("all thirty years show %d marks, want two and more for each of 1560 tanks", n)
	}
	s.do(emulation.SetEmulatedMedia().WithMedia("print"))
	if n := ask[int](s, `[...document.querySelector('#tank-table').tBodies[0].rows].filter(r => r.getClientRects().length).length`); n != onPaper {
		t.Errorf("%d tanks are printed, want %d", n, onPaper)
	}
	if !ask[bool](s, `document.querySelector('#tank-table .paper').getClientRects().length > 0`) {
		t.Error("the paper does not say that it shows the last tanks only")
	}
	s.quiet()
}

// One look at all that depends on the unit: the answer, a cell, a description, the labels of the axis.
const unitSeen = `({
	answer: document.querySelector('.counted').querySelector('.figure').textContent, cell: document.querySelector('#tank-table').tBodies[0].rows[0].cells[2].textContent,
	head: document.querySelector('#tank-table').tHead.rows[0].cells[2].textContent, distance: document.querySelector('#tank-table [data-cells=distance]').textContent,
	words: document.querySelector('#timeline-words').textContent, axis: document.querySelector('#timeline .axis').textContent,
	labels: [...document.querySelectorAll('[data-chart=timeline] svg text')].map(t => [t.textContent, t.getBoundingClientRect().y, t.getBoundingClientRect().x]).filter(([s, y, x]) => /^[0-9.]+$/.test(s) && x < document.querySelector('[data-chart=timeline]').getBoundingClientRect().x + 45).sort((a, b) => a[1] - b[1]).map(a => Number(a[0])) })`

type seen struct {
	Answer, Cell, Head, Distance, Words, Axis string
	Labels                                    []float64
}

func TestSwitchChangesChartsAndTextTogether(t *testing.T) {
	s := visit(t, heron(), desk)
	s.do(chromedp.WaitReady(`[data-chart=timeline] svg`))
	s.spellsAsThePage(heron())
	last := heron().Tanks[69]
	for _, u := range []struct {
		id, label, distance, inTank string
		up                          bool
	}{
		{"l_100km", "L/100 km", "km", fmt.Sprintf("%.1f", float64(last.LPer100Km)), false},
		{"km_l", "km/L", "km", fmt.Sprintf("%.2f", 100/float64(last.LPer100Km)), true},
		{"mpg_us", "mpg (US)", "miles", fmt.Sprintf("%.1f", 235.214583/float64(last.LPer100Km)), true},
		{"mpg_uk", "mpg (UK)", "miles", fmt.Sprintf("%.1f", 282.480936/float64(last.LPer100Km)), true},
	} {
		s.do(chromedp.Click(`input[name=unit][value=`+u.id+`]`, chromedp.NodeVisible))
		v := ask[seen](s, unitSeen)
		if label := strings.ReplaceAll(v.Answer, "\u00a0", " "); !strings.HasSuffix(label, u.label) {
			t.Errorf("%s: the answer reads %q", u.id, v.Answer)
		}
		if v.Cell != u.inTank {
			t.Errorf("%s: the newest tank reads %s, want %s", u.id, v.Cell, u.inTank)
		}
		if !strings.HasSuffix(v.Head, u.label) || !strings.HasSuffix(v.Distance, u.distance) || !strings.Contains(strings.ReplaceAll(v.Words, "\u00a0", " "), u.label) {
			t.Errorf("%s: headings %q, %q, words %q", u.id, v.Head, v.Distance, v.Words)
		}
		if len(v.Labels) < 3 {
			t.Fatalf("%s: the axis has the labels %v", u.id, v.Labels)
		}
		top, bottom := v.Labels[0], v.Labels[len(v.Labels)-1]
		if better := top > bottom; better != u.up {
			t.Errorf("%s: the axis runs from %v at the top to %v: better has to be up", u.id, top, bottom)
		}
		if runs := strings.Contains(v.Axis, "run downwards"); runs == u.up {
			t.Errorf("%s: the axis says %q", u.id, v.Axis)
		}
		low, high := min(top, bottom), max(top, bottom)
		var cell float64
		fmt.Sscan(v.Cell, &cell)
		if cell < low || cell > high {
			t.Errorf("%s: the axis shows %v to %v, the newest tank is %v: chart and text differ", u.id, low, high, cell)
		}
	}
	s.quiet()
}

func TestUnitIsRemembered(t *testing.T) {
	s := visit(t, heron(), desk)
	s.do(chromedp.Click(`input[name=unit][value=km_l]`, chromedp.NodeVisible), chromedp.Reload(), chromedp.WaitReady("#aloud"))
	if got := ask[string](s, `document.querySelector('#tank-table').tHead.rows[0].cells[2].textContent + document.querySelector('[name=unit]:checked').value`); got != "Economy, km/Lkm_l" {
		t.Errorf("after a reload the table is headed %q", got)
	}
	ask[bool](s, `(localStorage.setItem('brimlog.economy', '<b>'), true)`)
	s.do(chromedp.Reload(), chromedp.WaitReady("#aloud"))
	if got := ask[string](s, `document.querySelector('[name=unit]:checked').value`); got != "mpg_uk" {
		t.Errorf("a remembered unit that does not exist gives %q, want the owner's", got)
	}
	ask[bool](s, `(localStorage.removeItem('brimlog.economy'), true)`)
	s.quiet()
}

// spellsAsThePage tells whether the script spells figures as the page's own text does: there and back again changes nothing.
func (s *sheet) spellsAsThePage(r *stats.Review) {
	s.Helper()
	text, err := json.Marshal(bare(pageOf(s.TB, r))) // without what it carries
	if err != nil {
		s.Fatal(err)
	}
	pairs := ask[[]struct{ Was, Is string }](s, `(() => {
		const own = document.querySelector('[name=unit]:checked');
		for (const other of document.getElementsByName('unit')) if (other !== own) { other.click(); break; }
		own.click();
		const text = new DOMParser().parseFromString(`+string(text)+`, 'text/html');
		const pick = d => [...d.querySelectorAll('[data-q], #tank-table td')].map(e => e.textContent);
		const was = pick(text), is = pick(document);
		return was.length === is.length ? was.map((w, i) => ({was: w, is: is[i]})).filter(p => p.was !== p.is) : [{was: String(was.length), is: String(is.length)}];
	})()`)
	if len(pairs) > 0 {
		s.Errorf("%d figures are spelled anew, the first from %q to %q", len(pairs), pairs[0].Was, pairs[0].Is)
	}
}

func TestHoverTellsTheTanksStory(t *testing.T) {
	s := visit(t, heron(), desk)
	s.do(chromedp.WaitReady(`[data-chart=timeline] svg`))
	at := ask[[]float64](s, `(() => { const el = document.querySelector('[data-chart=timeline]'); el.scrollIntoView({block: 'center'}); const r = el.getBoundingClientRect(); return [r.x + r.width / 2, r.y + r.height / 2]; })()`)
	for range 3 {
		s.do(input.DispatchMouseEvent(input.MouseMoved, at[0], at[1]))
		at[0]++
	}
	s.until(`document.querySelector('[data-chart=timeline] .story dl')`)
	story := ask[string](s, `document.querySelector('[data-chart=timeline] .story').textContent`)
	for _, want := range []string{"Tank ", "Dates", "Economy, mpg (UK)", "Fuel, L", "Air, °C", "Lines in fills.csv"} {
		if !strings.Contains(story, want) {
			t.Errorf("the story of the tank lacks %q: %s", want, story)
		}
	}
	s.quiet()
}

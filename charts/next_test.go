package charts

import (
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
)

// Without a tank the page begins with what to note and what is lacking; of a tiny log that stands beneath what there is to show.
func TestEmptyLogIsTaughtFirst(t *testing.T) {
	r := empty()
	r.Expect, r.Notes = untold(), []string{"one brim fill opens a tank: the next one closes it"}
	r.Expect.Noted = false
	page := pageOf(t, r)
	at := func(page, id string) int { return strings.Index(page, `<section id="`+id+`"`) }
	if next, expected := at(page, "next"), at(page, "expected"); next < 0 || expected < next {
		t.Errorf("what to note stands at %d, what it should use at %d", next, expected)
	}
	const lack = "One brim fill opens a tank"
	if !strings.Contains(textOf(t, r, "next"), lack) || strings.Contains(textOf(t, r, "reckoned"), lack) {
		t.Error("what is lacking does not stand where it is taught what to note, or stands twice")
	}
	if said := textOf(t, r, "expected"); !strings.Contains(said, "the shares are what is usual") || strings.Contains(said, "On the same roads") {
		t.Errorf("roads that nobody has noted are told as %s", said)
	}
	r.Expect.Noted = true
	if strings.Contains(textOf(t, r, "expected"), "usual") {
		t.Error("noted roads are called usual")
	}
	page = pageOf(t, tiny())
	if next, timeline := at(page, "next"), at(page, "timeline"); timeline < 0 || next < timeline {
		t.Errorf("in a tiny log what to note stands at %d, the tanks at %d", next, timeline)
	}
}

// Without a tank there is still a figure, and a unit to choose for it.
func TestEmptyLogHasItsUnit(t *testing.T) {
	r := empty()
	r.Expect = untold()
	s := visit(t, r, desk)
	s.do(chromedp.Click(`input[name=unit][value=km_l]`, chromedp.NodeVisible))
	if got := ask[string](s, `document.querySelector('#expected').textContent`); !strings.Contains(got, "return 9.62\u00a0km/L") || strings.Contains(got, "mpg") {
		t.Errorf("in km/L it should use %s", got)
	}
	s.quiet()
}

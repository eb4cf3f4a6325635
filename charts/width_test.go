package charts

import (
	"testing"

	"brimlog/stats"
)

// settled tells whether every chart that is drawn has the width of its place.
const settled = `[...document.querySelectorAll('.chart')].every(c => !c.querySelector('svg') || Math.abs(c.querySelector('svg').getBoundingClientRect().width - c.clientWidth) < 1)`

// tooWide are the things that reach beyond the window or are cut off: the page itself may not scroll sideways, and whatever is wider than the
// window lies in a box that scrolls by itself and can be reached with the keyboard.
const tooWide = `(() => {
	const edge = document.documentElement.clientWidth, name = e => e.tagName + '.' + e.className + ' "' + e.textContent.trim().slice(0, 30) + '"', all = [];
	if (document.documentElement.scrollWidth > edge) all.push('the page scrolls to ' + document.documentElement.scrollWidth);
	for (const e of document.querySelectorAll('body *')) {
		if (!e.getClientRects().length || e.closest('.unseen, .skip, .story, svg *') || getComputedStyle(e).clipPath === 'inset(50%)') continue;
		const box = e.parentElement.closest('.scroll'), r = e.getBoundingClientRect(), style = getComputedStyle(e);
		if ((r.right > edge + 0.5 || r.left < -0.5) && !(box && box.tabIndex === 0 && box.getBoundingClientRect().right <= edge + 0.5)) all.push(name(e) + ' reaches from ' + r.left + ' to ' + r.right);
		const scrolls = e.scrollWidth > e.clientWidth + 1 && style.overflowX !== 'visible' && style.display !== 'inline' && e.tagName !== 'svg';
		if (scrolls && style.overflowX === 'hidden') all.push(name(e) + ' is cut off');
		if (scrolls && e.tabIndex !== 0) all.push(name(e) + ' scrolls but takes no focus');
		const hold = e.parentElement.getBoundingClientRect(); // text that runs out of its own box, over what stands beside it
		if (e.matches('dd, dt, p, h1, h2, h3, td, th, li') && e.scrollWidth > e.clientWidth + 1 && e.clientWidth) all.push(name(e) + ' runs out of its box of ' + Math.round(hold.width));
	}
	return all.slice(0, 4);
})()`

// At every width that a reader may have, nothing of any log is cut off and nothing pushes the page sideways.
func TestNothingIsTooWide(t *testing.T) {
	long := huge()
	long.Book, long.Jobs[59].What = "Thirty-years-without-a-break-in-the-name-of-it", "Donaudampfschifffahrtsgesellschaftskapitänsmützenabzeichen"
	for name, review := range map[string]*stats.Review{"empty": empty(), "tiny": tiny(), "heron": suspected(nil), "huge": long, "hostile": hostile()} {
		t.Run(name, func(t *testing.T) {
			s := visit(t, review, desk)
			if name != "huge" { // of which two cards stand open as it is
				s.unfold()
			}
			widths := []int64{320, 360, 400, 600, 800, 1100, 1440, 2560}
			if name == "huge" {
				widths = []int64{320, 800, 1100, 2560} // each is dear
			}
			for _, width := range widths {
				s.see(look{width: width, height: 900})
				s.until(settled)
				for _, said := range ask[[]string](s, tooWide) {
					t.Errorf("%d pixels: %s", width, said)
				}
			}
			s.quiet()
		})
	}
}

// From 1100 pixels on a small log's table of tanks is seen whole; below that it scrolls in its box, with the tank's number standing still.
func TestTableOfASmallLogIsSeenWhole(t *testing.T) {
	r := tiny()
	for i := range r.Tanks {
		r.Tanks[i].Note = ""
	}
	s := visit(t, r, desk)
	const over = `(b => b.scrollWidth - b.clientWidth)(document.getElementById('tank-table').parentElement)`
	for _, width := range []int64{1100, 1280, 1440, 2560} {
		s.see(look{width: width, height: 900})
		if n := ask[int](s, over); n > 0 {
			t.Errorf("at %d pixels %d of the table are out of sight", width, n)
		}
	}
	s.see(look{width: 400, height: 900})
	if n := ask[int](s, over); n <= 0 {
		t.Fatal("at 400 pixels nothing scrolls, so the test sees too little")
	}
	left := ask[[]float64](s, `(() => { const box = document.getElementById('tank-table').parentElement, cell = box.querySelector('tbody th'), was = cell.getBoundingClientRect().left; box.scrollLeft = 300; return [was, cell.getBoundingClientRect().left]; })()`)
	if left[0] != left[1] {
		t.Errorf("scrolled sideways, the tank's number moves from %v to %v", left[0], left[1])
	}
	s.quiet()
}

// The answers leave no hole beside them at any width, and the words of their rules stay on one line.
func TestAnswersFillTheirRows(t *testing.T) {
	s := visit(t, heron(), desk)
	for _, width := range []int64{320, 360, 600, 700, 768, 900, 1024, 1130, 1200, 2560} {
		s.see(look{width: width, height: 900})
		got := ask[[3]float64](s, `(() => { const box = document.querySelector('.answers').getBoundingClientRect(), last = document.querySelector('.answer:last-child').getBoundingClientRect();
			const broken = [...document.querySelectorAll('.rule span')].filter(e => e.getBoundingClientRect().height > 20 || e.scrollWidth > e.parentElement.clientWidth).length;
			return [box.right - last.right, broken, Math.max(...[...document.querySelectorAll('.rule p')].map(p => p.scrollWidth - p.clientWidth))]; })()`)
		if got[0] > 1 || got[1] > 0 || got[2] > 0 {
			t.Errorf("%d pixels: %.0f free beside the last answer, %.0f words of rules broken, %.0f too wide", width, got[0], got[1], got[2])
		}
	}
	s.quiet()
}

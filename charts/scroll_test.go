package charts

import (
	"testing"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"
)

// scrolled scrolls from the top of the page to its end, 400 pixels a frame, and tells how long frames and tasks took, in ms.
const scrolled = `(async () => {
	const tasks = [];
	new PerformanceObserver(list => tasks.push(...list.getEntries().map(e => e.duration))).observe({ type: 'longtask' });
	const frames = [], end = () => document.documentElement.scrollHeight - innerHeight, began = performance.now();
	let last = began;
	while (scrollY < end() - 1) {
		scrollBy(0, 400);
		await new Promise(requestAnimationFrame);
		const now = performance.now();
		frames.push(now - last);
		last = now;
	}
	await new Promise(r => setTimeout(r, 200));
	frames.sort((a, b) => a - b);
	return { frames: frames.length, whole: last - began, median: frames[frames.length >> 1], late: frames[Math.floor(frames.length * 0.95)], tasks: tasks.length, longest: Math.max(0, ...tasks) };
})()`

// A scroll through thirty years: go test ./charts -run x -bench Scroll -benchtime 3x
func BenchmarkScrollThirtyYears(b *testing.B) {
	s := visit(b, huge(), desk)
	s.do(chromedp.WaitReady(`[data-chart=timeline] svg`))
	ask[bool](s, `new Promise(r => requestIdleCallback(() => r(true)))`) // the long table is laid out by then
	type seen struct{ Frames, Whole, Median, Late, Tasks, Longest float64 }
	var sum seen
	n := 0.0
	for b.Loop() {
		ask[bool](s, `(scrollTo(0, 0), true)`)
		got := ask[seen](s, scrolled)
		sum = seen{sum.Frames + got.Frames, sum.Whole + got.Whole, sum.Median + got.Median, sum.Late + got.Late, sum.Tasks + got.Tasks, max(sum.Longest, got.Longest)}
		n++
	}
	b.ReportMetric(sum.Whole/n, "ms/scroll")
	b.ReportMetric(sum.Frames/n, "frames")
	b.ReportMetric(sum.Median/n, "ms/frame")
	b.ReportMetric(sum.Late/n, "ms/frame-p95")
	b.ReportMetric(sum.Tasks/n, "long-tasks")
	b.ReportMetric(sum.Longest, "ms/longest-task")
	b.ReportMetric(0, "ns/op")
}

// The cells of a long table cost nothing as long as they are out of sight, a link into them still arrives, and paper has them.
func TestLongTableWaitsToBeSeen(t *testing.T) {
	s := visit(t, huge(), desk)
	const row = `document.getElementById('tank-1551')`
	const laid = row + `.checkVisibility({ contentVisibilityAuto: true })`
	if ask[bool](s, laid) {
		t.Error("at the top of the page the table of all tanks is laid out")
	}
	ask[bool](s, `(document.querySelector('#watch a[href="#tank-1551"]').click(), true)`)
	s.until(laid + ` && (r => r.top > 0 && r.bottom < innerHeight)(` + row + `.getBoundingClientRect())`)
	ask[bool](s, `(scrollTo(0, 0), true)`)
	s.until(`!` + laid)
	s.do(emulation.SetEmulatedMedia().WithMedia("print"))
	s.until(laid)
	s.quiet()
}

package charts

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"brimlog/stats"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/log"
	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/cdproto/runtime"
	"github.com/chromedp/chromedp"
)

// browsers are the names under which a Chromium may be found.
var browsers = []string{"chromium", "chromium-browser", "google-chrome"}

var browser struct {
	sync.Once
	ctx    context.Context
	cancel context.CancelFunc

	missing bool
	err     error
}

func TestMain(m *testing.M) {
	code := m.Run()
	if browser.cancel != nil {
		browser.cancel()
	}
	os.Exit(code)
}

// A sheet is a page open in the browser, with what it did that it should not.
type sheet struct {
	testing.TB
	ctx context.Context

	mu       sync.Mutex
	mishaps  []string // errors on the console, exceptions
	requests []string // but that for the file itself
}

// A look is how a reader sees the page.
type look struct {
	width, height int64
	dark          bool
}

var desk = look{width: 1280, height: 900}

// patience is how long a page may take on a machine that is busy with much else.
const patience = 2 * time.Minute

// until waits for a condition in the page.
func (s *sheet) until(condition string) {
	s.Helper()
	if err := chromedp.Run(s.ctx, chromedp.Poll(condition, nil, chromedp.WithPollingInterval(50*time.Millisecond), chromedp.WithPollingTimeout(patience/2))); err != nil {
		s.Fatalf("never came true: %s: %v", condition, err)
	}
}

// visit opens the page of a review; the test is skipped where there is no browser.
func visit(t testing.TB, r *stats.Review, as look) *sheet {
	t.Helper()
	browser.Do(launch)
	switch {
	case browser.missing:
		t.Skip("no browser to look at the page with: none of ", strings.Join(browsers, ", "), " is in PATH")
	case browser.err != nil:
		t.Fatal("the browser does not start: ", browser.err)
	}
	ctx, cancel := chromedp.NewContext(browser.ctx)
	t.Cleanup(cancel)
	ctx, stop := context.WithTimeout(ctx, patience)
	t.Cleanup(stop)
	s := &sheet{TB: t, ctx: ctx}
	chromedp.ListenTarget(ctx, s.listen)
	s.do(network.Enable(), log.Enable(), runtime.Enable())
	s.see(as)
	s.do(chromedp.Navigate("file://"+write(t, r)), chromedp.WaitReady("#aloud"))
	if ask[int](s, `localStorage.length`) > 0 { // an earlier test's choice
		ask[bool](s, `(localStorage.clear(), true)`)
		s.do(chromedp.Reload(), chromedp.WaitReady("#aloud"))
	}
	return s
}

func launch() {
	for _, name := range browsers {
		path, err := exec.LookPath(name)
		if err != nil {
			continue
		}
		options := append(chromedp.DefaultExecAllocatorOptions[:], chromedp.ExecPath(path), chromedp.NoSandbox, chromedp.DisableGPU, chromedp.WSURLReadTimeout(patience))
		ctx, stop := chromedp.NewExecAllocator(context.Background(), options...)
		var leave context.CancelFunc
		browser.ctx, leave = chromedp.NewContext(ctx)
		browser.cancel = func() { leave(); stop() }
		browser.err = chromedp.Run(browser.ctx)
		return
	}
	browser.missing = true
}

func write(t testing.TB, r *stats.Review) string {
	t.Helper()
	var b bytes.Buffer
	if err := Write(&b, r); err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(t.TempDir(), "page.html")
	if err := os.WriteFile(path, b.Bytes(), 0o600); err != nil {
		t.Fatal(err)
	}
	return path
}

func (s *sheet) listen(event any) {
	s.mu.Lock()
	defer s.mu.Unlock()
	switch e := event.(type) {
	case *runtime.EventExceptionThrown:
		s.mishaps = append(s.mishaps, e.ExceptionDetails.Error())
	case *runtime.EventConsoleAPICalled:
		s.mishaps = append(s.mishaps, fmt.Sprint(e.Type, e.Args))
	case *log.EventEntryAdded:
		s.mishaps = append(s.mishaps, e.Entry.Text)
	case *network.EventRequestWillBeSent:
		if u := e.Request.URL; !strings.HasPrefix(u, "data:image/svg") && e.Type != network.ResourceTypeDocument {
			s.requests = append(s.requests, u)
		}
	}
}

// quiet fails the test if the page complained or asked for anything.
func (s *sheet) quiet() {
	s.Helper()
	s.mu.Lock()
	defer s.mu.Unlock()
	if len(s.mishaps) > 0 {
		s.Errorf("the page complains: %q", s.mishaps)
	}
	if len(s.requests) > 0 {
		s.Errorf("the page asks for %q", s.requests)
	}
}

func (s *sheet) do(actions ...chromedp.Action) {
	s.Helper()
	if err := chromedp.Run(s.ctx, actions...); err != nil {
		s.Fatal(err)
	}
}

// see sets the reader's window and light.
func (s *sheet) see(as look) {
	s.Helper()
	scheme := "light"
	if as.dark {
		scheme = "dark"
	}
	s.do(emulation.SetDeviceMetricsOverride(as.width, as.height, 1, false),
		emulation.SetEmulatedMedia().WithFeatures([]*emulation.MediaFeature{{Name: "prefers-color-scheme", Value: scheme}}))
}

// ask evaluates an expression in the page.
func ask[T any](s *sheet, expression string) (answer T) {
	s.Helper()
	var raw json.RawMessage
	s.do(chromedp.Evaluate(expression, &raw, func(p *runtime.EvaluateParams) *runtime.EvaluateParams { return p.WithAwaitPromise(true) }))
	if len(raw) > 0 {
		if err := json.Unmarshal(raw, &answer); err != nil {
			s.Fatalf("%s gives %s: %v", expression, raw, err)
		}
	}
	return answer
}

// unfold opens everything that can be opened and goes from chart to chart, so that all are drawn.
func (s *sheet) unfold() {
	s.Helper()
	ask[bool](s, `(async () => {
		for (const d of document.querySelectorAll('details')) d.open = true;
		for (const c of document.querySelectorAll('.chart')) {
			c.scrollIntoView({ block: 'center' });
			while (!c.querySelector('svg')) await new Promise(requestAnimationFrame);
		}
		scrollTo(0, 0);
		return true;
	})()`)
}

package charts

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"testing"

	"brimlog/stats"

	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"
)

// tall is the height of a picture.
const tall = 1500

// TestPictures writes pictures of the page for people to look at into the folder named by BRIMLOG_PICTURES. Without it there
// is nothing to do.
func TestPictures(t *testing.T) {
	dir := os.Getenv("BRIMLOG_PICTURES")
	if dir == "" {
		t.Skip("BRIMLOG_PICTURES names no folder for pictures")
	}
	for _, p := range []struct {
		name   string
		review *stats.Review
		as     look
		unfold bool
	}{
		{"light", heron(), look{width: 1280}, true},
		{"dark", heron(), look{width: 1280, dark: true}, false},
		{"phone", heron(), look{width: 360}, true},
		{"phone-dark", heron(), look{width: 360, dark: true}, false},
		{"wide", heron(), look{width: 2560}, false},
		{"empty", empty(), look{width: 1000}, false},
		{"empty-phone", empty(), look{width: 360}, false},
		{"tiny", tiny(), look{width: 1280}, false},
		{"tiny-phone", tiny(), look{width: 360}, false},
		{"huge", huge(), look{width: 1280}, false},
		{"hostile", hostile(), look{width: 1280}, true},
		{"hostile-phone", hostile(), look{width: 360}, true},
	} {
		t.Run(p.name, func(t *testing.T) {
			p.as.height = tall
			s := visit(t, p.review, p.as)
			if p.unfold {
				s.unfold()
			}
			ask[bool](s, `new Promise(r => setTimeout(() => r(true), 300))`)
			var picture, pdf []byte
			height := ask[int64](s, `document.documentElement.scrollHeight`)
			for top, n := int64(0), 0; top < height && n < 12; top, n = top+tall, n+1 {
				ask[bool](s, fmt.Sprintf(`(scrollTo(0, %d), new Promise(r => setTimeout(() => r(true), 250)))`, top))
				s.do(chromedp.CaptureScreenshot(&picture))
				keep(t, dir, fmt.Sprintf("%s-%02d.png", p.name, n), picture)
			}
			s.do(chromedp.ActionFunc(func(ctx context.Context) (err error) {
				pdf, _, err = page.PrintToPDF().WithPreferCSSPageSize(true).WithPrintBackground(false).Do(ctx)
				return err
			}))
			keep(t, dir, p.name+".pdf", pdf)
		})
	}
}

func keep(t *testing.T, dir, name string, data []byte) {
	t.Helper()
	if err := os.WriteFile(filepath.Join(dir, name), data, 0o600); err != nil {
		t.Fatal(err)
	}
}

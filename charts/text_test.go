package charts

import (
	"html/template"
	"regexp"
	"strings"
	"testing"

	"brimlog/stats"
)

// tags finds each script and style with what it holds.
var tags = regexp.MustCompile(`(?s)<(script|style)([^>]*)>(.*?)</(?:script|style)>`)

// bare is the page without its scripts and styles; quicker than tags, since it does not look into what they hold.
func bare(page string) string {
	var b strings.Builder
	for {
		start := len(page)
		end := start
		for _, tag := range []string{"script", "style"} {
			if i := strings.Index(page[:start], "<"+tag); i >= 0 {
				start, end = i, i+strings.Index(page[i:], "</"+tag+">")+len("</"+tag+">")
			}
		}
		b.WriteString(page[:start])
		if end == len(page) || start == end {
			return b.String()
		}
		page = page[end:]
	}
}

// textOf is what a reader sees of the page or of one of its sections.
func textOf(t *testing.T, r *stats.Review, section string) string {
	t.Helper()
	page := bare(pageOf(t, r))
	if section != "" {
		m := regexp.MustCompile(`(?s)<section id="` + section + `".*?</section>`).FindString(page)
		if m == "" {
			t.Fatalf("no section %q", section)
		}
		page = m
	}
	return strings.ReplaceAll(unescape(regexp.MustCompile(`<[^>]*>`).ReplaceAllString(page, "")), "\u00a0", " ")
}

// textIn is a piece of the page without its tags.
func textIn(piece template.HTML) string {
	return unescape(regexp.MustCompile(`<[^>]*>`).ReplaceAllString(string(piece), ""))
}

func unescape(s string) string {
	return strings.NewReplacer("&#39;", "'", "&#43;", "+", "&#34;", `"`, "&amp;", "&").Replace(s)
}

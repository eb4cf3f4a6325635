package charts

import (
	"bytes"
	"encoding/json"
	"regexp"
	"strings"
	"testing"
	"unicode/utf8"

	"brimlog/ingest/quantity"
	"brimlog/stats"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
)

func pageOf(t testing.TB, r *stats.Review) string {
	t.Helper()
	var b bytes.Buffer
	if err := Write(&b, r); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

func TestSameReviewSameBytes(t *testing.T) {
	for name, of := range map[string]func() *stats.Review{"heron": heron, "tiny": tiny, "empty": empty, "hostile": hostile} {
		if a, b := pageOf(t, of()), pageOf(t, of()); a != b {
			t.Errorf("%s: two pages of one review differ", name)
		}
	}
}

func TestWriteLeavesReviewAlone(t *testing.T) {
	r, before := heron(), heron()
	r.Jobs[0], r.Jobs[3] = r.Jobs[3], r.Jobs[0]
	before.Jobs[0], before.Jobs[3] = before.Jobs[3], before.Jobs[0]
	pageOf(t, r)
	if d := cmp.Diff(before, r, cmp.Comparer(func(a, b Figure) bool { return a == b || a != a && b != b }), cmpopts.IgnoreUnexported(*r)); d != "" {
		t.Errorf("the review was changed:\n%s", d)
	}
}

func TestPolicyAdmitsOwnScriptsOnly(t *testing.T) {
	page := pageOf(t, hostile())
	policy := regexp.MustCompile(`http-equiv="Content-Security-Policy" content="([^"]*)"`).FindStringSubmatch(page)
	if policy == nil {
		t.Fatal("the page has no content security policy")
	}
	allowed := map[string]bool{}
	for _, h := range regexp.MustCompile(`sha256-[A-Za-z0-9+/=]+`).FindAllString(unescape(policy[1]), -1) {
		allowed["'"+h+"'"] = true
	}
	found := tags.FindAllStringSubmatch(page, -1)
	if len(found) != 4 {
		t.Fatalf("the page has %d scripts and styles, want style, data, library and script", len(found))
	}
	for _, f := range found {
		if strings.Contains(f[2], "application/json") {
			continue
		}
		if !allowed[hash(f[3])] {
			t.Errorf("the policy lacks the hash of %s %.40q", f[1], f[3])
		}
	}
	for _, part := range strings.Split(unescape(policy[1]), "; ") {
		if strings.HasPrefix(part, "script-src") && strings.Contains(part, "unsafe") {
			t.Errorf("the policy lets foreign scripts run: %s", part)
		}
	}
	if !strings.HasPrefix(policy[1], "default-src &#39;none&#39;;") {
		t.Errorf("the policy does not begin with nothing allowed: %.60s", policy[1])
	}
}

func TestNothingComesFromOutside(t *testing.T) {
	page := bare(pageOf(t, heron()))
	for _, m := range regexp.MustCompile(`(?:src|href|action|srcset|poster)="([^"]*)"`).FindAllStringSubmatch(page, -1) {
		if !strings.HasPrefix(m[1], "#") && !strings.HasPrefix(m[1], "data:image/svg+xml,") {
			t.Errorf("the page refers to %q", m[1])
		}
	}
	if strings.Contains(style(), "url(") || strings.Contains(style(), "@import") {
		t.Error("the style sheet loads something")
	}
}

func TestHostileTextIsText(t *testing.T) {
	page := pageOf(t, hostile())
	if !utf8.ValidString(page) {
		t.Error("the page is not UTF-8")
	}
	rest := bare(page)
	for _, bad := range []string{"<script>alarm", "<img", "<svg onload", "<!-- ", "\x00", "\a"} {
		if strings.Contains(rest, bad) {
			t.Errorf("the page holds %q as markup", bad)
		}
	}
	for _, want := range []string{"&lt;script&gt;alarm(&#39;script&#39;)&lt;/script&gt;", "&#34;&gt;&lt;img src=x onerror=alarm(&#39;image&#39;)&gt;", "&amp;lt;b&amp;gt; &amp;amp; ]]&gt;"} {
		if !strings.Contains(rest, want) {
			t.Errorf("the page does not show %s", want)
		}
	}
	if n := strings.Count(page, "</script>"); n != 3 {
		t.Errorf("%d scripts end in the page, want 3", n)
	}
}

func payloadOf(t *testing.T, page string) payload {
	t.Helper()
	m := regexp.MustCompile(`(?s)<script type="application/json" id="data">(.*?)</script>`).FindStringSubmatch(page)
	if m == nil {
		t.Fatal("the page has no data")
	}
	var p payload
	if err := json.Unmarshal([]byte(m[1]), &p); err != nil {
		t.Fatal(err)
	}
	return p
}

func TestChartsCarryTheReview(t *testing.T) {
	r := heron()
	r.Tanks[9].LPer100Km, r.Tanks[9].Level.Mid = Figure(quantity.Unknown), Figure(quantity.Unknown)
	p := payloadOf(t, pageOf(t, r))
	for _, id := range []string{"timeline", "effects", "levels", "growth", "odds", "expected"} {
		if _, ok := p.Charts[id]; !ok {
			t.Errorf("no chart %q", id)
		}
	}
	if len(p.Tanks) != len(r.Tanks) || len(p.Jobs) != len(r.Jobs) {
		t.Fatalf("%d tanks and %d jobs travel, want %d and %d", len(p.Tanks), len(p.Jobs), len(r.Tanks), len(r.Jobs))
	}
	if got, want := float64(p.Tanks[20][2]), round(float64(r.Tanks[20].LPer100Km), 5); got != want {
		t.Errorf("tank 21 travels with %v L/100 km, want %v", got, want)
	}
	if x := float64(p.Tanks[9][2]); quantity.Known(x) {
		t.Errorf("an unknown economy travels as %v, want null", x)
	}
	for i, j := range p.Jobs {
		if len(j.Path) != len(r.Jobs[i].Path) {
			t.Errorf("job %d: %d of %d tanks of the path travel", i+1, len(j.Path), len(r.Jobs[i].Path))
		}
	}
}

// Every name of a function in an option has to be one that the script binds.
func TestOptionsNameWhatTheScriptHas(t *testing.T) {
	p := payloadOf(t, pageOf(t, heron()))
	colours := regexp.MustCompile(`--([a-z-]+):`).FindAllStringSubmatch(style(), -1)
	known := map[string]bool{}
	for _, c := range colours {
		known["$"+c[1]] = true
	}
	var walk func(id, key string, part any)
	walk = func(id, key string, part any) {
		switch part := part.(type) {
		case map[string]any:
			for k, v := range part {
				walk(id, k, v)
			}
		case []any:
			for _, v := range part {
				walk(id, key, v)
			}
		case string:
			if strings.HasPrefix(part, "$") && !known[part] {
				t.Errorf("%s: no colour %s in the style sheet", id, part)
			}
			if key == "renderItem" && !strings.Contains(script(), "\n  "+part+":") {
				t.Errorf("%s: no mark %q in the script", id, part)
			}
			if strings.Contains(part, "__f__") || strings.Contains(part, "function") {
				t.Errorf("%s: a function travels as text: %s", id, part)
			}
		}
	}
	for id, c := range p.Charts {
		walk(id, "", c.Option)
		series, ok := c.Option["series"].([]any)
		if !ok || len(series) == 0 {
			t.Errorf("%s: no series", id)
		}
	}
}

func TestThirtyYearsStaySmall(t *testing.T) {
	r := huge()
	for i := range r.Tanks {
		r.Tanks[i].Note = "Up to the coast and back with the trailer, headwind both ways"
	}
	if n := len(pageOf(t, r)); n > 1_600_000 {
		t.Errorf("the page of thirty years, a note at every tank, has %d bytes, want 1.6 million at most", n)
	}
}

func TestSectionsStayAwayWhenEmpty(t *testing.T) {
	page := pageOf(t, empty())
	for _, id := range []string{"answers", "timeline", "work", "money", "slips", "tanks", "expected", "watch"} {
		if strings.Contains(page, `<section id="`+id+`"`) {
			t.Errorf("an empty log has a section %q", id)
		}
	}
	if said := textOf(t, empty(), "reckoned"); strings.Contains(said, "Like for like") || !strings.Contains(said, "From one fill to the brim to the next") {
		t.Error("an empty log is told of what it does not have, or not what a tank is")
	}
	if !strings.Contains(page, "Two visits to the pump make the first one") {
		t.Error("an empty log is not told what to note")
	}
	if strings.Contains(page, "echarts") && len(page) > 200_000 {
		t.Error("an empty log carries the drawing library")
	}
	if page = pageOf(t, heron()); strings.Contains(page, `<section id="next"`) {
		t.Error("a full log is taught what to note")
	}
}

func TestUnknownFiguresAreNeverNought(t *testing.T) {
	r := tiny()
	unknown := Figure(quantity.Unknown)
	r.Tanks[1] = stats.Tank{Number: 2, FromDate: "2024-01-15", ToDate: "2024-01-22", DistanceKm: unknown, FuelL: unknown, LPer100Km: unknown, MpgUK: unknown,
		MpgUS: unknown, SdPct: unknown, AirC: unknown, TownShare: unknown, NotedShare: unknown, Cost: unknown,
		LikeForLike: stats.Range{Low: unknown, Mid: unknown, High: unknown}, Level: stats.Range{Low: unknown, Mid: unknown, High: unknown}}
	r.Watch.Tanks[1] = stats.WatchedTank{Number: 2, ToDate: "2024-01-22", LPer100Km: unknown, ExpectedLow: unknown, ExpectedHigh: unknown, Score: unknown}
	page := pageOf(t, r)
	want := `<tr><th scope="row">2<td>15 – 22 Jan 2024<td>–<td>–<td>–<td>–<td>–<td>–<td>–<td>–<td>–<td>–<td>0<td>–<td>–<td>`
	if !strings.Contains(page, want) {
		t.Errorf("the row of a tank of which nothing is known is not %s", want)
	}
	if strings.Contains(page, "NaN") && strings.Contains(bare(page), "NaN") {
		t.Error("the page shows NaN")
	}
}

func BenchmarkWriteThirtyYears(b *testing.B) {
	r := huge()
	for b.Loop() {
		var out bytes.Buffer
		if err := Write(&out, r); err != nil {
			b.Fatal(err)
		}
	}
}

package charts

import (
	"math"
	"regexp"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"

	"brimlog/ingest/quantity"
	"brimlog/stats"
	"brimlog/stats/expect"
)

// foretold is an expected range as a review might carry it: excess over healthy and what the tune explains of it, percent.
func foretold(healthy, excess, tune float64) *stats.Expected {
	around := func(mid, width float64) expect.Range {
		return expect.Range{Low: Figure(mid * (1 - width)), Mid: Figure(mid), High: Figure(mid * (1 + width))}
	}
	five := 5
	chance := 0.5 + 0.49*math.Tanh(excess/12)
	e := &stats.Expected{
		Since: stats.Since{Job: "cam-fit", FromTank: &five, FromDate: "2023-05-20", ToDate: "2024-01-13", Tanks: 6},
		Roads: stats.Roads{AirC: 8},
		Readings: []stats.Held{
			{Name: "cam_phase_deg", Text: "-18", Job: "compression", Date: "2023-02-01", Line: 4}},
		Answer: expect.Answer{
			Healthy: around(healthy, 0.1), AsTuned: around(healthy*(1+tune/100), 0.1), Measured: around(healthy*(1+excess/100), 0.02),
			ExcessPct: Figure(excess), TunePct: Figure(tune), ChanceAboveHealthy: Figure(chance), ChanceAboveTuned: Figure(chance),
			Missing: []expect.Missing{{Key: "body.mass_kg", What: "the mass as driven", NarrowerPct: 12}, {Key: "trips: cruise_kmh", What: "the cruising speed", NarrowerPct: 4},
				{Key: "year", What: "the year of the engine's design", NarrowerPct: 0.1}},
			Noted: true,
			Parts: []expect.Part{{Name: "cam", FuelPct: Figure(tune)}},
			Notes: []string{"the range is narrowed by 4 tanks for which you vouch"},
			Timed: &expect.TimedAnswer{Verdict: "engine", Reason: "it pulls in 8.4 s where 6.5 s is healthy, and it rolls freely",
				Caution: []string{"only on a level, straight, empty road where the speeds are legal"},
				Coast:   &expect.TimedRun{FromKmh: 80, ToKmh: 60, Healthy: around(21, 0.1), AsTuned: around(21, 0.1), Taken: 21.6, Chance: 0.4},
				Pull:    &expect.TimedRun{FromKmh: 50, ToKmh: 80, Healthy: around(6.5, 0.1), AsTuned: around(7, 0.1), Taken: 8.4, Chance: 0.97}},
		},
	}
	for i, road := range []string{"town", "mixed", "open", "motorway", "track"} {
		e.ByRoad = append(e.ByRoad, expect.RoadAnswer{Road: road, Share: Figure([]float64{0.3, 0.4, 0.2, 0.1, 0}[i]),
			Healthy: around(healthy*(1.2-0.1*float64(i)), 0.1), AsTuned: around(healthy*(1.2-0.1*float64(i))*(1+tune/100), 0.1)})
	}
	return e
}

// untold is what an owner gets who has measured and told nothing.
func untold() *stats.Expected {
	u := Figure(quantity.Unknown)
	e := foretold(10.4, 0, 0)
	e.Since, e.Readings, e.Timed, e.Parts, e.Notes = stats.Since{}, nil, nil, nil, nil
	e.Measured, e.ExcessPct, e.ChanceAboveHealthy = expect.Range{Low: u, Mid: u, High: u}, u, u
	return e
}

func TestExpectedTellsTheReview(t *testing.T) {
	page := bare(pageOf(t, heron()))
	for _, want := range []string{
		`<section id="expected"`, "41\u00a0% more than this engine should need", "the cam as measured explains 9 of that; something else is wrong as well",
		"vehicle.toml, [body] mass_kg", "trips.csv, cruise_kmh", "Is this normal for the engine?", "No: 41\u00a0% more fuel than it should",
		"Timed on the road: it pulls in 8.4 s where 6.5 s is healthy", "How to time it safely", "<strong>Caution:</strong> The cam is far out.", "cam_phase_deg = -18",
	} {
		if !strings.Contains(page, want) {
			t.Errorf("the page lacks %q", want)
		}
	}
	for _, not := range []string{"vehicle.toml, year", ">track<"} {
		if strings.Contains(page, not) {
			t.Errorf("the page tells %q, which hardly matters", not)
		}
	}
	p := payloadOf(t, pageOf(t, heron()))
	if rows := p.Charts["expected"].Option["series"].([]any); len(rows) != 2 {
		t.Errorf("the chart has %d series, want the strip and the levels", len(rows))
	}
}

func TestExpectedOfALogThatMeasuredNothing(t *testing.T) {
	r := empty()
	r.Expect = untold()
	page := pageOf(t, r)
	if !strings.Contains(page, "Healthy, this engine should return") || strings.Contains(page, "Is this normal") || strings.Contains(page, `data-chart="expected"`) {
		t.Error("with nothing measured the page asks whether it is normal, or draws one bar")
	}
	if _, drawn := payloadOf(t, page).Charts["expected"]; drawn {
		t.Error("one bar alone is drawn")
	}
	r.Expect = &stats.Expected{Refused: quantityError{}}
	if strings.Contains(pageOf(t, r), `<section id="expected"`) {
		t.Error("a vehicle that was refused has an expected range")
	}
}

type quantityError struct{}

func (quantityError) Error() string { return "want 250 to 7500 kg, got 100" }

// The answer at the top is graded by how sure it is.
func TestNormal(t *testing.T) {
	for _, c := range []struct {
		excess     float64
		mark, want string
	}{{41, "▼", "No: 41"}, {8, "▽", "Perhaps not: 8"}, {3, "■", "Yes, within its range"}, {-4, "■", "Yes"}, {-25, "◇", "Better than most: 25"}} {
		l := open(heron())
		l.Expect = foretold(11, c.excess, 0)
		a, ok := normal(l)
		if !ok || a.Mark.Mark != c.mark || !strings.HasPrefix(string(a.Figure), c.want) {
			t.Errorf("%g %%: %s %s, want %s %s", c.excess, a.Mark.Mark, a.Figure, c.mark, c.want)
		}
	}
}

// A range as wide as that of any vehicle says nothing of this one.
func TestNormalOfAVehicleHardlyTold(t *testing.T) {
	l := open(heron())
	l.Expect = foretold(11, 41, 0)
	l.Expect.Healthy.Low, l.Expect.Healthy.High = 7, 13
	if a, ok := normal(l); !ok || a.Mark.Mark != "◇" || string(a.Figure) != "Hardly known yet" || !strings.Contains(string(a.Sure), "displacement and mass") {
		t.Errorf("%s %s, %s", a.Mark.Mark, a.Figure, a.Sure)
	}
}

func TestExpectedFollowsTheUnit(t *testing.T) {
	s := visit(t, heron(), desk)
	s.unfold()
	const seen = `[document.querySelector('#expected-table').tBodies[0].rows[0].cells[1].textContent,
		...[...document.querySelectorAll('[data-chart=expected] svg text')].map(t => t.textContent)].join('|')`
	healthy := float64(heron().Expect.Healthy.Mid)
	for unit, want := range map[string]string{"l_100km": number(healthy, 1), "mpg_uk": number(282.480936/healthy, 1)} {
		s.do(chromedp.Click(`input[name=unit][value=`+unit+`]`, chromedp.NodeVisible))
		got := ask[string](s, seen)
		if n := len(regexp.MustCompile(`(^|\|)`+regexp.QuoteMeta(want)+`(\D|$)`).FindAllString(got, -1)); n < 2 {
			t.Errorf("%s: table and chart read %q, want %s in both", unit, got, want)
		}
	}
	s.do(chromedp.Focus(`[data-chart=expected]`), chromedp.KeyEvent(kb.End))
	if got := ask[string](s, `document.getElementById('aloud').textContent`); !strings.HasPrefix(got, "measured") || !strings.Contains(got, "80\u00a0% sure") {
		t.Errorf("the last mark says %q", got)
	}
	s.quiet()
}

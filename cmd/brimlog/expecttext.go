package main

import (
	"fmt"
	"math"
	"strings"

	"brimlog/ingest/quantity"
	"brimlog/stats"
	"brimlog/stats/expect"
)

// expected tells the answer of expect: the sentence, what to beware of, what it stands on, the figures.
func (s *sheet) expected(doc stats.ExpectDocument) {
	s.answer("%s: %s", doc.Book, doc.Sentence(s.economy))
	for _, c := range doc.Caution {
		s.point("CAUTION: %s", c)
	}
	s.grounds(doc)
	for _, n := range doc.Notes {
		s.point("%s", n)
	}
	s.gap()
	s.threeLevels(doc)
	s.byRoad(doc)
	s.narrower(doc)
	if doc.Timed != nil {
		s.timed(*doc.Timed)
	}
}

// grounds says which tanks, roads and readings the answer stands on.
func (s *sheet) grounds(doc stats.ExpectDocument) {
	if n := doc.Since; n.FromTank != nil {
		since := ""
		switch {
		case n.Shift:
			since = " since the last shift (see watch)"
		case n.Job != "":
			since = " since " + n.Job
		}
		s.point("measured over %s%s, %s to %s%s", counted(n.Tanks, "tank"), since, n.FromDate[:10], n.ToDate[:10], s.weather(doc.Roads))
	}
	if len(doc.Readings) > 0 {
		var from []string
		for _, h := range doc.Readings {
			from = append(from, fmt.Sprintf("%s=%s (%s)", h.Name, h.Text, h.Job))
		}
		s.point("tuned as read: %s", strings.Join(from, ", "))
	}
	if len(doc.Parts) > 1 {
		var each []string
		for _, p := range doc.Parts {
			each = append(each, fmt.Sprintf("the %s %s", p.Name, percent(p.FuelPct)))
		}
		s.point("each by itself: %s", strings.Join(each, ", "))
	}
}

// weather is what is known of the roads, in a few words.
func (s *sheet) weather(r stats.Roads) string {
	out := ""
	if t := float64(r.AirC); quantity.Known(t) {
		out += fmt.Sprintf(", %.0f °C", t)
	}
	if n := float64(r.ColdStartsPerKm); n > 0 {
		out += fmt.Sprintf(", a cold start every %s", quantity.Format(1/n, s.distance))
	}
	return out
}

func (s *sheet) threeLevels(doc stats.ExpectDocument) {
	row := func(name string, r expect.Range, over quantity.Figure) []string {
		return []string{name, s.of(r.Mid), s.reach(r), percent(over)}
	}
	s.table([]string{" ", s.economy.Label(), "80 % range", "fuel against healthy"}, [][]string{
		row("healthy", doc.Healthy, quantity.Figure(quantity.Unknown)), row("as tuned", doc.AsTuned, doc.TunePct), row("measured", doc.Measured, doc.ExcessPct),
	})
	if quantity.Known(float64(doc.ChanceAboveHealthy)) {
		s.gap()
		s.say("Chance that it takes more than it should: %s; more than its tune explains: %s.", share(doc.ChanceAboveHealthy), share(doc.ChanceAboveTuned))
	}
}

// reach is a range in the owner's unit.
func (s *sheet) reach(r expect.Range) string {
	if !quantity.Known(float64(r.Mid)) {
		return "–"
	}
	return s.span(stats.Range(r))
}

func (s *sheet) byRoad(doc stats.ExpectDocument) {
	var rows [][]string
	for _, r := range doc.ByRoad {
		if r.Share >= 0.005 {
			rows = append(rows, []string{r.Road, share(r.Share), s.of(r.Healthy.Mid), s.reach(r.Healthy), s.of(r.AsTuned.Mid), s.reach(r.AsTuned)})
		}
	}
	s.gap()
	s.say("By kind of road, in %s:", s.economy.Label())
	s.table([]string{"road ", "share", "healthy", "80 % range", "as tuned", "80 % range"}, rows)
}

// narrower says what the owner could tell, and where, to narrow the range.
func (s *sheet) narrower(doc stats.ExpectDocument) {
	const worth = 0.5 // percent
	var rows [][]string
	for _, m := range doc.Missing {
		if m.NarrowerPct >= worth {
			rows = append(rows, []string{whereToTell(m.Key), m.What, fmt.Sprintf("%.0f %%", m.NarrowerPct)})
		}
	}
	s.gap()
	if len(rows) == 0 {
		s.say("Nothing that could still be told would narrow the range by much; tanks that you vouch for as healthy would (healthy_from and healthy_to under [log] in vehicle.toml).")
		return
	}
	s.say("What would narrow the range most, and where to write it:")
	s.table([]string{"where ", "what ", "narrower by"}, rows)
}

// whereToTell names the place of a key: "vehicle.toml, [body] mass_kg".
func whereToTell(key string) string {
	if column, ok := strings.CutPrefix(key, "trips: "); ok {
		return "trips.csv, " + column
	}
	if table, name, ok := strings.Cut(key, "."); ok {
		return fmt.Sprintf("vehicle.toml, [%s] %s", table, name)
	}
	return "vehicle.toml, " + key
}

// timed tells of the runs on the road: what they should take, what they took, and how to do them safely.
func (s *sheet) timed(a expect.TimedAnswer) {
	s.gap()
	if a.Verdict == "" {
		s.say("Two timed runs tell chassis from engine. Nobody has timed any since the last job on what they feel; by calculation they should take:")
	} else {
		s.say("Timed on the road: %s. It %s.", foundIn[a.Verdict], strings.TrimPrefix(a.Reason, "it "))
	}
	var rows [][]string
	for _, r := range []struct {
		name string
		run  *expect.TimedRun
	}{{"coasting out of gear", a.Coast}, {"pulling in top gear", a.Pull}} {
		if r.run != nil {
			rows = append(rows, []string{r.name, s.speeds(*r.run), seconds(r.run.Healthy), seconds(r.run.AsTuned), number(r.run.Taken, 1), share(r.run.Chance)})
		}
	}
	s.table([]string{"run ", "between ", "healthy, s", "as tuned, s", "taken, s", "chance of a fault"}, rows)
	s.say("How to do it safely:")
	for _, c := range a.Caution {
		s.point("%s", c)
	}
	s.point("then write it into work.csv as a measure, area driveline: coast_s=21.6@80-60;pull_s=6.5@50-80, the mean of both directions, in km/h (or @50-40mph)")
}

var foundIn = map[string]string{
	"chassis": "the fault is in the chassis", "engine": "the fault is in the engine", "both": "chassis and engine are both amiss",
	"neither": "neither chassis nor engine is amiss", "undecided": "they do not tell chassis from engine yet",
}

// speeds are the ends of a run in the owner's unit.
func (s *sheet) speeds(r expect.TimedRun) string {
	u := quantity.KmPerHour
	if s.distance == quantity.Mile {
		u = quantity.MilePerHour
	}
	return fmt.Sprintf("%.0f to %.0f %s", math.Round(u.FromBase(r.FromKmh)), math.Round(u.FromBase(r.ToKmh)), u.Label())
}

func seconds(r expect.Range) string {
	if !quantity.Known(float64(r.Mid)) {
		return "–"
	}
	return fmt.Sprintf("%.1f to %.1f", float64(r.Low), float64(r.High))
}

package main

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"github.com/spf13/cobra"

	"brimlog/ingest/quantity"
	"brimlog/stats"
)

func (a *app) prove() *cobra.Command {
	return takesSeveral(&cobra.Command{
		Use:   "prove [ID]",
		Short: "Say what a job changed: how much, how sure, how many more tanks until sure",
		Long: "Say what a job changed, like for like: season, kind of road, fuel, load, other jobs and changes that nobody named are\n" +
			"allowed for. Without an ID all jobs are told in a table; with one, its evidence tank by tank, and what the same job\n" +
			"pretended at other dates would have shown.",
		Args: cobra.MaximumNArgs(1),
		RunE: func(_ *cobra.Command, args []string) error {
			return a.each(func(a *app) error { return a.tellProof(strings.Join(args, "")) })
		},
	})
}

// tellProof answers for one job, or for all without an id.
func (a *app) tellProof(id string) error {
	r, err := a.review(stats.Options{Prove: true, Placebo: id})
	if err != nil {
		return err
	}
	doc := r.ProveDocument(id)
	if id != "" && len(doc.Jobs) == 0 {
		return noSuchJob(r, id)
	}
	switch s := a.sheet(r.Show); {
	case a.json:
		return a.document(doc)
	case id != "":
		s.job(doc.Jobs[0])
	default:
		s.jobs(r)
	}
	return nil
}

func noSuchJob(r *stats.Review, id string) error {
	var ids []string
	for _, j := range r.Jobs {
		ids = append(ids, j.ID)
	}
	if len(ids) == 0 {
		return fmt.Errorf("work.csv: no job %q: it has no job that changed the vehicle; a measure changes nothing", id)
	}
	return fmt.Errorf("work.csv: no job %q that changed the vehicle: there are %s", id, strings.Join(ids, ", "))
}

// jobs tells all jobs: how many are proved, then a line each.
func (s *sheet) jobs(r *stats.Review) {
	count := map[string]int{}
	for _, j := range r.Jobs {
		count[verdictOf(j)]++
	}
	switch {
	case len(r.Jobs) == 0:
		s.answer("%s: no job yet. Write one into work.csv and its effect is weighed from the tanks around it.", r.Book)
	default:
		s.answer("%s: %s.", r.Book, tally(len(r.Jobs), count))
	}
	for _, n := range r.Notes {
		s.point("%s", n)
	}
	if len(r.Jobs) == 0 {
		return
	}
	s.gap()
	var rows [][]string
	for _, j := range r.Jobs {
		rows = append(rows, []string{j.Date[:10], j.ID, inWords[verdictOf(j)], percent(j.ChangePct), interval(j.LowPct, j.HighPct), odds(j.OddsChanged),
			strconv.Itoa(j.TanksBefore) + "+" + strconv.Itoa(j.TanksAfter), toGo(j)})
	}
	s.table([]string{"date ", "job ", "verdict ", "fuel", "90 % sure", "odds", "tanks", "to go"}, rows)
	s.gap()
	s.say("fuel is the change in fuel per distance, like for like, against just before the job; odds are for a change against none, and 20 count as proof. Ask brimlog prove ID for the reasons.")
}

// tally says how many jobs are settled and how.
func tally(jobs int, count map[string]int) string {
	var parts []string
	for _, v := range []struct{ verdict, words string }{{"less_fuel", "proved to use less fuel"}, {"more_fuel", "proved to use more"}, {"no_change", "sure to have changed less than 3 %"}} {
		if n := count[v.verdict]; n > 0 {
			parts = append(parts, fmt.Sprintf("%d %s", n, v.words))
			jobs -= n
		}
	}
	if jobs > 0 {
		parts = append(parts, fmt.Sprintf("%d still open", jobs))
	}
	return "of the jobs, " + strings.Join(parts, ", ")
}

// job tells one job: the sentence, the reasons, the path.
func (s *sheet) job(j stats.Job) {
	s.answer("%s", s.sentence(j))
	if j.Verdict != nil {
		s.point("like for like: %s, %s for 90 %% sure; total fuel over total distance alone would say %s", percent(j.ChangePct), interval(j.LowPct, j.HighPct), percent(j.RawChangePct))
		s.point("on your usual roads it used %s before (80 %% range %s) and %s since (%s)", s.withUnit(j.Before.Mid), s.span(j.Before), s.withUnit(j.After.Mid), s.span(j.After))
		s.point("odds %s that it changed at all; chance of less fuel, if it did, %s; %s before and %d since, its own among them", odds(j.OddsChanged), share(j.ChanceLessFuel), counted(j.TanksBefore, "whole tank"), j.TanksAfter)
	}
	s.waiting(j)
	if j.PlaceboTried != nil && *j.PlaceboTried > 0 {
		s.point("the same job pretended at %s would have fooled this log %s", counted(*j.PlaceboTried, "other date"), times(*j.PlaceboFooled))
	}
	if d := j.Driveability; d.Verdict != nil {
		s.point("how it drives: %s", drove(d))
	}
	s.money(j)
	for _, n := range j.Notes {
		s.point("%s", n)
	}
	if len(j.Path) == 0 {
		return
	}
	s.gap()
	var rows [][]string
	for _, p := range j.Path {
		rows = append(rows, []string{strconv.Itoa(p.Tank), p.ToDate[:10], percent(p.ChangePct), interval(p.LowPct, p.HighPct), odds(p.OddsChanged), inWords[p.Verdict]})
	}
	s.say("After each tank, from nothing later:")
	s.table([]string{"tank", "until ", "fuel", "90 % sure", "odds", "verdict "}, rows)
}

// sentence is the answer on one job.
func (s *sheet) sentence(j stats.Job) string {
	name := fmt.Sprintf("%s (%s, %s)", orID(j), j.ID, j.Date[:10])
	size := strings.TrimPrefix(strings.TrimPrefix(percent(j.ChangePct), "+"), "-")
	small := ""
	if quantity.Known(float64(j.ChangePct)) && math.Abs(float64(j.ChangePct)) < 3 {
		small = "small, "
	}
	switch verdictOf(j) {
	case "less_fuel":
		return fmt.Sprintf("%s: proved, it uses %s less fuel than just before (%sodds %s).", name, size, small, odds(j.OddsChanged))
	case "more_fuel":
		return fmt.Sprintf("%s: proved, it uses %s more fuel than just before (%sodds %s).", name, size, small, odds(j.OddsChanged))
	case "no_change":
		return fmt.Sprintf("%s: 90 %% sure that it changed fuel by less than 3 %% either way.", name)
	case "leaning_less":
		return fmt.Sprintf("%s: leaning towards less fuel, by about %s, but not proved (odds %s).", name, size, odds(j.OddsChanged))
	case "leaning_more":
		return fmt.Sprintf("%s: leaning towards more fuel, by about %s, but not proved (odds %s).", name, size, odds(j.OddsChanged))
	case "undecided":
		return fmt.Sprintf("%s: undecided; the tanks so far fit a change and none (odds %s).", name, odds(j.OddsChanged))
	}
	return fmt.Sprintf("%s: no verdict.", name)
}

// waiting says how long a verdict is likely to take, or why none is in sight.
func (s *sheet) waiting(j stats.Job) {
	if len(j.ChanceWithin) == 0 {
		return
	}
	var chances []string
	for _, c := range j.ChanceWithin {
		chances = append(chances, fmt.Sprintf("%s within %d", share(c.Chance), c.Tanks))
	}
	when := "a verdict is not in sight within two years of such driving"
	if j.TanksToGo != nil {
		when = fmt.Sprintf("about %s to go until a verdict, if they are like the recent ones", counted(*j.TanksToGo, "tank"))
	}
	s.point("%s (chance %s)", when, strings.Join(chances, ", "))
}

func (s *sheet) money(j stats.Job) {
	if v := verdictOf(j); !quantity.Known(float64(j.SavingPer1000Km)) || v == "undecided" || v == "no_change" {
		return
	}
	per := 1000 / s.distance.FromBase(1000)
	saved := float64(j.SavingPer1000Km) * per
	word := "saves"
	if saved < 0 {
		word, saved = "costs", -saved
	}
	text := fmt.Sprintf("if the figure holds it %s %.2f %s per 1000 %s", word, saved, s.currency, s.distance.Label())
	if quantity.Known(float64(j.PaysBackKm)) {
		text += fmt.Sprintf(" and pays back its %.0f %s after %s", float64(j.Cost), s.currency, quantity.Format(float64(j.PaysBackKm), s.distance))
	}
	s.point("%s", text)
}

func (s *sheet) withUnit(f stats.Figure) string { return quantity.Format(float64(f), s.economy) }

func orID(j stats.Job) string {
	if j.What == "" {
		return "job"
	}
	return j.What
}

func verdictOf(j stats.Job) string {
	if j.Verdict == nil {
		return ""
	}
	return *j.Verdict
}

var inWords = map[string]string{
	"less_fuel": "less fuel", "more_fuel": "more fuel", "no_change": "no change", "leaning_less": "leaning to less",
	"leaning_more": "leaning to more", "undecided": "undecided", "": "none yet",
}

var driven = map[string]string{"better": "better", "worse": "worse", "undecided": "no clear difference"}

// drove says how it drives since, by symptom.
func drove(d stats.Driveability) string {
	const most = 4
	text, changed := driven[*d.Verdict], d.Changed()
	if *d.Verdict != "undecided" && len(changed) == 0 {
		return text + ", but no single symptom by a whole grade"
	}
	for _, c := range changed[:min(most, len(changed))] {
		text += "; " + c.String()
	}
	return text
}

func interval(low, high stats.Figure) string {
	if !quantity.Known(float64(low)) {
		return "–"
	}
	return percent(low) + " to " + percent(high)
}

// odds writes a Bayes factor as people say it.
func odds(f stats.Figure) string {
	x := float64(f)
	switch {
	case !quantity.Known(x):
		return "–"
	case x >= 1000:
		return "over 1000:1"
	case x >= 9.5:
		return fmt.Sprintf("%.0f:1", x)
	case x >= 1:
		return fmt.Sprintf("%.1f:1", x)
	case x >= 0.105:
		return fmt.Sprintf("1:%.1f", 1/x)
	}
	return fmt.Sprintf("1:%.0f", 1/max(x, 1e-6))
}

func toGo(j stats.Job) string {
	switch {
	case j.TanksToGo != nil:
		return "about " + strconv.Itoa(*j.TanksToGo)
	case len(j.ChanceWithin) > 0:
		return "years"
	}
	return "–"
}

func counted(n int, one string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %ss", n, one)
}

func times(n int) string {
	switch n {
	case 0:
		return "not once"
	case 1:
		return "once"
	}
	return fmt.Sprintf("%d times", n)
}

package charts

import (
	"fmt"
	"html/template"
	"strings"

	"brimlog/ingest/quantity"
	"brimlog/stats/expect"
)

// A workshop is the section of the jobs: one chart of them all, and a card for each.
type workshop struct {
	Direction string
	Chart     bool          // of all effects
	Words     template.HTML // what that chart shows
	Effects   []effect
	Cards     []jobCard
	Pretended bool // some card tells of pretended jobs
	Drives    bool // some card tells how it drives
}

// A jobCard is a job as the page shows it.
type jobCard struct {
	Number   int
	Title    template.HTML
	Facts    template.HTML // date, kind, area, where it stands in the log
	Mark     ruling
	Rule     *rule
	Headline string
	Finding  template.HTML
	Fields   []field
	Notes    []template.HTML
	Proved   bool // that it changed something
	Evidence bool // there are charts to open
	Open     bool
	Index    int // in the payload
	Growth   template.HTML
	Levels   template.HTML // what the chart of them shows
}

// work tells of each job, the newest first.
func work(l *logbook) *section {
	if len(l.jobs) == 0 {
		return nil
	}
	w := workshop{Direction: l.unit.direction(), Effects: effects(l)}
	if shown := effectRows(l); len(shown) > 1 {
		l.data.Charts["effects"], w.Chart, w.Words = effectsChart(shown), true, l.tally()
	}
	for _, j := range l.jobs {
		l.data.Jobs = append(l.data.Jobs, evidenceOf(l, j))
	}
	evidenceCharts(l)
	for i := len(l.jobs) - 1; i >= 0; i-- {
		w.Cards = append(w.Cards, l.jobCard(i))
		w.Pretended, w.Drives = w.Pretended || l.jobs[i].PlaceboTried != nil, w.Drives || l.jobs[i].Driveability.Verdict != nil
	}
	openCards(w.Cards)
	return &section{ID: "work", Title: "What each job did", Form: "work.html", Data: w}
}

// openCards opens the evidence of the newest job, and of the newest that is proved to have changed something.
func openCards(cards []jobCard) {
	newest, proved := false, false
	for i := range cards {
		c := &cards[i]
		if !c.Evidence || newest && (proved || !c.Proved) {
			continue
		}
		c.Open, newest, proved = true, true, proved || c.Proved
	}
}

func (l *logbook) jobCard(i int) jobCard {
	j := l.jobs[i]
	c := jobCard{
		Number: j.Number, Index: i, Title: name(j.title()), Facts: j.facts(), Mark: j.ruling(), Rule: jobRule(j), Headline: sentence(j.headline()),
		Finding: say(j.finding(), spaced(j.togo(j.chances()))), Fields: l.jobFields(j),
		Evidence: len(l.data.Jobs[i].Path) > 0 || len(l.data.Jobs[i].Levels) > 0,
	}
	c.Proved = j.proved()
	if len(j.Path) > 0 {
		c.Growth = grown(j)
	}
	if len(l.data.Jobs[i].Levels) == 2 {
		c.Levels = say("Before it ", l.economy(float64(j.Before.Mid)), " (", l.eighty(j.Before), "), since it ", l.economy(float64(j.After.Mid)), " (", l.eighty(j.After), ").")
	}
	for _, n := range j.Notes {
		c.Notes = append(c.Notes, tight(sentence(n)))
	}
	return c
}

// title is what the owner calls the job.
func (j job) title() string { return or(j.ID, or(j.What, fmt.Sprintf("job %d", j.Number))) }

func (j job) facts() template.HTML {
	parts := []template.HTML{say(spoken(j.Date))}
	for _, s := range []string{j.Kind, strings.ReplaceAll(j.Area, "/", ", ")} {
		if s != "" {
			parts = append(parts, name(s))
		}
	}
	if j.Line > 0 {
		parts = append(parts, say(place("work.csv", j.Line)))
	}
	facts := template.HTML("")
	for i, p := range parts {
		if i > 0 {
			facts += " · "
		}
		facts += p
	}
	if j.What != "" && j.What != j.title() {
		facts = say(name(j.What), template.HTML("<br>"), facts)
	}
	return facts
}

// jobFields are the boxes of a job's card; those that nothing is known for stay away.
func (l *logbook) jobFields(j job) (all []field) {
	add := func(known bool, label string, value, under template.HTML) {
		if known {
			all = append(all, field{Label: label, Value: value, Under: under})
		}
	}
	known := func(f Figure) bool { return quantity.Known(float64(f)) }
	b, a := j.Before, j.After
	add(known(b.Mid), "Before", l.economy(float64(b.Mid)), l.bareReach(expect.Range(b)))
	add(known(a.Mid), "After", l.economy(float64(a.Mid)), l.bareReach(expect.Range(a)))
	if j.Verdict != nil {
		add(known(j.LowPct), "Change, 90"+fastened+"% sure", say(changes(float64(j.LowPct), float64(j.HighPct))),
			"")
		add(known(j.OddsChanged), "Odds", say(odds(float64(j.OddsChanged))), "")
	}
	add(j.TanksBefore+j.TanksAfter > 0, "Tanks", say(number(float64(j.TanksBefore), 0), " before, ", number(float64(j.TanksAfter), 0), " since"), "")
	add(known(j.RawChangePct), "Plain averages", say(changed(float64(j.RawChangePct))), "")
	add(known(j.AgainstHealthyPct), "Against its healthy level", say(changed(float64(j.AgainstHealthyPct))), say("than before the fault that came before this job"))
	all = append(all, drives(j)...)
	add(j.PlaceboTried != nil && j.PlaceboFooled != nil, "Would a pretended job fool it?", pretended(j), "")
	add(known(j.Cost) && j.Cost > 0, "Paid", say(l.cash(float64(j.Cost))), "")
	saves := map[string]string{"less_fuel": "Saves", "leaning_less": "Would save, if it is so"}[rulings[rulingOf(j)].verdict]
	add(saves != "" && j.SavingPer1000Km > 0, saves, l.perDistance(float64(j.SavingPer1000Km)), payback(l, j))
	add(len(j.TogetherWith) > 0, "Together with", together(j), say("done within the same tank: no log can tell them apart"))
	return all
}

func drives(j job) []field {
	d := j.Driveability
	if d.Verdict == nil {
		return nil
	}
	words := map[string]string{"better": "better", "worse": "worse", "undecided": "no clear difference"}
	var how []string
	for _, s := range d.Changed() {
		how = append(how, s.String())
	}
	if len(how) == 0 && *d.Verdict != "undecided" {
		how = []string{"but no single symptom by a whole grade"}
	}
	return []field{{"How it drives since", say(or(words[*d.Verdict], *d.Verdict)), say(sentence(strings.Join(how, "; "))), len(how) > 1}}
}

func pretended(j job) template.HTML {
	if j.PlaceboTried == nil || j.PlaceboFooled == nil {
		return ""
	}
	return say(number(float64(*j.PlaceboFooled), 0), " of ", number(float64(*j.PlaceboTried), 0), " times")
}

func payback(l *logbook, j job) template.HTML {
	if !(j.PaysBackKm > 0) {
		return ""
	}
	return say("pays for itself after ", l.distance(float64(j.PaysBackKm)), "; ", l.distance(l.since(j.day)), " driven so far")
}

// company names the jobs that no log can tell from this one.
func (j job) company() template.HTML {
	if len(j.TogetherWith) == 0 {
		return ""
	}
	return say("No log can tell it from what was done in the same tank: ", together(j), ".")
}

func together(j job) template.HTML {
	var all template.HTML
	for i, id := range j.TogetherWith {
		if i > 0 {
			all += ", "
		}
		all += name(id)
	}
	return all
}

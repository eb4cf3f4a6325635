package charts

import (
	"html/template"

	"brimlog/ingest/quantity"
)

// An answer is one of the questions at the top of the page: a figure, a sentence, and how sure.
type answer struct {
	Question string
	Mark     ruling
	Figure   template.HTML
	Rule     *rule // nil where there is nothing to lay on it
	Sentence template.HTML
	Sure     template.HTML
}

// A glance is the three questions, and beside them what is merely counted.
type glance struct{ Questions, Figures []answer }

// answers are what an owner opens the page for.
func answers(l *logbook) *section {
	g := glance{answered(l, normal, lastJob, slipped), answered(l, usesNow, costsNow)}
	if len(g.Questions)+len(g.Figures) == 0 {
		return nil
	}
	return &section{ID: "answers", Title: "At a glance", Form: "answers.html", Data: g}
}

func answered(l *logbook, questions ...func(*logbook) (answer, bool)) (all []answer) {
	for _, of := range questions {
		if a, ok := of(l); ok {
			all = append(all, a)
		}
	}
	return all
}

// lastJob answers for the newest job that changed anything.
func lastJob(l *logbook) (answer, bool) {
	for i := len(l.jobs) - 1; i >= 0; i-- {
		j := l.jobs[i]
		if rulingOf(j) == measured {
			continue
		}
		return answer{
			Question: "Did the last job work?",
			Mark:     j.ruling(),
			Figure:   say(sentence(j.headline())),
			Rule:     jobRule(j),
			Sentence: say(link(j), ", "+spoken(j.Date)+". ", j.finding(), spaced(j.company()), spaced(l.lastProved(i))),
			Sure:     say(j.sure(), spaced(j.togo(""))),
		}, true
	}
	return answer{}, false
}

// lastProved names the newest job that is proved to have changed something, where that is not the newest of all.
func (l *logbook) lastProved(newest int) template.HTML {
	for i := newest; i >= 0; i-- {
		j := l.jobs[i]
		if !j.proved() {
			continue
		}
		if i == newest {
			return ""
		}
		return say("The last that is proved to have changed anything is ", link(j), ", "+spoken(j.Date)+": ", changed(float64(j.ChangePct)), ".")
	}
	return ""
}

// sure says in odds and in a range how much the log knows of a job.
func (j job) sure() string {
	if j.Verdict == nil {
		return ""
	}
	s := ""
	if quantity.Known(float64(j.OddsChanged)) {
		s = "Odds: " + odds(float64(j.OddsChanged)) + ". "
	}
	if quantity.Known(float64(j.LowPct)) && quantity.Known(float64(j.HighPct)) {
		s += "90" + fastened + "% sure: " + changes(float64(j.LowPct), float64(j.HighPct)) + "."
	}
	return s
}

// usesNow answers with the level after the newest tank, or with a plain average where there is no level.
func usesNow(l *logbook) (answer, bool) {
	const question = "What does it use now?"
	n := len(l.tanks)
	if n == 0 {
		return answer{}, false
	}
	last := l.tanks[n-1]
	if level := last.Level; quantity.Known(float64(level.Mid)) {
		return answer{
			Question: question,
			Figure:   l.economy(float64(level.Mid)),
			Sentence: say("On its usual roads and in an average season. The last tank, as it came from the pump, was ", l.economy(float64(last.LPer100Km)), "."),
			Sure:     say("80"+fastened+"% sure: ", l.economies(float64(level.Low), float64(level.High)), "."),
		}, true
	}
	first := max(0, n-5)
	var km, litres []float64
	for _, t := range l.tanks[first:] {
		km, litres = append(km, float64(t.DistanceKm)), append(litres, float64(t.FuelL))
	}
	mean := float64(quantity.Average(km, litres))
	if !quantity.Known(mean) {
		return answer{}, false
	}
	return answer{
		Question: question,
		Figure:   l.economy(mean),
		Sentence: say("All fuel over all distance of the last ", newestTanks(n-first), ", with nothing allowed for."),
		Sure:     say("Too little is noted yet to say how sure."),
	}, true
}

// costsNow answers with the fuel money of the last twelve months.
func costsNow(l *logbook) (answer, bool) {
	n := len(l.tanks)
	if n == 0 {
		return answer{}, false
	}
	s := spentOn(l.tanks, l.tanks[n-1].to-365)
	if s.Tanks == 0 {
		return answer{}, false
	}
	return answer{
		Question: "What does the fuel cost?",
		Figure:   l.perDistance(s.per1000Km()),
		Sentence: say("Over the last twelve months: ", l.cash(s.Money), " for ", l.distance(s.Km), "."),
		Sure:     say("Counted, not estimated: ", count(s.Tanks, "tank", "tanks"), " with a price", s.left(), ".", spaced(l.unnamed())),
	}, true
}

// link leads to a job by its name.
func link(j job) template.HTML {
	return template.HTML(`<a href="#job-`+number(float64(j.Number), 0)+`">`) + name(j.title()) + `</a>`
}

// spaced sets a text apart from the one before it.
func spaced(s template.HTML) template.HTML {
	if s == "" {
		return ""
	}
	return " " + s
}

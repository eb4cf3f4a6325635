package charts

import (
	"html/template"
	"strings"

	"brimlog/stats"
	"brimlog/stats/suspect"
)

// An inquest is the section of the causes that fit, and of what to look at next.
type inquest struct {
	Stops    []suspect.Stop
	Sentence template.HTML
	Grounds  []template.HTML
	Causes   []inquestCause
	Rest     []string
	States   []inquestState
	Mended   bool // nothing further should be tried before what stops it is mended
	Drives   []inquestDrive
}

type (
	inquestCause struct {
		Name, Chance, Fuel string
		Bar                float64
		For, Against       []template.HTML // they quote the owner
	}
	inquestState struct {
		Title  string
		Checks []inquestCheck
	}
	inquestCheck struct {
		suspect.NextCheck
		Needs string
		Apart string
	}
	inquestDrive struct {
		Job, Symptom, Before, Since template.HTML
		Drives                      string
	}
)

// suspects shows which causes fit, where that was asked.
func suspects(l *logbook) *section {
	s := l.Suspects
	if s == nil || len(s.Suspects) < 2 || len(l.tanks) == 0 {
		return nil
	}
	q := inquest{Stops: s.Stop, Sentence: tight(sentence(s.Sentence())), Mended: len(s.Stop) > 0 && len(s.NextChecks) == 0, Drives: l.inquestDrives()}
	for _, g := range s.Grounds() {
		q.Grounds = append(q.Grounds, tight(sentence(g)))
	}
	for _, c := range s.Likeliest() {
		fuel := dash
		if costs := stats.Costs(c); costs != "" {
			fuel = costs
		}
		q.Causes = append(q.Causes, inquestCause{sentence(c.Name), percent(100*c.Chance, 0), held(fuel), round(100*c.Chance, 1), worded(c.Because), worded(c.Against)})
	}
	for _, p := range s.Pairs() {
		q.Rest = append(q.Rest, held(sentence(p))+".")
	}
	if rest := s.Rest(); rest != "" {
		q.Rest = append(q.Rest, "The rest: "+held(rest)+".")
	}
	for _, g := range s.Next() {
		q.States = append(q.States, inquestStateOf(g))
	}
	return &section{ID: "suspects", Title: "What may be behind it", Form: "suspects.html", Data: q}
}

// held keeps a figure and its percent sign on one line.
func held(s string) string { return strings.ReplaceAll(s, " %", fastened+"%") }

// tight is a text of the program's own that may quote the owner.
func tight(s string) template.HTML { return name(held(datesSpoken(s))) }

func worded(reasons []string) (all []template.HTML) {
	for _, r := range reasons {
		all = append(all, tight(sentence(r)))
	}
	return all
}

var inquestTitles = map[string]string{"cold": "With the engine cold and stopped", "warm": "Warmed through and stopped",
	"running": "With the engine running, outdoors", "road": "On the road"}

func inquestStateOf(g suspect.Group) inquestState {
	state := inquestState{Title: inquestTitles[g.State]}
	for _, c := range g.Checks {
		one := inquestCheck{NextCheck: c, Needs: count(int(c.Minutes), "minute", "minutes")}
		if len(c.Tools) > 0 {
			one.Needs += ", with " + strings.Join(c.Tools, " and ")
		}
		one.Title = sentence(c.Title)
		var names []string
		for _, id := range c.TellsApart {
			names = append(names, suspect.Standard().Name(id))
		}
		one.Apart = strings.Join(names, "; ")
		state.Checks = append(state.Checks, one)
	}
	return state
}

// inquestDrives are the symptoms that a job has clearly changed, the newest job first.
func (l *logbook) inquestDrives() (all []inquestDrive) {
	for i := len(l.jobs) - 1; i >= 0; i-- {
		j := l.jobs[i]
		for _, s := range j.Driveability.Changed() {
			all = append(all, inquestDrive{link(j), say(sentence(s.Name)), say(s.GradeBefore), say(s.GradeAfter),
				number(float64(s.DrivesBefore), 0) + " and " + number(float64(s.DrivesAfter), 0)})
		}
	}
	return all
}

package main

import (
	"fmt"
	"strings"

	"brimlog/stats"
	"brimlog/stats/suspect"
)

// The likeliest causes are told with all that speaks for and against them, the others with the weightiest.
const (
	fullyTold   = 3
	brieflyTold = 2
)

// suspects tells what must stop, which causes fit and why, and what to look at next.
func (s *sheet) suspects(r *stats.Review) {
	d := r.Suspects
	for _, stop := range d.Stop {
		s.answer("%s", stop.Why)
		s.point("%s", stop.Do)
	}
	if len(d.Stop) > 0 {
		s.gap()
	}
	s.answer("%s: %s", r.Book, d.Sentence())
	for _, g := range append(d.Grounds(), r.Notes...) {
		s.point("%s", g)
	}
	for i, c := range d.Likeliest() {
		s.cause(i+1, c)
	}
	s.gap()
	for _, p := range d.Pairs() {
		s.say("%s.", capital(p))
	}
	if rest := d.Rest(); rest != "" {
		s.say("The rest: %s.", rest)
	}
	s.checks(d)
}

// cause tells one cause with its reasons.
func (s *sheet) cause(place int, c suspect.Suspect) {
	costs := ""
	if fuel := stats.Costs(c); fuel != "" {
		costs = "; in fuel it costs " + fuel
	}
	s.gap()
	s.say("%d. %s: %s%s", place, c.Name, share(stats.Figure(c.Chance)), costs)
	most := brieflyTold
	if place <= fullyTold {
		most = max(len(c.Because), len(c.Against))
	}
	for _, why := range c.Because[:min(most, len(c.Because))] {
		s.point("for: %s", why)
	}
	for _, why := range c.Against[:min(most, len(c.Against))] {
		s.point("against: %s", why)
	}
}

var inState = map[string]string{
	"cold": "With the engine cold and stopped:", "warm": "Warmed through and stopped:", "running": "With the engine running, outdoors:", "road": "On the road:",
}

// checks tells what to look at next.
func (s *sheet) checks(d *stats.Suspected) {
	s.gap()
	switch {
	case len(d.NextChecks) == 0 && len(d.Stop) > 0:
		s.say("Nothing further should be tried before that is mended.")
		return
	case len(d.NextChecks) == 0:
		s.say("No check that is known here would tell more.")
		return
	}
	if d.Settled() {
		s.say("%s: make sure of it and have it mended first. Only where that does not help is it worth going on:", capital(d.Suspects[0].Name))
	} else {
		s.say("What to look at next, by what it tells per minute:")
	}
	for _, g := range d.Next() {
		s.gap()
		s.say("%s", inState[g.State])
		for _, c := range g.Checks {
			s.check(c)
		}
	}
	s.gap()
	s.say("Write the result into work.csv as a measure (brimlog work), or try it with --seen, and ask again: the list moves at once. The maker's handbook and local rules come before all of this; what you are not sure of is for a workshop.")
}

func (s *sheet) check(c suspect.NextCheck) {
	s.point("%s: %s%s", c.Title, counted(int(c.Minutes), "minute"), tooled(c))
	line := func(label, text string) { fmt.Fprintln(s.w, wrap(label+": "+text, "      ")) }
	line("how", c.How)
	line("reading it", c.Read)
	line("tells most of", apart(c))
	line("write down", c.Enter)
	line("caution", c.Caution)
}

func tooled(c suspect.NextCheck) string {
	switch {
	case len(c.ToolsMissing) > 0:
		return ", with " + strings.Join(c.ToolsMissing, " and ") + ", which is not among your tools"
	case len(c.Tools) > 0:
		return ", with " + strings.Join(c.Tools, " and ")
	}
	return ""
}

func apart(c suspect.NextCheck) string {
	var names []string
	for _, id := range c.TellsApart {
		names = append(names, suspect.Standard().Name(id))
	}
	return strings.Join(names, "; ")
}

// capital begins a sentence.
func capital(s string) string { return strings.ToUpper(s[:1]) + s[1:] }

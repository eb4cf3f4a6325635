package main

import (
	"slices"
	"strconv"
	"strings"

	"github.com/spf13/cobra"

	"brimlog/ingest/book"
	"brimlog/stats"
	"brimlog/stats/suspect"
)

// An inquiry is what the owner tells beside the log.
type inquiry struct {
	seen, done []string
	tools      string
	asks       bool
}

func (a *app) suspects() *cobra.Command {
	var q inquiry
	c := &cobra.Command{
		Use:   "suspects",
		Short: "Say which mechanical causes fit the figures and how it drives, and which check would tell most per minute",
		Long: "Say which mechanical causes fit what the log knows: the fuel it uses, when that began and after which job, how it drove since,\n" +
			"what was measured in the workshop. Then the checks that would tell most per minute, each with its caution. What you have seen\n" +
			"yourself is added with --seen, as symptom=grade or sign=word: weak_low=heavy, smoke=black, plug=sooty, smell=petrol,\n" +
			"fuel_leak=trace, or a figure as in work.csv: timing_idle_deg=-5. Whatever asks you to stop stands before everything else.",
		Args: cobra.NoArgs,
		RunE: func(cmd *cobra.Command, _ []string) error {
			heard, err := q.heard(cmd.Flags().Changed("tools"))
			if err != nil {
				return err
			}
			return a.suspect(heard, q.asks)
		},
	}
	f := c.Flags()
	f.StringArrayVar(&q.seen, "seen", nil, "what you have seen, as symptom=grade, sign=word or reading=figure; repeatable")
	f.StringVar(&q.tools, "tools", "", "the tools you own, split by commas: "+strings.Join(suspect.Standard().Tools(), ", "))
	f.StringArrayVar(&q.done, "done", nil, "a check that you have made and that needs no other asking, by its name in --json; repeatable")
	f.BoolVar(&q.asks, "ask", false, "be asked, the most telling question first; 'don't know' is an answer")
	return c
}

// heard reads the flags into evidence that holds nothing else.
func (q inquiry) heard(tools bool) (suspect.Evidence, error) {
	e, t := suspect.Nothing(), suspect.Standard()
	e.Seen = map[string]string{}
	for _, text := range q.seen {
		if err := see(&e, text); err != nil {
			return e, err
		}
	}
	if tools {
		e.Tools = []string{}
	}
	for _, one := range strings.Split(q.tools, ",") {
		one = strings.TrimSpace(one)
		i := slices.IndexFunc(t.Tools(), func(tool string) bool { return strings.EqualFold(tool, one) })
		switch {
		case one == "" || one == "none":
		case i < 0:
			return e, usage("--tools: no check asks for %q: want any of %s, or none", one, strings.Join(t.Tools(), ", "))
		default:
			e.Tools = append(e.Tools, t.Tools()[i])
		}
	}
	for _, id := range q.done {
		if !slices.ContainsFunc(t.Checks, func(c suspect.Check) bool { return c.ID == id }) {
			return e, usage("--done: no check %q: the names stand in brimlog suspects --json, under check", id)
		}
	}
	e.Done = q.done
	return e, nil
}

// see takes one --seen: a figure as a reading, all else as a word.
func see(e *suspect.Evidence, text string) error {
	id, value, ok := strings.Cut(text, "=")
	id, value = strings.ReplaceAll(strings.ToLower(strings.TrimSpace(id)), "-", "_"), strings.TrimSpace(value)
	if !ok || id == "" || value == "" {
		return usage("--seen: want symptom=grade, as in weak_low=heavy, got %q", text)
	}
	t := suspect.Standard()
	if e.Seen[id] != "" || slices.ContainsFunc(e.Readings, func(r book.Reading) bool { return r.Name == id }) {
		return usage("--seen: want each once, got %s again", id)
	}
	word, err := t.Understand(id, value)
	switch {
	case err == nil:
		e.Seen[id] = word
		return nil
	case !slices.Contains(t.Readings(), id) || t.IsWord(id):
		return usage("--seen: %v", err)
	case strings.Contains(value, "@") || id == "coast_s" || id == "pull_s":
		return usage("--seen: %s: a timed run needs its speeds and its day: write it into work.csv as a measure", id)
	}
	r := book.Reading{Name: id, Text: value}
	for _, figure := range strings.Split(value, "/") {
		x, err := strconv.ParseFloat(strings.TrimSpace(figure), 64)
		if err != nil || x-x != 0 {
			return usage("--seen: %s: want a number, got %q", id, value)
		}
		r.Values = append(r.Values, x)
	}
	e.Readings = append(e.Readings, r)
	return nil
}

// suspect answers, and asks where that was asked for or is welcome.
func (a *app) suspect(heard suspect.Evidence, asks bool) error {
	r, err := a.patientReview(stats.Options{Suspect: true})
	if err != nil {
		return err
	}
	e := r.Suspects.Evidence
	e.Seen, e.Tools, e.Done = heard.Seen, heard.Tools, heard.Done
	e.Readings = append(slices.Clone(e.Readings), heard.Readings...)
	r.Suspects.Weigh(e)
	s := a.sheet(r.Show)
	if asks && len(r.Suspects.Stop) == 0 {
		r.Suspects.Weigh(a.asker().ask(e))
	}
	if a.json {
		return a.document(r.SuspectsDocument())
	}
	s.suspects(r)
	if asking := a.talker(); asking != nil && !asks && len(r.Suspects.Stop) == 0 && asking.wanted(e) {
		r.Suspects.Weigh(asking.ask(e))
		s.gap()
		s.suspects(r)
	}
	return nil
}

package main

import (
	"fmt"
	"strconv"
	"strings"

	"github.com/spf13/cobra"

	"brimlog/ingest/quantity"
	"brimlog/stats"
)

func (a *app) watch() *cobra.Command {
	var flag bool
	c := &cobra.Command{
		Use:   "watch",
		Short: "Say which tanks stand out, and where consumption shifted without a job being named for it",
		Args:  cobra.NoArgs,
		RunE: func(*cobra.Command, []string) error {
			return a.each(func(a *app) error { return a.tellWatch(flag) })
		},
	}
	c.Flags().BoolVar(&flag, "flag-status", false, "exit with status 3 when the alarm is up or a tank stands out")
	return takesSeveral(c)
}

func (a *app) tellWatch(flag bool) error {
	r, err := a.review(stats.Options{Watch: true})
	if err != nil {
		return err
	}
	if a.json {
		err = a.document(r.WatchDocument())
	} else {
		a.sheet(r.Show).watch(r)
	}
	if err == nil && flag && flagged(r.Watch) {
		return errFlagged
	}
	return err
}

func flagged(w *stats.Watch) bool {
	for _, t := range w.Tanks {
		if t.Reading != nil {
			return true
		}
	}
	return w.Alarm
}

// watch tells the shifts, what the next tank would say, and the tanks that stand out.
func (s *sheet) watch(r *stats.Review) {
	w := r.Watch
	s.answer("%s", s.watchSentence(r))
	for _, n := range r.Notes {
		s.point("%s", n)
	}
	if w.Next != nil {
		s.next(w)
	}
	if len(w.Shifts) > 0 {
		s.gap()
		var rows [][]string
		for _, h := range w.Shifts {
			rows = append(rows, []string{h.FromDate, h.ToDate, came(h), percent(h.ChangePct), interval(h.LowPct, h.HighPct), odds(h.OddsChanged), jobsNamed(h.Jobs)})
		}
		s.table([]string{"between ", "and ", "it ", "fuel", "90 % sure", "odds", "jobs in between "}, rows)
	}
	var rows [][]string
	for i, t := range w.Tanks {
		if t.Reading != nil {
			rows = append(rows, []string{strconv.Itoa(t.Number), t.ToDate[:10], s.of(t.LPer100Km), s.span(stats.Range{Low: t.ExpectedLow, High: t.ExpectedHigh}), number(t.Score, 1), readings[*t.Reading], strconv.Itoa(r.Tanks[i].ToLine)})
		}
	}
	if len(rows) > 0 {
		s.gap()
		s.say("Tanks that stand out from what was expected of them:")
		s.table([]string{"tank", "until ", s.economy.Label(), "expected", "score", "reads like ", "line"}, rows)
	}
}

func (s *sheet) watchSentence(r *stats.Review) string {
	w := r.Watch
	switch n := len(w.Shifts); {
	case len(w.Tanks) == 0:
		return r.Book + ": no tank from brim to brim yet, so nothing to watch."
	case n == 0:
		return fmt.Sprintf("%s: nothing has shifted over %s that a job does not account for.", r.Book, counted(len(w.Tanks), "tank"))
	default:
		return fmt.Sprintf("%s: %s%s", r.Book, newestShift(w.Shifts[n-1], w.Alarm), surerShift(w.Shifts))
	}
}

// surerShift tells of the last shift that is sure and that nobody accounts for, where the newest is not: a doubt must not hide it.
func surerShift(shifts []stats.Shift) string {
	last := len(shifts) - 1
	if shifts[last].Sure() {
		return ""
	}
	for k := last - 1; k >= 0; k-- {
		if h := shifts[k]; h.Sure() && h.TakenBackBy == "" && len(h.Jobs) == 0 {
			return fmt.Sprintf(" Before that, between %s and %s, its fuel %s by %s (odds %s), and no job is named for it.",
				h.FromDate, h.ToDate, came(h), strings.TrimLeft(percent(h.ChangePct), "+-"), odds(h.OddsChanged))
		}
	}
	return ""
}

// newestShift tells of the newest shift; as of what only seems so where its odds are no proof.
func newestShift(h stats.Shift, alarm bool) string {
	uses, slipped := "it seems to use", "something may have slipped: the next tanks will tell."
	if h.Sure() {
		uses, slipped = "it uses", "something has slipped."
	}
	word, size := "less", strings.TrimLeft(percent(h.ChangePct), "+-")
	if h.ChangePct > 0 {
		word = "more"
	}
	between := fmt.Sprintf("between %s and %s", h.FromDate, h.ToDate)
	if h.TakenBackBy != "" {
		return fmt.Sprintf("%s fuel %s by %s without a job (odds %s); %s took most or all of it back, and nothing has slipped since.", between, cameSurely(h), size, odds(h.OddsChanged), h.TakenBackBy)
	}
	text := fmt.Sprintf("since %s %s %s %s fuel", between, uses, size, word)
	if h.Gradual {
		text = fmt.Sprintf("%s its fuel %s by %s", between, cameSurely(h), size)
	}
	text += fmt.Sprintf(", like for like (odds %s); ", odds(h.OddsChanged))
	switch {
	case alarm && len(h.JobsSince) > 0:
		return text + "no job is named for it. Whether " + jobsNamed(h.JobsSince) + ", done since, took it back is not yet proved."
	case alarm:
		return text + "no job is named for it, so " + slipped
	case len(h.Jobs) > 0:
		return text + jobsNamed(h.Jobs) + " fell within those dates."
	}
	return text + "no job is named for it."
}

// next says what the next tank would have to show.
func (s *sheet) next(w *stats.Watch) {
	n := w.Next
	text := fmt.Sprintf("a next tank like the recent ones should come to %s %s (90 %%)", s.span(stats.Range{Low: n.ExpectedLow, High: n.ExpectedHigh}), s.economy.Label())
	worse := "more than"
	better := "less than"
	if s.economy.MoreIsBetter() {
		worse, better = better, worse
	}
	if quantity.Known(float64(n.AlarmAbove)) {
		text += fmt.Sprintf("; %s %s would raise the alarm at once", worse, s.withUnit(n.AlarmAbove))
	} else if !w.Alarm {
		text += "; no single tank would raise the alarm, two or three in a row would"
	}
	if quantity.Known(float64(n.ClearBelow)) {
		text += fmt.Sprintf("; %s %s would clear it", better, s.withUnit(n.ClearBelow))
	} else if w.Alarm {
		text += "; no single tank would clear the alarm"
	}
	s.point("%s", text)
}

// cameSurely tells how a shift came, and that it only seems so where its odds are no proof.
func cameSurely(h stats.Shift) string {
	word := came(h)
	if h.Sure() {
		return word
	}
	if past, irregular := map[string]string{"rose": "risen", "fell": "fallen"}[word]; irregular {
		word = past
	}
	return "seems to have " + word
}

// came tells how a shift came: at once on a day, or little by little all the time.
func came(h stats.Shift) string {
	switch up := h.ChangePct > 0; {
	case h.Gradual && up:
		return "crept up"
	case h.Gradual:
		return "crept down"
	case up:
		return "rose"
	}
	return "fell"
}

func jobsNamed(ids []string) string {
	if len(ids) == 0 {
		return "none"
	}
	return strings.Join(ids, ", ")
}

var readings = map[string]string{
	"thirsty": "thirsty", "frugal": "frugal", "short_fill": "short fill, made good by the next", "over_fill": "over-fill, made good by the next", "entry_slip": "a slip of the pen: look at its receipt",
}

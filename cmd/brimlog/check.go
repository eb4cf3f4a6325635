package main

import (
	"fmt"
	"time"

	"github.com/spf13/cobra"

	"brimlog/ingest/book"
	"brimlog/ingest/slip"
	"brimlog/stats"
)

// A checkDocument is the answer of check.
type checkDocument struct {
	stats.Head
	Problems []book.Problem `json:"problems"`
}

func (a *app) check() *cobra.Command {
	var fix, yes, flagStatus bool
	c := &cobra.Command{
		Use:   "check",
		Short: "List every entry that looks like a slip, with the likeliest correction",
		Long: "List every entry that looks like a slip of the pen, judged by the whole log: where it stands, what is odd about it, what is\n" +
			"usual, and the corrected cell where one correction stands out. With --fix each is asked for and put right.",
		Args: cobra.NoArgs,
		RunE: func(*cobra.Command, []string) error {
			if yes && !fix {
				return usage("check: --yes goes with --fix, which writes the corrections: add --fix, or leave out --yes to look only")
			}
			if fix && len(a.books) > 1 {
				return usage("check: --fix takes one logbook at a time, got %d: give one of them with --book", len(a.books))
			}
			if fix {
				if err := a.fix(yes); err != nil {
					return err
				}
			}
			return a.each(func(a *app) error { return a.tellProblems(flagStatus) })
		},
	}
	c.Flags().BoolVar(&fix, "fix", false, "ask for each correction and write it")
	c.Flags().BoolVar(&yes, "yes", false, "with --fix: write every correction that stands out, without asking")
	c.Flags().BoolVar(&flagStatus, "flag-status", false, "exit with status 3 when there is a problem")
	return takesSeveral(c)
}

func (a *app) tellProblems(flagStatus bool) error {
	b, err := a.until()
	if err != nil {
		return err
	}
	d := checked(b)
	if a.among {
		d.Folder = a.dir
	}
	if a.json {
		err = a.document(d)
	} else {
		a.sheet(b.Vehicle.Show).problems(b, d)
	}
	if err == nil && flagStatus && len(d.Problems) > 0 {
		return errFlagged
	}
	return err
}

// until is the logbook as far as --as-of lets see.
func (a *app) until() (*book.Book, error) {
	b, err := book.Read(a.folder())
	if err != nil || a.asOf == "" {
		return b, err
	}
	m, err := book.ParseMoment(a.asOf)
	if err != nil {
		return nil, usage("--as-of: %v", err)
	}
	return b.Until(m), nil
}

// wallClock is the time as the owner's clock shows it: the moments of a logbook have no zone.
func wallClock() time.Time {
	now := time.Now()
	return time.Date(now.Year(), now.Month(), now.Day(), now.Hour(), now.Minute(), now.Second(), 0, time.UTC)
}

func checked(b *book.Book) checkDocument {
	d := checkDocument{stats.Head{Book: b.Vehicle.Name, Notes: []string{}}, slip.Find(b, wallClock())}
	if last := b.Last(); !last.IsZero() {
		d.AsOf = last.String()
	}
	if d.Problems == nil {
		d.Problems = []book.Problem{}
	}
	if n := len(b.Fills); n < 8 {
		d.Notes = append(d.Notes, fmt.Sprintf("%s so far: what is usual is hardly known yet, so only gross slips show", counted(n, "fill")))
	}
	if c := b.Vehicle.Tank.CapacityL; !(c > 0) {
		d.Notes = append(d.Notes, "what the tank holds is not known: capacity_l in vehicle.toml would show fills that cannot be")
	}
	return d
}

// problems tells how many there are, then each with its place, what is odd and what mends it.
func (s *sheet) problems(b *book.Book, d checkDocument) {
	looked := fmt.Sprintf("%s, %s and %s", counted(len(b.Fills), "fill"), counted(len(b.Trips), "trip"), counted(len(b.Jobs), "job"))
	unusable := 0
	for _, p := range d.Problems {
		if p.Severity == "error" {
			unusable++
		}
	}
	switch n := len(d.Problems); {
	case n == 0:
		s.answer("%s: nothing looks like a slip in %s.", d.Book, looked)
	case unusable == 0:
		s.answer("%s: %s in %s to look at.", d.Book, counted(n, "place"), looked)
	default:
		s.answer("%s: %s in %s to look at; %d of them cannot be used as it stands.", d.Book, counted(n, "place"), looked, unusable)
	}
	for _, n := range d.Notes {
		s.point("%s", n)
	}
	for _, p := range d.Problems {
		s.gap()
		s.point("%s", p.Error())
		if remedy := remedyOf(p); remedy != "" {
			fmt.Fprintln(s.w, wrap(remedy, "    "))
		}
	}
	if len(d.Problems) > 0 {
		s.gap()
		s.say("Look each up on its receipt before changing it; brimlog check --fix asks for one after the other and writes them.")
	}
}

// remedyOf says what to write; empty where nothing stands out.
func remedyOf(p book.Problem) string {
	switch {
	case isCopy(p):
		return fmt.Sprintf("likeliest: drop line %d", p.Line)
	case p.Suggestion == nil:
		return ""
	case *p.Suggestion == "":
		return "likeliest: leave " + p.Column + " empty"
	}
	return "likeliest: " + p.Column + " " + *p.Suggestion
}

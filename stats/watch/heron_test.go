package watch_test

import (
	"slices"
	"testing"

	"brimlog/ingest/book"
	"brimlog/ingest/tank"
	"brimlog/stats/model"
	"brimlog/stats/prove"
	"brimlog/stats/watch"
)

// The demo logbook without the row of the retiming: the step is found by search, on its date and of the size that prove
// gives it, and with odds that are lower by what the search costs.
func TestJobTakenOutIsFoundAsShift(t *testing.T) {
	b, err := book.Read("../../testdata/heron")
	if err != nil {
		t.Fatal(err)
	}
	l := tank.Build(b)
	proofs, _ := prove.All(l, model.NewDesign(l), -1)
	at := slices.IndexFunc(l.Jobs, func(j tank.Job) bool { return j.ID == "retime" })
	date, inTank := l.Jobs[at].Date, l.Jobs[at].Tank
	named := proofs[slices.IndexFunc(proofs, func(p prove.Proof) bool { return p.Tank == inTank })].Current

	b.Jobs = slices.DeleteFunc(b.Jobs, func(j book.Job) bool { return j.ID == "retime" })
	l = tank.Build(b)
	d := model.NewDesign(l)
	_, c := d.Ask(nil)
	shifts := watch.Shifts(l, d, c)
	k := slices.IndexFunc(shifts, func(s watch.Shift) bool { return s.Change < 0 })
	if k < 0 {
		t.Fatalf("the retiming is not found among %+v", shifts)
	}
	s := shifts[k]
	if date.Before(s.From.Time) || date.After(s.To.Time) {
		t.Errorf("window %s to %s does not hold %s", s.From, s.To, date)
	}
	if s.Change < named.Low || s.Change > named.High {
		t.Errorf("found %+.1f %%, prove says %+.1f to %+.1f %%", s.Change, named.Low, named.High)
	}
	if s.Odds >= named.Odds {
		t.Errorf("odds %.0f without the job's row, %.0f with it: the search cost nothing", s.Odds, named.Odds)
	}
	t.Logf("found %s to %s, %+.1f %%, odds %.0f; prove %+.1f %%, odds %.0f", s.From, s.To, s.Change, s.Odds, named.Change, named.Odds)
}

// The brake that nobody noticed is found, dated, and told apart from the winter before.
func TestDraggingBrakeIsFound(t *testing.T) {
	b, err := book.Read("../../testdata/heron")
	if err != nil {
		t.Fatal(err)
	}
	l := tank.Build(b)
	d := model.NewDesign(l)
	_, c := d.Ask(nil)
	shifts := watch.Shifts(l, d, c)
	if len(shifts) != 1 {
		t.Fatalf("found %+v, want the brake alone", shifts)
	}
	s := shifts[0]
	began, _ := book.ParseMoment("2026-07-14")
	if began.Before(s.From.Time) || began.After(s.To.Time) || s.Low > 11 || s.High < 11 {
		t.Errorf("found %s to %s, %+.1f to %+.1f %%; it began %s and costs 11 %%", s.From, s.To, s.Low, s.High, began)
	}
}

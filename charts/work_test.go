package charts

import (
	"strings"
	"testing"
)

// The evidence of the newest job stands open, and of the newest that is proved to have changed something.
func TestCardsThatStandOpen(t *testing.T) {
	cards := []jobCard{{}, {Evidence: true}, {Evidence: true}, {Evidence: true, Proved: true}, {Evidence: true, Proved: true}}
	openCards(cards)
	for i, want := range []bool{false, true, false, true, false} {
		if cards[i].Open != want {
			t.Errorf("card %d stands open: %v", i, cards[i].Open)
		}
	}
	cards = []jobCard{{Evidence: true, Proved: true}, {Evidence: true}, {Evidence: true, Proved: true}}
	openCards(cards)
	if !cards[0].Open || cards[1].Open || cards[2].Open {
		t.Errorf("where the newest is proved, others stand open too: %+v", cards)
	}
}

func TestLastJobNamesTheLastProved(t *testing.T) {
	if got := textOf(t, heron(), "answers"); !strings.Contains(got, "The last that is proved to have changed anything is cam-fit, 6 May 2023: ") {
		t.Errorf("the newest job is undecided, and no proved one is named: %s", got)
	}
	r := heron()
	r.Jobs = r.Jobs[:4]
	if got := textOf(t, r, "answers"); strings.Contains(got, "The last that is proved") {
		t.Error("the newest job is proved, and another is named beside it")
	}
}

// The first tanks of a path, after which anything may still be, do not flatten what came later.
func TestScaleOfAPathIsThatOfItsLaterTanks(t *testing.T) {
	l := open(heron())
	j := l.jobs[1]
	j.Path[0].LowPct, j.Path[0].HighPct = -39, 38
	e := evidenceOf(l, j)
	last := j.Path[len(j.Path)-1]
	if low, high := e.Ends[1][0], e.Ends[1][1]; low < -30 || high > 30 || low > last.LowPct || high < last.HighPct {
		t.Errorf("the scale runs from %v to %v, the last tank from %v to %v", low, high, last.LowPct, last.HighPct)
	}
	j.Path = j.Path[:1]
	if low, high := evidenceOf(l, j).Ends[1][0], evidenceOf(l, j).Ends[1][1]; low != -39 || high != 38 {
		t.Errorf("the scale of a single tank runs from %v to %v, want all of it", low, high)
	}
}

package charts

import (
	"html/template"

	"brimlog/ingest/quantity"
)

// A lesson says what to note next, for logs that can't say much yet.
type lesson struct {
	Empty  bool
	Lacks  []template.HTML // what keeps an empty log from its first tank
	Tanks  int
	Unit   unit
	Jobs   int
	Unread bool // most driving has no note
}

// first teaches before all else where there is no tank to show; next does so beneath what there is to show of a tiny log.
func first(l *logbook) *section {
	if len(l.tanks) > 0 {
		return nil
	}
	return taught(l)
}

func next(l *logbook) *section {
	const few = 8 // tanks, from which on the answers speak for themselves
	if len(l.tanks) == 0 || len(l.tanks) >= few && len(l.jobs) > 0 {
		return nil
	}
	return taught(l)
}

// taught is what would let the log answer.
func taught(l *logbook) *section {
	noted, n := 0.0, 0.0
	for _, t := range l.tanks {
		if x := float64(t.NotedShare); quantity.Known(x) {
			noted, n = noted+x, n+1
		}
	}
	t := lesson{
		Empty: len(l.tanks) == 0, Tanks: len(l.tanks), Unit: l.unit, Jobs: len(l.jobs), Unread: n == 0 || noted/n < 0.5,
	}
	if t.Empty {
		t.Lacks = notes(l)
	}
	return &section{ID: "next", Title: "What to note next", Form: "next.html", Data: t}
}

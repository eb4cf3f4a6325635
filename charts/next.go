package charts

import "brimlog/ingest/quantity"

// A lesson says what to note next, for logs that can't say much yet.
type lesson struct {
	Empty  bool
	Tanks  int
	Unit   unit
	Jobs   int
	Unread bool // most driving has no note
}

// next teaches an owner of an empty or tiny log what would let it answer.
func next(l *logbook) *section {
	const few = 8 // tanks, from which on the answers speak for themselves
	if len(l.tanks) >= few && len(l.jobs) > 0 {
		return nil
	}
	noted, n := 0.0, 0.0
	for _, t := range l.tanks {
		if x := float64(t.NotedShare); quantity.Known(x) {
			noted, n = noted+x, n+1
		}
	}
	return &section{ID: "next", Title: "What to note next", Form: "next.html", Data: lesson{
		Empty: len(l.tanks) == 0, Tanks: len(l.tanks), Unit: l.unit, Jobs: len(l.jobs), Unread: n == 0 || noted/n < 0.5,
	}}
}

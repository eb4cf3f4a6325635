package slip

import (
	"fmt"
	"math"

	"brimlog/ingest/quantity"
)

// standsOut is the share that a correction must have among all of its column to be named.
const standsOut = 0.4

// tell reports a finding.
func (l *log) tell(f finding) {
	best := f.stories[0]
	var suggestion *string
	if best.cell != "" && f.share() >= standsOut {
		suggestion = &best.cell
	}
	severity := isDoubt
	if best.column == "odometer" && l.goesBack(f.at) || l.book.Vehicle.Tank.CapacityL*2 < l.visits[f.at].litres && best.column == "volume" {
		severity = isError
	}
	l.report(l.visits[f.at].row, best.column, best.kind, severity, suggestion, "%s (gain %.1f share %.2f)", l.sentence(f), f.gain, f.share())
}

func (l *log) sentence(f finding) string {
	ref := l.level(f.from, f.to-1)
	s := fmt.Sprintf("usual %.1f l/100 scatter %.3f", 100*math.Exp(ref.pooled), l.usual.scatter)
	for _, t := range l.near(f.at) {
		s += fmt.Sprintf("; tank %.1f L %.2f l/100", t.litres, 100*math.Exp(t.y))
	}
	_ = quantity.Unknown
	return s
}

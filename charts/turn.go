package charts

import (
	"math"

	"brimlog/ingest/quantity"
)

// turns say where within its tank a job fell, so that the level steps where its flag stands and not at the fill before: the place of
// the tank, and the day. Which tank it was, the odometer has decided below. Of several jobs in one tank, the first that has a verdict.
func turns(l *logbook) (all []row) {
	placed := map[int]bool{}
	for _, j := range l.jobs {
		at := l.tankOf(j)
		if at < 0 || placed[at] || !quantity.Known(j.day) {
			continue
		}
		t := l.tanks[at]
		if d := math.Max(t.from, math.Min(t.to, j.day)); d > t.from {
			all = append(all, row{Figure(at), Figure(d)})
		}
		placed[at] = true
	}
	return all
}

// tankOf is the place of the tank that a job fell within; -1 where the log does not tell.
func (l *logbook) tankOf(j job) int {
	if len(j.Path) == 0 {
		return -1
	}
	for i, t := range l.tanks {
		if t.Number == j.Path[0].Tank {
			return i
		}
	}
	return -1
}

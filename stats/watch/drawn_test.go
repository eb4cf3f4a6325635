package watch_test

import (
	"math"
	"os"
	"strconv"
	"testing"

	"brimlog/ingest/book"
	"brimlog/ingest/tank"
	"brimlog/stats/model"
	"brimlog/stats/prove"
	"brimlog/stats/watch"
	"brimlog/testdata/drawn"
)

// A log is one that was drawn and read, with what the model makes of it.
type log struct {
	*tank.Log
	d *model.Design
	c model.Course
}

func read(t *testing.T, l *drawn.Log) log {
	t.Helper()
	dir := t.TempDir()
	if err := l.Write(dir, drawn.Metric); err != nil {
		t.Fatal(err)
	}
	b, err := book.Read(dir)
	if err != nil {
		t.Fatal(err)
	}
	built := tank.Build(b)
	d := model.NewDesign(built)
	_, c := d.Ask(nil)
	return log{built, d, c}
}

func (l log) shifts() []watch.Shift { return watch.Shifts(l.Log, l.d, l.c) }

// until is the log as it was after so many tanks.
func (l log) until(tanks int) log {
	cut := *l.Log
	cut.Tanks = cut.Tanks[:tanks]
	d := &model.Design{Obs: l.d.Obs[:tanks], Priors: l.d.Priors}
	_, c := d.Ask(nil)
	return log{&cut, d, c}
}

// more is the log with one more tank, that comes out at y.
func (l log) more(y float64) log {
	longer, last, o := *l.Log, l.Tanks[len(l.Tanks)-1], l.d.Next()
	last.Number, last.From, last.To, last.Work, o.Y = last.Number+1, last.To, last.To+o.Km, nil, y
	last.Opens = last.Closes
	longer.Tanks = append(longer.Tanks[:len(l.Tanks):len(l.Tanks)], last)
	d := &model.Design{Obs: append(l.d.Obs[:len(l.d.Obs):len(l.d.Obs)], o), Priors: l.d.Priors}
	_, c := d.Ask(nil)
	return log{&longer, d, c}
}

// unnamed draws a log in which consumption changes by pct without a job: within one tank, or over several, evenly.
func unnamed(t *testing.T, p drawn.Plan, after, over int, pct float64) log {
	t.Helper()
	for k := range over {
		p.Jobs = append(p.Jobs, drawn.Job{ID: strconv.Itoa(k), Kind: "adjust", Area: "ignition", After: after + k, Pct: 100 * math.Expm1(math.Log1p(pct/100)/float64(over))})
	}
	l := p.Draw()
	l.Work = nil
	return read(t, l)
}

// logs is how many logs a test draws: few, or with BRIMLOG_LONG as many as a figure needs.
func logs(few, many int) int {
	if os.Getenv("BRIMLOG_LONG") != "" {
		return many
	}
	return few
}

// How many tanks, from the one in which it slipped, until the alarm stands, asked anew after each tank. Measured
// with BRIMLOG_LONG=1, 60 logs each of weekly tanks, four drives of five noted, 20 quiet tanks before; it slips halfway through a tank,
// and that one counts:
//
//	slip    within tanks: 1     2     3     4     5     6     8    12   half of the alarms
//	+10 %              0.00  0.10  0.40  0.62  0.80  0.88  0.97  1.00   after 4
//	+15 %              0.00  0.32  0.85  1.00                           after 3
//	+25 %              0.03  0.80  1.00                                 after 2
//
// and in 100 logs in which nothing slips 2 alarms in 2,900 tanks, none that still stands after 36.
func TestAlarmComesWithinAFewTanks(t *testing.T) {
	const slipped, most = 20, 12
	for _, c := range []struct {
		pct    float64
		median int     // tanks, at most
		found  float64 // within a dozen, at least
	}{{10, 6, 0.6}, {15, 4, 0.8}, {25, 3, 0.95}} {
		n := logs(10, 60)
		delays := make([]int, most+1)
		for seed := range n {
			l := unnamed(t, drawn.Plan{Seed: uint64(seed + 700), Tanks: slipped + most, Noted: 0.8}, slipped, 1, c.pct)
			for k := range delays {
				if s := []watch.Shift(nil); k < most {
					if s = l.until(slipped + k + 1).shifts(); !watch.Slipped(s) || s[len(s)-1].Last < slipped-2 {
						continue
					}
				}
				delays[k]++
				break
			}
		}
		median, found := most+1, float64(n-delays[most])/float64(n)
		for k, sum := most, n; k >= 0 && 2*sum >= n; k-- {
			median, sum = k+1, sum-delays[k]
		}
		t.Logf("%+.0f %%: half of the alarms stand after %d tanks, %.2f within %d; %v", c.pct, median, found, most, delays)
		if median > c.median || found < c.found {
			t.Errorf("%+.0f %%: half of the alarms stand after %d tanks, %.2f within %d", c.pct, median, found, most)
		}
	}
}

// Logs in which nothing slips: how often an alarm comes up, asked after every tank, and how often a shift is told at the end.
func TestNoAlarmWithoutASlip(t *testing.T) {
	const first, last = 8, 36
	n := logs(8, 100)
	alarms, ever, end := 0, 0, 0
	for seed := range n {
		l := unnamed(t, drawn.Plan{Seed: uint64(seed + 900), Tanks: last, Noted: 0.8}, 0, 0, 0)
		up, was := false, alarms
		for k := first; k <= last; k++ {
			now := watch.Slipped(l.until(k).shifts())
			if now && !up {
				alarms++
			}
			up = now
		}
		if alarms > was {
			ever++
		}
		if len(l.shifts()) > 0 {
			end++
		}
	}
	t.Logf("%d alarms in %d tanks; an alarm at some time in %d of %d logs, a shift told at the end in %d", alarms, n*(last-first+1), ever, n, end)
	if float64(ever) > 0.1*float64(n)+1 || float64(end) > 0.05*float64(n)+0.5 {
		t.Errorf("an alarm at some time in %d of %d quiet logs, a shift at the end of %d", ever, n, end)
	}
}

// The same logbook with the job's row and without: the step that is found agrees with prove in size and date, and its odds are
// lower, for it had to be looked for.
func TestSearchAgreesWithProve(t *testing.T) {
	const size = 4.0 // percent by which the medians may differ
	found, dated, lower, cost, n := 0, 0, 0, 0.0, 0
	for _, pct := range []float64{-8, -12, -20, 15} {
		for seed := range logs(6, 40) {
			p := drawn.Plan{Seed: uint64(seed + 40), Tanks: 30, Jobs: []drawn.Job{{ID: "set", Kind: "adjust", Area: "ignition", After: 15, Pct: pct}}}
			l := p.Draw()
			with := read(t, l)
			proofs, _ := prove.All(with.Log, with.d, -1)
			named, date := proofs[0].Current, with.Jobs[0].Date
			l.Work = nil
			n++
			shifts := read(t, l).shifts()
			if len(shifts) != 1 {
				continue
			}
			s := shifts[0]
			found++
			if !date.Before(s.From.Time) && !date.After(s.To.Time) {
				dated++
			}
			if s.Odds < named.Odds {
				lower++
			}
			cost += math.Log(named.Odds / s.Odds)
			if s.Low > named.High || s.High < named.Low || math.Abs(s.Change-named.Change) > size && !s.Gradual {
				t.Errorf("%+.0f %%, seed %d: found %+.1f (%+.1f to %+.1f), prove %+.1f (%+.1f to %+.1f)", pct, seed, s.Change, s.Low, s.High, named.Change, named.Low, named.High)
			}
		}
	}
	cost = math.Exp(cost / float64(found))
	t.Logf("of %d jobs left out %d were found, %d with the job within its dates, %d at lower odds; by a factor of %.1f in the mean", n, found, dated, lower, cost)
	if share := float64(found); share < 0.85*float64(n) || float64(dated) < 0.85*share || float64(lower) < 0.6*share || cost < 1.3 {
		t.Errorf("of %d jobs left out %d were found, %d with the job within its dates, %d at lower odds; by a factor of %.1f in the mean", n, found, dated, lower, cost)
	}
}

// A repair that cost fuel is no reason to tell of a step before it, which the log itself does not speak for: the job proved is not
// also an alarm.
func TestRepairMakesNoShiftByItself(t *testing.T) {
	for seed := uint64(121); seed < 127; seed++ {
		p := drawn.Plan{Seed: seed, Tanks: 50, Noted: 0.9, Part: 0.1, Jobs: []drawn.Job{{ID: "set", Kind: "repair", Area: "ignition", After: 30, Pct: 25}}}
		l := read(t, p.Draw())
		if s := l.shifts(); len(s) > 0 {
			t.Errorf("seed %d: told %+v", seed, s)
		}
		if proofs, _ := prove.All(l.Log, l.d, -1); proofs[0].Current.Verdict != prove.MoreFuel {
			t.Errorf("seed %d: the job is %s", seed, proofs[0].Current.Verdict)
		}
	}
}

// At most one whole log of ten has a tank flagged that is none.
func TestOneLogOfTenHasAFalseFlag(t *testing.T) {
	flagged, n := 0, logs(60, 400)
	for seed := range n {
		l := unnamed(t, drawn.Plan{Seed: uint64(seed + 2000), Tanks: 30 + seed%30, Noted: 0.7, Part: 0.1}, 0, 0, 0)
		for _, s := range watch.Standing(l.d, l.c) {
			if s.Reading != "" {
				flagged++
				break
			}
		}
	}
	t.Logf("a tank flagged in %d of %d ordinary logs", flagged, n)
	if 10*flagged > n {
		t.Errorf("a tank flagged in %d of %d ordinary logs", flagged, n)
	}
}

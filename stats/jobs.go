package stats

import (
	"math"
	"strings"

	"brimlog/ingest/quantity"
	"brimlog/ingest/tank"
	"brimlog/stats/calc"
	"brimlog/stats/prove"
	"brimlog/stats/watch"
)

// jobsOf writes down the jobs with what they did. Measurements are no jobs here.
func jobsOf(l *tank.Log, proofs []prove.Proof, tanks []Tank, shifts []watch.Shift) []Job {
	byTank := map[int]prove.Proof{}
	for _, p := range proofs {
		byTank[p.Tank] = p
	}
	out := []Job{}
	judged := prove.Judged(l)
	for i, j := range l.Jobs {
		if j.Measure() {
			continue
		}
		job := Job{
			ID: j.ID, Date: written(j.Date), What: j.What, Kind: j.Kind, Area: strings.Join(j.Areas, "/"), Line: j.Line,
			Cost: Figure(j.Cost), TanksBefore: j.Tank, TanksAfter: len(l.Tanks) - j.Tank, TogetherWith: together(l, i), Path: []PathTank{}, ChanceWithin: []Chance{},
			Notes: []string{}, RawChangePct: Figure(rawChange(l, i)), Driveability: drive(l, untilShift(judged, shifts, j.Date), i),
		}
		job.unknown()
		p, ok := byTank[j.Tank]
		if ok {
			job.proved(p, tanks)
			job.money(l, p)
		}
		job.Notes = jobNotes(l, j, job, p)
		out = append(out, job)
	}
	return out
}

// unknown marks all that only a proof can tell.
func (j *Job) unknown() {
	u := Figure(quantity.Unknown)
	j.ChangePct, j.LowPct, j.HighPct, j.AgainstHealthyPct, j.ChanceLessFuel, j.OddsChanged, j.SavingPer1000Km, j.PaysBackKm = u, u, u, u, u, u, u, u
	j.Before, j.After = Range{u, u, u}, Range{u, u, u}
}

func (j *Job) proved(p prove.Proof, tanks []Tank) {
	c := p.Current
	j.Verdict = &c.Verdict
	j.ChangePct, j.LowPct, j.HighPct = Figure(c.Change), Figure(c.Low), Figure(c.High)
	j.AgainstHealthyPct, j.ChanceLessFuel, j.OddsChanged = Figure(c.Against), Figure(c.ChanceLess), Figure(c.Odds)
	for _, s := range p.Path {
		t := tanks[s.Tank]
		j.Path = append(j.Path, PathTank{t.Number, t.ToDate, Figure(s.Change), Figure(s.Low), Figure(s.High), Figure(s.Odds), s.Verdict})
	}
	if p.Tried >= 0 {
		j.PlaceboTried, j.PlaceboFooled = &p.Tried, &p.Fooled
	}
	j.Before = quantiles(p.Before)
	change := p.Last.Effect.Mean()
	level := calc.Mixture{{Weight: 1, Mean: p.Before.Mean() + change, Sd: math.Hypot(p.Before.Sd(), p.Last.Effect.Sd())}}
	j.After = quantiles(level)
	j.waiting(p.Wait)
}

// quantiles is the 80 % range of a mixture of log L/km, in L/100 km.
func quantiles(m calc.Mixture) Range {
	return litres(m.Quantile(0.1), m.Quantile(0.5), m.Quantile(0.9))
}

// waiting says how many more tanks until a verdict, and the chance of one within a few.
func (j *Job) waiting(wait []float64) {
	for k, chance := range wait {
		if j.TanksToGo == nil && chance >= 0.5 {
			n := k + 1
			j.TanksToGo = &n
		}
		if n := k + 1; n == 2 || n == 4 || n == 8 {
			j.ChanceWithin = append(j.ChanceWithin, Chance{n, Figure(chance)})
		}
	}
}

// together lists the other jobs done within the same tank.
func together(l *tank.Log, job int) []string {
	ids := []string{}
	for i, j := range l.Jobs {
		if i != job && !j.Measure() && j.Tank == l.Jobs[job].Tank && j.Tank < len(l.Tanks) {
			ids = append(ids, j.ID)
		}
	}
	return ids
}

// rawChange compares total fuel over total distance from the job before to this one with that from this one to
// the next, the job's own tank left out, in percent; unknown when a side has no tank.
func rawChange(l *tank.Log, job int) float64 {
	own := l.Jobs[job].Tank
	first, last := 0, len(l.Tanks)
	for _, j := range l.Jobs {
		if j.Measure() || j.Tank == own {
			continue
		}
		if j.Tank < own {
			first = j.Tank + 1
		} else {
			last = min(last, j.Tank)
		}
	}
	before, after := rate(l.Tanks[min(first, own):own]), quantity.Unknown
	if own+1 <= last && own < len(l.Tanks) {
		after = rate(l.Tanks[own+1 : last])
	}
	return 100 * (after/before - 1)
}

// rate is total fuel over total distance.
func rate(tanks []tank.Tank) float64 {
	fuel, km := 0.0, 0.0
	for _, t := range tanks {
		fuel += t.Litres
		km += t.Km
	}
	if km == 0 {
		return quantity.Unknown
	}
	return fuel / km
}

// pricedTanks is how many of the last tanks set the price of fuel.
const pricedTanks = 5

// money says what the change is worth at the recent price of fuel, and when the job has paid for itself.
func (j *Job) money(l *tank.Log, p prove.Proof) {
	cost, fuel := 0.0, 0.0
	for _, t := range l.Tanks[max(0, len(l.Tanks)-pricedTanks):] {
		if quantity.Known(t.Cost) {
			cost += t.Cost
			fuel += t.Litres
		}
	}
	if fuel == 0 {
		return
	}
	saved := -1000 * math.Exp(p.Before.Quantile(0.5)) * p.Current.Change / 100 * cost / fuel
	j.SavingPer1000Km = Figure(saved)
	if km := float64(j.Cost) / saved * 1000; saved > 0 && quantity.Known(km) && km > 0 {
		j.PaysBackKm = Figure(km)
	}
}

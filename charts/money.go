package charts

import (
	"html/template"
	"math"

	"brimlog/ingest/quantity"
)

// A spending is fuel money over the distance that it took the vehicle, from those tanks alone whose cost is known.
type spending struct {
	Money, Km float64
	Tanks     int
	Unpriced  int
}

func (s spending) per1000Km() float64 { return 1000 * s.Money / s.Km }

func (s spending) left() string {
	if s.Unpriced == 0 {
		return ""
	}
	return ", " + number(float64(s.Unpriced), 0) + " without one left out"
}

func (s *spending) count(t tank) {
	if !quantity.Known(float64(t.Cost)) || !(float64(t.DistanceKm) > 0) {
		s.Unpriced++
		return
	}
	s.Money, s.Km, s.Tanks = s.Money+float64(t.Cost), s.Km+float64(t.DistanceKm), s.Tanks+1
}

// spentOn adds up the tanks that ended after a day.
func spentOn(tanks []tank, after float64) (s spending) {
	for _, t := range tanks {
		if t.to > after {
			s.count(t)
		}
	}
	return s
}

// A year is a line of the money table; a repayment is what a job cost and what it gives back.
type (
	year struct {
		Year            string
		Distance, Money template.HTML
		Rate            template.HTML
		Tanks           string
	}
	repayment struct {
		Job                       template.HTML
		Paid, Saves, SoFar, Until template.HTML
	}
	purse struct {
		Years []year
		Jobs  []repayment   // those that are proved to have changed something
		Paid  template.HTML // for all jobs together

		Unnamed template.HTML
	}
)

// money is what the fuel cost, year by year, and what the jobs gave back.
func money(l *logbook) *section {
	p := purse{Years: yearly(l)}
	paid := 0.0
	for i := len(l.jobs) - 1; i >= 0; i-- {
		j := l.jobs[i]
		paid += quantity.Or(float64(j.Cost), 0)
		if j.proved() && quantity.Known(float64(j.SavingPer1000Km)) {
			p.Jobs = append(p.Jobs, l.repayment(j))
		}
	}
	if paid > 0 {
		p.Paid = say("The jobs cost ", l.cash(paid), " in all; what was paid for each stands on its card.")
	}
	if len(p.Years) == 0 && len(p.Jobs) == 0 && p.Paid == "" {
		return nil
	}
	p.Unnamed = l.unnamed()
	return &section{ID: "money", Title: "Money", Form: "money.html", Data: p}
}

func yearly(l *logbook) (all []year) {
	var current spending
	flush := func(name string) {
		if current.Tanks > 0 {
			all = append(all, year{name, l.distance(current.Km), say(l.cash(current.Money)), l.perDistance(current.per1000Km()),
				number(float64(current.Tanks), 0)})
		}
		current = spending{}
	}
	for i, t := range l.tanks {
		if len(t.ToDate) < 4 {
			continue
		}
		current.count(t)
		if i == len(l.tanks)-1 || len(l.tanks[i+1].ToDate) < 4 || l.tanks[i+1].ToDate[:4] != t.ToDate[:4] {
			flush(plain(t.ToDate[:4]))
		}
	}
	return all
}

func (l *logbook) repayment(j job) repayment {
	saving, paid, driven := float64(j.SavingPer1000Km), float64(j.Cost), l.since(j.day)
	r := repayment{Job: link(j), Paid: say(l.cash(paid)), SoFar: dash, Until: dash}
	if saving < 0 {
		r.Saves = say("costs ", l.perDistance(-saving), " more")
		return r
	}
	r.Saves = l.perDistance(saving)
	r.SoFar = say("about ", l.cash(saving*driven/1000))
	back := float64(j.PaysBackKm)
	switch {
	case paid == 0:
		r.Until = say("cost nothing")
	case !(back > 0):
	case driven >= back:
		r.Until = say("yes, after ", l.distance(back))
	default:
		r.Until = say("after ", l.distance(back), "; ", l.distance(math.Max(0, driven)), " driven so far")
	}
	return r
}

package prove

import (
	"slices"

	"brimlog/ingest/book"
	"brimlog/ingest/quantity"
	"brimlog/ingest/tank"
)

// Points of the grades: none, trace, moderate, heavy count 0, 1, 2, 4 in the driveability procedures of the
// Coordinating Research Council (from memory).
var points = map[book.Grade]int{book.None: 0, book.Trace: 1, book.Moderate: 2, book.Heavy: 4}

// GradeOf is the grade that so many points a drive come nearest to; NotJudged where they are not known.
func GradeOf(pointsPerDrive float64) book.Grade {
	switch {
	case !quantity.Known(pointsPerDrive):
		return book.NotJudged
	case pointsPerDrive < 0.5:
		return book.None
	case pointsPerDrive < 1.5:
		return book.Trace
	case pointsPerDrive < 3:
		return book.Moderate
	}
	return book.Heavy
}

// A Judgement is one drive of which at least one symptom was judged, or a tank of which the owner noted at the pump how it
// drove.
type Judgement struct {
	Date     book.Moment
	Tank     int // index of the tank that it belongs to; -1 = none
	Symptoms book.Symptoms
	like     circumstances
	demerits int
}

// Judged lists them in the order of their dates. What was noted at the pump stands for a drive only as far as no trip of
// its tank says it.
func Judged(l *tank.Log) []Judgement {
	var all []Judgement
	monthly := l.Vehicle.Place.MonthlyC
	said := make([][book.SymptomCount]bool, len(l.Tanks))
	add := func(j Judgement) {
		if d, ok := demerits(j.Symptoms); ok {
			j.demerits = d
			j.like.fast = j.Symptoms[book.WeakCruise] != book.NotJudged || j.Symptoms[book.WeakHigh] != book.NotJudged
			all = append(all, j)
		}
	}
	for _, t := range l.Trips {
		for s, g := range t.Symptoms {
			if t.Tank >= 0 && g != book.NotJudged {
				said[t.Tank][s] = true
			}
		}
		like := circumstances{cold: quantity.Or(t.ColdStarts, 0) > 0, air: weatherOf(t.AirC, monthly, t.Date)}
		add(Judgement{Date: t.Date, Tank: t.Tank, Symptoms: t.Symptoms, like: like})
	}
	for i, t := range l.Tanks {
		j := Judgement{Date: t.Closes.Date, Tank: i, like: circumstances{air: weatherOf(t.AirC(), monthly, t.Closes.Date)}}
		for s, g := range map[book.Symptom]book.Grade{book.WeakLow: t.Closes.WeakLow, book.WeakHigh: t.Closes.WeakHigh} {
			if !said[i][s] {
				j.Symptoms[s] = g
			}
		}
		add(j)
	}
	slices.SortStableFunc(all, func(a, b Judgement) int { return a.Date.Compare(b.Date.Time) })
	return all
}

func demerits(s book.Symptoms) (sum int, ok bool) {
	for k, g := range s {
		if g != book.NotJudged {
			ok = true
			sum += weights[k] * points[g]
		}
	}
	return sum, ok
}

// PointsPerDrive is the mean of the grades that some drives got for a symptom, and how many of them judged it.
func PointsPerDrive(drives []Judgement, s book.Symptom) (mean float64, judged int) {
	sum := 0
	for _, d := range drives {
		if g := d.Symptoms[s]; g != book.NotJudged {
			sum += points[g]
			judged++
		}
	}
	if judged == 0 {
		return quantity.Unknown, 0
	}
	return float64(sum) / float64(judged), judged
}

package stats

import (
	"slices"

	"brimlog/ingest/book"
	"brimlog/stats/prove"
	"brimlog/stats/suspect"
)

const (
	drivesWeighed = 30 // the newest of the stretch
	drivesLately  = 3
	drivesBefore  = 5 // judged before it began, from which on the vehicle's own way is known
	oftenEnough   = 10
	risenPoints   = 0.5 // by which a symptom must have grown to be a new one: half a grade
)

// grade counts how it drove since it began: the newest drives, by the mean of their grades and by what one in ten comes to. A
// symptom that was no lighter before it began is the vehicle's own, and what began has not brought it.
func (g ground) grade(e *suspect.Evidence, s stretch, n *notes) (drives int) {
	since, before := g.drives(s)
	for k := range book.SymptomCount {
		mean, judged := prove.PointsPerDrive(since, k)
		if judged == 0 {
			continue
		}
		e.Grades[k] = suspect.Judged{Typical: prove.GradeOf(mean), Worst: oneInTen(since, k), Lately: oneInTen(newest(since, k), k)}
		earlier, known := prove.PointsPerDrive(before, k)
		if known < drivesBefore || e.Grades[k].Counts() == book.None || mean-earlier >= risenPoints {
			continue
		}
		if prove.GradeOf(earlier) <= book.Trace {
			e.Grades[k].AsBefore = true
		} else { // so heavy before that it would hide what began
			e.Grades[k].Typical, e.Grades[k].Worst = book.NotJudged, book.NotJudged
			n.say("%s was as heavy before it began, and is not counted", symptomNames[k])
		}
	}
	return len(since)
}

// drives are the newest judged ones of the stretch, and the newest from before what began.
func (g ground) drives(s stretch) (since, before []prove.Judgement) {
	for _, d := range prove.Judged(g.log) {
		switch {
		case s.after.IsZero() || d.Date.After(s.after.Time):
			since = append(since, d)
		case s.began && !s.anew && d.Date.Before(s.from.Time):
			before = append(before, d)
		}
	}
	return since[max(0, len(since)-drivesWeighed):], before[max(0, len(before)-drivesWeighed):]
}

// newest are the last few drives that judged a symptom.
func newest(drives []prove.Judgement, k book.Symptom) (last []prove.Judgement) {
	for _, d := range drives {
		if d.Symptoms[k] != book.NotJudged {
			last = append(last, d)
		}
	}
	return last[max(0, len(last)-drivesLately):]
}

// oneInTen is the grade that one drive in ten comes to; the worst one where fewer judged it.
func oneInTen(drives []prove.Judgement, k book.Symptom) book.Grade {
	var grades []book.Grade
	for _, d := range drives {
		if g := d.Symptoms[k]; g != book.NotJudged {
			grades = append(grades, g)
		}
	}
	if len(grades) == 0 {
		return book.NotJudged
	}
	slices.Sort(grades)
	return grades[len(grades)-1-len(grades)/oftenEnough]
}

package stats

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"brimlog/ingest/book"
	"brimlog/ingest/tank"
	"brimlog/stats/prove"
	"brimlog/stats/watch"
)

// symptomNames are the symptoms in few words, as the trade has them.
var symptomNames = [book.SymptomCount]string{
	book.HardStart: "hard starting cold", book.HardStartHot: "hard starting hot", book.RoughIdle: "rough idle", book.Hesitation: "hesitation",
	book.Stumble: "stumbling", book.Surge: "surging", book.Stall: "stalling", book.Knock: "knock", book.Backfire: "backfiring",
	book.RunOn: "running on", book.WeakLow: "weak low-down pull", book.WeakCruise: "weak pull at a cruise", book.WeakHigh: "weak pull at the top",
	book.Overheating: "running hot", book.RunsCold: "running cold",
}

// untilShift keeps the drives before the first shift that began after a job: what it felt like since is the shift's, not the job's.
func untilShift(judged []prove.Judgement, shifts []watch.Shift, job book.Moment) []prove.Judgement {
	i := slices.IndexFunc(shifts, func(s watch.Shift) bool { return s.From.After(job.Time) })
	if i < 0 {
		return judged
	}
	end := slices.IndexFunc(judged, func(j prove.Judgement) bool { return j.Date.After(shifts[i].From.Time) })
	if end < 0 {
		return judged
	}
	return judged[:end]
}

// drive writes down how it drove before and after a job.
func drive(l *tank.Log, judged []prove.Judgement, job int) Driveability {
	d := prove.Driveability(l, judged, job)
	out := Driveability{Before: Figure(d.Before), After: Figure(d.After), Symptoms: []SymptomDrive{}}
	if d.Verdict != "" {
		out.Verdict = &d.Verdict
	}
	for _, f := range d.Symptoms {
		out.Symptoms = append(out.Symptoms, SymptomDrive{
			Symptom: f.Symptom.String(), Name: symptomNames[f.Symptom], Before: Figure(f.Before), After: Figure(f.After),
			GradeBefore: prove.GradeOf(f.Before).String(), GradeAfter: prove.GradeOf(f.After).String(),
			DrivesBefore: f.DrivesBefore, DrivesAfter: f.DrivesAfter, Clear: f.Clear,
		})
	}
	return out
}

// Changed lists the symptoms that are clearly not what they were and have another grade by now, the greatest difference
// first.
func (d Driveability) Changed() []SymptomDrive {
	var all []SymptomDrive
	for _, s := range d.Symptoms {
		if s.Clear && s.GradeBefore != s.GradeAfter {
			all = append(all, s)
		}
	}
	slices.SortStableFunc(all, func(a, b SymptomDrive) int {
		return cmp.Compare(math.Abs(float64(b.After-b.Before)), math.Abs(float64(a.After-a.Before)))
	})
	return all
}

// String says it in one line: weak low-down pull: moderate before, none since.
func (s SymptomDrive) String() string {
	return fmt.Sprintf("%s: %s before, %s since", s.Name, s.GradeBefore, s.GradeAfter)
}

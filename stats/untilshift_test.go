package stats

import (
	"testing"
	"time"

	"brimlog/ingest/book"
	"brimlog/stats/prove"
	"brimlog/stats/watch"
)

// How it drives after the next shift is not the job's doing.
func TestDrivesAfterAShiftAreNotTheJobs(t *testing.T) {
	on := func(day int) book.Moment { return book.Moment{Time: time.Date(2024, 1, day, 0, 0, 0, 0, time.UTC)} }
	var judged []prove.Judgement
	for day := 1; day <= 30; day++ {
		judged = append(judged, prove.Judgement{Date: on(day)})
	}
	shifts := []watch.Shift{{From: on(5), To: on(8)}, {From: on(20), To: on(24)}, {From: on(28), To: on(29)}}
	for job, want := range map[int]int{1: 5, 6: 20, 12: 20, 25: 28, 29: 30} {
		if got := len(untilShift(judged, shifts, on(job))); got != want {
			t.Errorf("after the job of day %d: drives until day %d, want %d", job, got, want)
		}
	}
	if got := len(untilShift(judged, nil, on(1))); got != 30 {
		t.Errorf("without a shift: %d drives of 30", got)
	}
}

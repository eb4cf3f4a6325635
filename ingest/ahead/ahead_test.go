package ahead_test

import (
	"slices"
	"strings"
	"sync/atomic"
	"testing"
	"time"

	"brimlog/ingest/ahead"
)

type part struct{ number, square int }

// squares are of the numbers below n; the earlier of a few takes longest.
func squares(n int, work func(*part)) func(func(*part) bool) {
	next := 0
	return ahead.Work(func(p *part) bool {
		p.number = next
		next++
		return next < n
	}, func(p *part) {
		time.Sleep(time.Duration(3-p.number%4) * time.Millisecond)
		work(p)
	})
}

func TestPartsComeInOrder(t *testing.T) {
	for _, n := range []int{1, 2, 50} {
		var got, want []int
		for p := range squares(n, func(p *part) { p.square = p.number * p.number }) {
			got = append(got, p.square)
		}
		for i := range n {
			want = append(want, i*i)
		}
		if !slices.Equal(got, want) {
			t.Errorf("%d parts: %v", n, got)
		}
	}
}

func TestOneMayStop(t *testing.T) {
	seen := 0
	for range squares(50, func(*part) {}) {
		if seen++; seen == 3 {
			break
		}
	}
	if seen != 3 {
		t.Errorf("%d parts after a break at the third", seen)
	}
}

// A panic comes where it can be caught: not in a goroutine of its own, which would end the program.
func TestPanicIsTheAskers(t *testing.T) {
	defer func() {
		if f, _ := recover().(ahead.Fault); f.Of != "part 5" || !strings.HasPrefix(f.Place, "ahead_test.go:") || !strings.Contains(f.Error(), "TestPanicIsTheAskers") {
			t.Errorf("caught %v", f)
		}
	}()
	for p := range squares(50, func(p *part) {
		if p.number == 5 {
			panic("part 5")
		}
	}) {
		if p.number >= 5 {
			t.Fatalf("part %d was given", p.number)
		}
	}
}

// All of a group is waited for, and the panic of one comes where it can be caught.
func TestGroupsPanicIsTheWaiters(t *testing.T) {
	var g ahead.Group
	var done atomic.Int32
	for i := range 8 {
		g.Go(func() {
			if i == 3 {
				panic("piece 3")
			}
			time.Sleep(time.Millisecond)
			done.Add(1)
		})
	}
	defer func() {
		if f, _ := recover().(ahead.Fault); f.Of != "piece 3" || !strings.HasPrefix(f.String(), "piece 3, ahead_test.go:") || done.Load() != 7 {
			t.Errorf("caught %v with %d of 7 done", f, done.Load())
		}
	}()
	g.Wait()
}

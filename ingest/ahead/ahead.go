// Package ahead works on all cores: on the parts of something long, which it gives back in their order, or on a few things side by side. What
// panics there panics in whoever asked, who can catch it.
//
// It assumes that the parts can be cut off one after the other, and then be worked on apart. It holds a few at a time, however long the
// whole is.
package ahead

import (
	"iter"
	"runtime"
)

// A step is one part under way.
type step[P any] struct {
	part  P
	fault *Fault
	done  chan struct{}
}

// Work cuts off part after part, as long as cut says that more may follow, works on several at once, and gives them in order. The
// same few parts come again and again, and hold until the next: cut finds in them what they were before. A panic in work goes on
// in whoever asks for the part.
func Work[P any](cut func(*P) (more bool), work func(*P)) iter.Seq[*P] {
	return func(yield func(*P) bool) {
		ring := make([]step[P], 2*runtime.GOMAXPROCS(0)+1) // some wait ready while others are worked on
		begun, given := 0, 0
		for more := true; more || given < begun; {
			if more && begun-given < len(ring) {
				s := &ring[begun%len(ring)]
				more = cut(&s.part)
				s.begin(work)
				begun++
				continue
			}
			s := &ring[given%len(ring)]
			if <-s.done; s.fault != nil {
				panic(*s.fault)
			}
			if !yield(&s.part) {
				return
			}
			given++
		}
	}
}

func (s *step[P]) begin(work func(*P)) {
	s.done = make(chan struct{})
	go func() {
		defer close(s.done)
		defer func() {
			if fault := recover(); fault != nil {
				f := FaultOf(fault)
				s.fault = &f
			}
		}()
		work(&s.part)
	}()
}

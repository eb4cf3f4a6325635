package ahead

import "sync"

// A Group is work that goes on side by side. A panic in some of it goes on in whoever waits for all.
type Group struct {
	running sync.WaitGroup
	first   sync.Once
	fault   *Fault
}

// Go begins a piece of work.
func (g *Group) Go(work func()) {
	g.running.Go(func() {
		defer func() {
			if fault := recover(); fault != nil {
				f := FaultOf(fault)
				g.first.Do(func() { g.fault = &f })
			}
		}()
		work()
	})
}

// Wait waits for all that has begun.
func (g *Group) Wait() {
	g.running.Wait()
	if g.fault != nil {
		panic(*g.fault)
	}
}

package model

import (
	"fmt"
	"testing"

	"brimlog/ingest/book"
	"brimlog/ingest/tank"
)

func TestCount(t *testing.T) {
	log, _ := book.Read("../../testdata/heron")
	d := NewDesign(tank.Build(log))
	m := newLanes(d)
	fmt.Println("n", m[0].n)
	for i := range d.Obs {
		m.step(&d.Obs[i], role{fold: true, onset: true})
		m = m.thinned()
		if i%6 == 0 || i == len(d.Obs)-1 {
			hs := 0
			for _, p := range m {
				hs += len(p.histories)
			}
			fmt.Println(i, "lanes", len(m), "histories per lane", float64(hs)/float64(len(m)))
		}
	}
	s := m.settled()
	fmt.Println("driving", s.Driving, "brim", s.Brim)
	for i, p := range d.Priors {
		fmt.Printf("%-40s prior %.4f±%.4f post %.4f\n", p.Name, p.Mean, p.Sd, s.Mean[i])
	}
}

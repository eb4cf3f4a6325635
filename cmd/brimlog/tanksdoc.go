package main

import (
	"bytes"
	"encoding/json"

	"brimlog/ingest/ahead"
	"brimlog/stats"
)

// A page of tanks is written down at a time, for a log of a million must not stand in memory as text too.
const pageful = 4096

type pageOfTanks struct {
	from int // index of the first
	text []byte
}

// tanksDocument prints the answer of tanks, the same as document does, page by page and on all cores.
func (a *app) tanksDocument(r *stats.Review) error {
	frame, err := plainJSON(stats.TanksDocument{Head: r.Head, Tanks: []stats.Tank{}})
	if err != nil {
		return err
	}
	end := []byte("]}\n") // the tanks come last
	if _, err := a.out.Write(bytes.TrimSuffix(frame, end)); err != nil {
		return err
	}
	next := 0
	cut := func(p *pageOfTanks) bool {
		p.from, next = next, next+pageful
		return next < r.Measured()
	}
	write := func(p *pageOfTanks) { p.write(r) }
	for p := range ahead.Work(cut, write) {
		if _, err := a.out.Write(p.text); err != nil {
			return err
		}
	}
	_, err = a.out.Write(end)
	return err
}

func (p *pageOfTanks) write(r *stats.Review) {
	p.text = p.text[:0]
	for t := range r.Written(p.from, min(p.from+pageful, r.Measured())) {
		if t.Number > 1 {
			p.text = append(p.text, ',')
		}
		p.text = t.AppendJSON(p.text)
	}
}

// plainJSON is a value as JSON, with a line's end and without escapes that only a page would need.
func plainJSON(v any) ([]byte, error) {
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	err := e.Encode(v)
	return b.Bytes(), err
}

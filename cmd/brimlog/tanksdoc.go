package main

import (
	"bytes"
	"encoding/json"
	"runtime"

	"brimlog/stats"
)

// chunk is how many tanks are written down at once: a log of a million must not stand in memory as text too.
const chunk = 4096

// tanksDocument prints the answer of tanks, the same as document does, chunk by chunk and on all cores.
func (a *app) tanksDocument(d stats.TanksDocument) error {
	all := d.Tanks
	d.Tanks = []stats.Tank{}
	frame, err := plainJSON(d)
	if err != nil {
		return err
	}
	end := []byte("]}\n") // the tanks come last
	if _, err := a.out.Write(bytes.TrimSuffix(frame, end)); err != nil {
		return err
	}
	for i, parts := 0, inParts(all); ; i++ {
		p, more := <-parts
		if !more {
			break
		}
		b := <-p
		if b.err != nil {
			return b.err
		}
		if i > 0 {
			a.out.Write([]byte{','})
		}
		if _, err := a.out.Write(b.text); err != nil {
			return err
		}
	}
	_, err = a.out.Write(end)
	return err
}

// A part is some tanks as text, without the brackets around them.
type part struct {
	text []byte
	err  error
}

// inParts writes tanks down, as many parts at a time as there are cores; the parts come in order.
func inParts(all []stats.Tank) <-chan chan part {
	parts := make(chan chan part, runtime.GOMAXPROCS(0))
	go func() {
		defer close(parts)
		for from := 0; from < len(all); from += chunk {
			p := make(chan part, 1)
			parts <- p
			go func() {
				text, err := plainJSON(all[from:min(len(all), from+chunk)])
				p <- part{bytes.TrimSuffix(bytes.TrimPrefix(text, []byte("[")), []byte("]\n")), err}
			}()
		}
	}()
	return parts
}

// plainJSON is a value as JSON, with a line's end and without escapes that only a page would need.
func plainJSON(v any) ([]byte, error) {
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	err := e.Encode(v)
	return b.Bytes(), err
}

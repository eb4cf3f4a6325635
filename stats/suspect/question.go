package suspect

import (
	"maps"
	"slices"
)

// A Question asks the owner for one sign. 'Don't know' is always an answer.
type Question struct {
	Sign    string
	Text    string
	Answers []string // the words that it takes
}

// A question that tells less than this is left unasked.
const leastToAsk = 0.02

// NextQuestion is the most telling question left, with the program's own table.
func NextQuestion(e Evidence) (Question, bool) { return Standard().NextQuestion(e) }

// NextQuestion is the most telling question of those not answered, judged or given up; false when none is worth asking.
func (t *Table) NextQuestion(e Evidence) (Question, bool) {
	w, _ := t.weigh(e)
	hs := w.hypotheses()
	best, bits := -1, leastToAsk
	for i, s := range t.Signs {
		if s.Ask == "" || w.answered(i) || slices.Contains(e.DontKnow, s.ID) {
			continue
		}
		tells, _ := gain(hs, w.expect(hs, i))
		if tells *= s.Told / 100; tells > bits {
			best, bits = i, tells
		}
	}
	if best < 0 {
		return Question{}, false
	}
	s := t.Signs[best]
	return Question{Sign: s.ID, Text: s.Ask, Answers: slices.Clone(s.Words)}, true
}

func (w *weighing) answered(sign int) bool {
	return slices.ContainsFunc(w.obs, func(o observation) bool { return o.sign == sign })
}

// Answer is the evidence with the question's answer; an empty answer is 'don't know'. The evidence given is unchanged.
func (e Evidence) Answer(q Question, answer string) Evidence {
	if answer == "" {
		e.DontKnow = append(slices.Clone(e.DontKnow), q.Sign)
		return e
	}
	e.Seen = maps.Clone(e.Seen)
	if e.Seen == nil {
		e.Seen = map[string]string{}
	}
	e.Seen[q.Sign] = answer
	return e
}

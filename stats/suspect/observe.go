package suspect

import (
	"fmt"
	"slices"
	"strings"

	"brimlog/ingest/book"
	"brimlog/ingest/quantity"
)

// An observation is one sign as known: a word of it, or a departure from sound with its scatter.
type observation struct {
	sign int
	word int
	x    float64
	sd   float64
	wild float64 // density of the figure had it been a slip
	text string  // the figure as the owner wrote it, for the reasons

	asBefore bool // a symptom that was there before it began
}

// The graded symptoms as trips.csv heads their columns, in the order of book.Symptom.
var symptomIDs = [book.SymptomCount]string{
	"hard_start", "hard_start_hot", "rough_idle", "hesitation", "stumble", "surge", "stall", "knock",
	"backfire", "run_on", "weak_low", "weak_cruise", "weak_high", "overheating", "runs_cold",
}

// observe lists what is known, in the order of the table's signs, and notes what could not be used.
func (t *Table) observe(e Evidence) (obs []observation, notes []string) {
	for i, s := range t.Signs {
		var o observation
		var ok bool
		var note string
		if s.Kind == "number" {
			o, ok, note = t.number(s, e)
		} else {
			o, ok, note = s.word(e)
		}
		if note != "" {
			notes = append(notes, note)
		}
		if ok {
			o.sign = i
			if s.Kind == "number" {
				o.wild = wildness(o.x, o.sd)
			}
			obs = append(obs, o)
		}
	}
	return obs, append(notes, t.strangers(e)...)
}

// word finds the sign among answers, readings, what a list of compressions shows, and grades, in that order.
func (s Sign) word(e Evidence) (observation, bool, string) {
	text := s.noted(e)
	if text == "" {
		return observation{}, false, ""
	}
	text = strings.ReplaceAll(strings.ToLower(strings.TrimSpace(text)), " ", "_")
	if other, ok := s.Also[text]; ok {
		text = other
	}
	w := slices.Index(s.Words, text)
	if w < 0 {
		return observation{}, false, fmt.Sprintf("%s: %q is not understood, write one of %s", s.ID, text, strings.Join(s.Words, ", "))
	}
	return observation{word: w, text: s.Words[w], asBefore: s.asBefore(e)}, true, ""
}

func (s Sign) noted(e Evidence) string {
	if answer := e.Seen[s.ID]; answer != "" {
		return answer
	}
	if r, ok := reading(e.Readings, s.ID); ok {
		return r.Text
	}
	switch s.ID {
	case "compression_pattern":
		return compressionPattern(e)
	case "compression_wet":
		return compressionWet(e)
	}
	if i := slices.Index(symptomIDs[:], s.ID); i >= 0 {
		if g := e.Grades[i].Counts(); g != book.NotJudged {
			return grades[g-book.None]
		}
	}
	return ""
}

// asBefore tells whether the sign's word is a grade taken for none because it was there before.
func (s Sign) asBefore(e Evidence) bool {
	i := slices.Index(symptomIDs[:], s.ID)
	return i >= 0 && e.Seen[s.ID] == "" && e.Grades[i].AsBefore
}

// strangers notes answers to signs that the table does not know.
func (t *Table) strangers(e Evidence) []string {
	var notes []string
	for id := range e.Seen {
		if _, ok := t.sign[id]; !ok {
			notes = append(notes, fmt.Sprintf("%s: not a sign that is known here", id))
		}
	}
	slices.Sort(notes)
	return notes
}

// number finds the sign's departure from sound.
func (t *Table) number(s Sign, e Evidence) (observation, bool, string) {
	if s.ID == "fuel" {
		ok := quantity.Known(e.Excess) && quantity.Known(e.ExcessSD) && e.ExcessSD > 0
		return observation{x: e.Excess, sd: e.ExcessSD}, ok, ""
	}
	gauge, ok := gauges[s.ID]
	if !ok {
		gauge = plainGauge
	}
	r := gauge(s, e)
	return observation{x: r.departure, sd: r.sd, text: r.text}, r.known, r.note
}

package heron

import "math"

// tankNote is the tank's note in one line, written from memory at the pump.
func (p *pen) tankNote(row map[string]string, v visit) {
	all, town, short := 0.0, 0.0, 0.0
	paced := map[string]float64{}
	for _, l := range p.legs {
		all += l.miles
		paced[l.pace] += l.miles
		if l.road == "town" {
			town += l.miles
		}
		if l.miles < 8 {
			short += l.miles
		}
	}
	row["town_share"] = number(10 * math.Round(10*town/all))
	row["short_trips"] = "none"
	if short/all > 0.35 {
		row["short_trips"] = "most"
	} else if short/all > 0.04 {
		row["short_trips"] = "some"
	}
	row["pace"] = "usual"
	for _, pace := range []string{"easy", "brisk"} {
		if paced[pace] > all/2 {
			row["pace"] = pace
		}
	}
	state := feels[tuneOn(v.day)]
	row["weak_low"] = grades[state["weak_low"].usual()]
	row["weak_high"] = grades[state["weak_high"].usual()]
}

// usual is the grade that one remembers of many drives: the heaviest that came in a good third of them.
func (f feel) usual() int {
	share := 0.0
	for i := 2; i >= 0; i-- {
		if share += f[i]; share >= 0.35 {
			return i + 1
		}
	}
	return 0
}

// unwrittenDays counts the days of the tank on which the notebook was lost.
func unwrittenDays(legs []leg) int {
	n := 0
	for _, l := range legs {
		if isLost(l.day) {
			n++
		}
	}
	return n
}

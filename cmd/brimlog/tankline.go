package main

import (
	"fmt"
	"strconv"
	"strings"

	"brimlog/ingest/book"
)

// tankLine reads the note of a tank in one line, in any order, split by commas or not:
//
//	60 town, some short, brisk, weak low trace
//
// A number is the percent of the distance in town; none, some or most are short trips; easy, usual or brisk is the pace;
// low and high say how heavy a weak pull was there, and 'pulled well' that it was not. What is none of these becomes the
// note. Words that could be two things are refused.
func tankLine(text string) (cells book.Cells, err error) {
	cells = book.Cells{}
	var rest []string
	for part := range strings.FieldsFuncSeq(text, func(r rune) bool { return r == ',' || r == ';' }) {
		part = strings.TrimSpace(part)
		if part == "" {
			continue
		}
		words := strings.Fields(strings.ToLower(part))
		found, err := tankWords(words)
		if err != nil {
			return nil, err
		}
		if found == nil {
			rest = append(rest, part)
			continue
		}
		for column, value := range found {
			if was, twice := cells[column]; twice && was != value {
				return nil, fmt.Errorf("want each thing once, got %s as %s and as %s", spaced(column), was, value)
			}
			cells[column] = value
		}
	}
	if len(rest) > 0 {
		cells["note"] = strings.Join(rest, ", ")
	}
	return cells, nil
}

// tankWords reads a part of the line; nil where it is none of the line's words, so that it is a remark.
func tankWords(words []string) (book.Cells, error) {
	cells := book.Cells{}
	for len(words) > 0 {
		n := 0
		for _, take := range []func([]string, book.Cells) int{takeTown, takeShort, takePace, takePull} {
			if n = take(words, cells); n != 0 {
				break
			}
		}
		switch {
		case n < 0:
			return nil, fmt.Errorf("how heavy was the weak pull: want trace, moderate or heavy behind it, got %q", strings.Join(words, " "))
		case n == 0:
			return nil, nil
		}
		words = words[n:]
	}
	return cells, nil
}

// takeTown takes 60, 60%, 60 % town, 60 town, town 60, all town, no town or half town.
func takeTown(words []string, cells book.Cells) int {
	if len(words) > 1 && words[1] == "%" {
		n := takeTown(append([]string{words[0]}, words[2:]...), cells)
		return n + min(n, 1)
	}
	number, n := words[0], 1
	if len(words) > 1 && words[0] == "town" {
		number, n = words[1], 2
	} else if len(words) > 1 && words[1] == "town" {
		n = 2
	}
	number = strings.TrimSuffix(strings.TrimSuffix(number, "%"), "pct")
	if n == 2 {
		if x, ok := map[string]string{"all": "100", "only": "100", "no": "0", "none": "0", "half": "50"}[number]; ok {
			number = x
		}
	}
	x, err := strconv.ParseFloat(number, 64)
	if err != nil || !(x >= 0 && x <= 100) {
		return 0
	}
	cells["town_share"] = number
	return n
}

// takeShort takes some, some short, short some, most short trips, no short trips; none alone says nothing.
func takeShort(words []string, cells book.Cells) int {
	amount := map[string]string{"some": "some", "few": "some", "most": "most", "mostly": "most", "no": "none", "none": "none"}
	n := 1
	word := amount[words[0]]
	isShort := func(i int) bool { return len(words) > i && words[i] == "short" }
	switch {
	case isShort(0) && len(words) > 1 && amount[words[1]] != "":
		word, n = amount[words[1]], 2
	case word != "" && isShort(1):
		n = 2
	case word == "" || word == "none":
		return 0
	}
	if len(words) > n && (words[n] == "trips" || words[n] == "runs") {
		n++
	}
	cells["short_trips"] = word
	return n
}

func takePace(words []string, cells book.Cells) int {
	pace, ok := begins(words[0], paces)
	if !ok || pace != words[0] {
		return 0
	}
	cells["pace"] = pace
	if len(words) > 1 && words[1] == "pace" {
		return 2
	}
	return 1
}

var (
	paces  = []string{"easy", "usual", "brisk"}
	grades = []string{"none", "trace", "moderate", "heavy"}
)

// takePull takes weak low trace, low trace, weak high heavy, pulled well; -1 where the grade is missing.
func takePull(words []string, cells book.Cells) int {
	if words[0] == "pulled" || words[0] == "pulls" {
		if len(words) > 1 && (words[1] == "well" || words[1] == "fine") {
			cells["weak_low"], cells["weak_high"] = "none", "none"
			return 2
		}
		return 0
	}
	n := 0
	if words[0] == "weak" {
		n = 1
	}
	if len(words) <= n || words[n] != "low" && words[n] != "high" {
		return 0
	}
	if len(words) <= n+1 {
		return -1
	}
	g, ok := begins(words[n+1], grades)
	if !ok {
		return -1
	}
	cells["weak_"+words[n]] = g
	return n + 2
}

func spaced(column string) string { return strings.ReplaceAll(column, "_", " ") }

package main

import (
	"fmt"
	"strings"

	"brimlog/ingest/book"
)

// droveLine reads how it drove, in one line: symptoms with their grades, in any order, split by commas.
//
//	hesitation trace, heavy knock, else fine
//
// 'fine' alone means that nothing was the matter; hard_start_hot is left out of that, since few drives judge it. What is no
// symptom is refused: a remark has its own question.
func droveLine(text string) (book.Cells, error) {
	cells := book.Cells{}
	fine := false
	for part := range strings.FieldsFuncSeq(text, func(r rune) bool { return r == ',' || r == ';' }) {
		words := strings.Fields(strings.ToLower(part))
		switch joined := strings.Join(words, " "); joined {
		case "":
		case "fine", "well", "all fine", "else fine", "rest fine", "otherwise fine":
			fine = true
		default:
			symptom, grade, err := graded(words)
			if err != nil {
				return nil, err
			}
			cells[symptom] = grade
		}
	}
	for s := range book.SymptomCount {
		if _, told := cells[s.String()]; fine && !told && s != book.HardStartHot {
			cells[s.String()] = "none"
		}
	}
	return cells, nil
}

// graded parts a grade, first or last, from a symptom.
func graded(words []string) (symptom, grade string, err error) {
	for _, at := range []int{0, len(words) - 1} {
		g, ok := begins(words[at], grades)
		rest := append(append([]string{}, words[:at]...), words[at+1:]...)
		if s, known := book.ParseSymptom(strings.Join(rest, "_")); ok && known {
			return s.String(), g, nil
		}
	}
	if _, known := book.ParseSymptom(strings.Join(words, "_")); known {
		return "", "", fmt.Errorf("how heavy: want none, trace, moderate or heavy with %q", strings.Join(words, " "))
	}
	var all []string
	for s := range book.SymptomCount {
		all = append(all, spaced(s.String()))
	}
	return "", "", fmt.Errorf("want a symptom and how heavy, as in hesitation trace, got %q: the symptoms are %s", strings.Join(words, " "), strings.Join(all, ", "))
}

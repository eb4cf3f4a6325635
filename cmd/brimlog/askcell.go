package main

import (
	"errors"
	"fmt"
	"strings"

	"brimlog/ingest/book"
)

// asProblem finds what is wrong with a cell, and the correction where one stands out.
func asProblem(err error) (meant string, wrong error) {
	var p book.Problem
	if !errors.As(err, &p) {
		return "", err
	}
	if p.Suggestion != nil {
		meant = *p.Suggestion
	}
	return meant, errors.New(p.Message)
}

// ask puts one question about a column that was not given yet, and keeps the answer once the log understands it.
func (e *entry) ask(column, question, otherwise string) error {
	if e.has(column) {
		return nil
	}
	return e.talk.until(question, otherwise, func(text string) (string, error) {
		if column == "date" {
			text = e.day(text)
		}
		if text == "" {
			if e.needs(column) {
				return "", errors.New("this one is needed: write it, or stop with Ctrl-C")
			}
			return "", nil
		}
		if column == "area" {
			text = wholeAreas(text)
		}
		if err := book.Try(e.folder(), e.file, column, text); err != nil {
			return asProblem(err)
		}
		e.cells[column] = text
		return "", nil
	})
}

// needs tells whether a row is worth nothing without a column. The distance is asked for where no two readings tell it.
func (e *entry) needs(column string) bool {
	for _, c := range book.Columns(e.file) {
		if c.Name == column {
			return c.Needed || column == "distance"
		}
	}
	return false
}

// choose puts a question about a column of few words.
func (e *entry) choose(column, question string, words []string, otherwise string) error {
	if e.has(column) {
		return nil
	}
	word, err := e.talk.choose(question, words, otherwise)
	if word != "" {
		e.cells[column] = word
	}
	return err
}

// oneLine puts the question that takes several columns at once, and says how it was understood.
func (e *entry) oneLine(question string, lineOf func(string) (book.Cells, error)) error {
	return e.talk.until(question, "", func(text string) (string, error) {
		cells, err := lineOf(text)
		if err != nil {
			return "", err
		}
		for column, value := range cells {
			if err := book.Try(e.folder(), e.file, column, value); err != nil {
				return asProblem(err)
			}
		}
		if err := e.add(cells); err != nil {
			return "", err
		}
		if text != "" {
			e.talk.say("understood: %s", e.inOrder(cells))
		}
		return "", nil
	})
}

// inOrder writes cells in the order of the file's columns; many that are none are told together.
func (e *entry) inOrder(cells book.Cells) string {
	var parts []string
	none := 0
	for _, c := range book.Columns(e.file) {
		switch v, ok := cells[c.Name]; {
		case ok && v == "none" && len(cells) > 4:
			none++
		case ok:
			parts = append(parts, spaced(c.Name)+" "+v)
		}
	}
	if none > 0 {
		parts = append(parts, fmt.Sprintf("%d others none", none))
	}
	return strings.Join(parts, ", ")
}

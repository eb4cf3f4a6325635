package main

import (
	"bufio"
	"fmt"
	"slices"

	"brimlog/stats/suspect"
)

const (
	unsure = "don't know"
	enough = "enough"
)

// asker is who answers --ask: the owner at the terminal, else what is fed in. Questions go to standard error.
func (a *app) asker() *talk {
	if t := a.talker(); t != nil {
		return t
	}
	return &talk{bufio.NewReader(a.in), a.err}
}

// wanted offers the questions, where there is one worth asking.
func (t *talk) wanted(e suspect.Evidence) bool {
	if _, any := suspect.NextQuestion(e); !any {
		return false
	}
	fmt.Fprintln(t.w)
	answer, err := t.choose("be asked what would tell more?", []string{"yes", "no"}, "no")
	return err == nil && answer == "yes"
}

// ask asks the most telling question, takes the answer in, and asks the next one, until nothing more is worth asking, the
// owner has had enough, or something says stop. It gives what is known by then.
func (t *talk) ask(e suspect.Evidence) suspect.Evidence {
	for {
		q, any := suspect.NextQuestion(e)
		if !any {
			return e
		}
		answer, err := t.choose(q.Text, append(slices.Clone(q.Answers), unsure, enough), unsure)
		switch {
		case err != nil || answer == enough:
			return e
		case answer == unsure:
			answer = ""
		}
		if e = e.Answer(q, answer); answer != "" && suspect.Standard().MustStop(e) {
			return e
		}
	}
}

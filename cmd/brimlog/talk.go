package main

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"os"
	"strings"

	"golang.org/x/term"
)

// A talk asks the owner at the terminal. The rules of its questions:
//
//   - One line, lower case, what is wanted first, then how to write it; what Enter takes stands in brackets behind it.
//   - What cannot be used is said at once, and asked again; where one correction stands out, Enter takes it.
//   - A hyphen leaves out what stands in brackets. The end of input writes nothing.
type talk struct {
	lines *bufio.Reader
	w     io.Writer
}

// errEnded is the end of the owner's answers.
var errEnded = errors.New("the answers ended: nothing is written")

// talker is the owner at the terminal; nil where nobody can be asked. Questions go to standard error where they can be seen
// there, so that standard output keeps the answer.
func (a *app) talker() *talk {
	in, ok := a.in.(*os.File)
	switch {
	case !ok || !term.IsTerminal(int(in.Fd())):
		return nil
	case onTerminal(a.err):
		return &talk{bufio.NewReader(in), a.err}
	case onTerminal(a.out) && !a.json:
		return &talk{bufio.NewReader(in), a.out}
	}
	return nil
}

// line asks one question.
func (t *talk) line(question, otherwise string) (string, error) {
	if otherwise != "" {
		question += " [" + otherwise + "]"
	}
	fmt.Fprintf(t.w, "  %s: ", question)
	text, err := t.lines.ReadString('\n')
	if err != nil && (text == "" || !errors.Is(err, io.EOF)) {
		fmt.Fprintln(t.w)
		return "", errEnded
	}
	switch text = strings.TrimSpace(text); text {
	case "":
		return otherwise, nil
	case "-":
		return "", nil
	}
	return text, nil
}

// until asks until the answer can be used. take says what is wrong with it, and what was meant where that stands out.
func (t *talk) until(question, otherwise string, take func(text string) (meant string, err error)) error {
	for {
		text, err := t.line(question, otherwise)
		if err != nil {
			return err
		}
		meant, err := take(text)
		if err == nil {
			return nil
		}
		t.say("%v", err)
		if meant != "" {
			otherwise = meant
		}
	}
}

// choose asks for one of a few words, which may be cut short as long as only one is meant.
func (t *talk) choose(question string, words []string, otherwise string) (string, error) {
	chosen := ""
	err := t.until(question+" ("+strings.Join(words, ", ")+")", otherwise, func(text string) (string, error) {
		found := beginning(text, words)
		switch {
		case text == "":
			chosen = ""
		case len(found) == 1:
			chosen = found[0]
		case len(found) > 1:
			return "", fmt.Errorf("%q can be %s: write one more letter", text, strings.Join(found, " or "))
		default:
			return "", fmt.Errorf("want one of these words, or the beginning of one, got %q", text)
		}
		return "", nil
	})
	return chosen, err
}

// begins finds the one word that a text begins.
func begins(text string, words []string) (string, bool) {
	if found := beginning(text, words); len(found) == 1 {
		return found[0], true
	}
	return "", false
}

// beginning are the words that a text begins; the whole word goes before longer ones.
func beginning(text string, words []string) []string {
	var found []string
	for _, w := range words {
		if strings.EqualFold(w, text) {
			return []string{w}
		}
		if text != "" && len(w) > len(text) && strings.EqualFold(w[:len(text)], text) {
			found = append(found, w)
		}
	}
	return found
}

func (t *talk) say(format string, a ...any) {
	fmt.Fprintln(t.w, wrap(fmt.Sprintf(format, a...), "    "))
}

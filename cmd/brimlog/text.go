package main

// The rules of the terminal output:
//
//   - The answer first, in one sentence with a figure and how sure it is. Then why. Then the table.
//   - One unit a column, named in its heading; figures to the right, words to the left.
//   - A figure that is not known is a dash.
//   - Lines stay below 100 columns and wrap at words. Bold only on a terminal, and never without NO_COLOR's leave.

import (
	"fmt"
	"io"
	"math"
	"os"
	"strings"
	"unicode/utf8"

	"golang.org/x/term"

	"brimlog/ingest/book"
	"brimlog/ingest/quantity"
	"brimlog/stats"
)

const lineWidth = 92

// A sheet is text on its way to the terminal, in the owner's units.
type sheet struct {
	w                         io.Writer
	bold                      bool
	economy, distance, volume quantity.Unit
	currency                  string
}

func (a *app) sheet(s book.Show) *sheet {
	unit := func(name string, otherwise quantity.Unit) quantity.Unit {
		if u, ok := quantity.UnitNamed(name); ok {
			return u
		}
		return otherwise
	}
	return &sheet{
		w: a.out, bold: onTerminal(a.out) && os.Getenv("NO_COLOR") == "",
		economy: unit(s.Economy, quantity.LPer100Km), distance: unit(s.Distance, quantity.Km), volume: unit(s.Volume, quantity.Litre),
		currency: s.Currency,
	}
}

func onTerminal(w io.Writer) bool {
	f, ok := terminalOf(w)
	return ok && term.IsTerminal(int(f.Fd()))
}

// answer writes the first sentence, wrapped, bold on a terminal.
func (s *sheet) answer(format string, a ...any) {
	text := wrap(fmt.Sprintf(format, a...), "")
	if s.bold {
		text = "\x1b[1m" + text + "\x1b[0m"
	}
	fmt.Fprintln(s.w, text)
}

func (s *sheet) say(format string, a ...any) {
	fmt.Fprintln(s.w, wrap(fmt.Sprintf(format, a...), ""))
}

// point writes a reason, set in.
func (s *sheet) point(format string, a ...any) {
	fmt.Fprintln(s.w, "  · "+strings.TrimPrefix(wrap(fmt.Sprintf(format, a...), "    "), "    "))
}

func (s *sheet) gap() { fmt.Fprintln(s.w) }

// table writes rows under a heading; a heading that ends in a blank is of words, set to the left.
func (s *sheet) table(heading []string, rows [][]string) {
	width := make([]int, len(heading))
	all := append([][]string{heading}, rows...)
	for _, r := range all {
		for i, c := range r {
			width[i] = max(width[i], utf8.RuneCountInString(strings.TrimSuffix(c, " ")))
		}
	}
	for _, r := range all {
		for i, c := range r {
			c = strings.TrimSuffix(c, " ")
			pad := strings.Repeat(" ", width[i]-utf8.RuneCountInString(c))
			if strings.HasSuffix(heading[i], " ") {
				c += pad
			} else {
				c = pad + c
			}
			if i > 0 {
				c = "  " + c
			}
			fmt.Fprint(s.w, c)
		}
		fmt.Fprintln(s.w)
	}
}

// of writes L/100 km in the owner's unit, without its label.
func (s *sheet) of(l stats.Figure) string { return quantity.FormatNumber(float64(l), s.economy) }

// span writes a range of L/100 km in the owner's unit, the smaller figure first.
func (s *sheet) span(r stats.Range) string {
	a, b := s.of(r.Low), s.of(r.High)
	if s.economy.MoreIsBetter() {
		a, b = b, a
	}
	return a + " to " + b
}

func percent(f stats.Figure) string {
	if !quantity.Known(float64(f)) {
		return "–"
	}
	x := unsigned(float64(f), 1)
	if x == 0 {
		return "0.0 %"
	}
	return fmt.Sprintf("%+.1f %%", x)
}

// unsigned is x, or a nought without a sign where it is written as one.
func unsigned(x float64, decimals int) float64 {
	if math.Abs(x) < 0.5*math.Pow10(-decimals) {
		return 0
	}
	return x
}

func number(f stats.Figure, decimals int) string {
	if !quantity.Known(float64(f)) {
		return "–"
	}
	return fmt.Sprintf("%.*f", decimals, unsigned(float64(f), decimals))
}

func share(f stats.Figure) string {
	if !quantity.Known(float64(f)) {
		return "–"
	}
	return fmt.Sprintf("%.0f %%", 100*float64(f))
}

// wrap breaks a text at words.
func wrap(text, indent string) string {
	var b strings.Builder
	n := 0
	for i, w := range strings.Fields(text) {
		k := utf8.RuneCountInString(w)
		switch {
		case i == 0:
			b.WriteString(indent)
			n = len(indent)
		case n+1+k > lineWidth:
			b.WriteString("\n" + indent)
			n = len(indent)
		default:
			b.WriteByte(' ')
			n++
		}
		b.WriteString(w)
		n += k
	}
	return b.String()
}

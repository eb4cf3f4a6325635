package book

import "strings"

// A spreadsheet takes a cell that begins with one of these for a formula.
const formulaSigns = "=+-@\t\r"

// guarded writes text so that a spreadsheet leaves it alone: an apostrophe goes before a sign of a formula. One more goes
// before text that already begins like that, so that plainText gives back exactly what went in.
func guarded(text string) string {
	if likeFormula(text) {
		return "'" + text
	}
	return text
}

// plainText takes off the apostrophe that guarded put there.
func plainText(text string) string {
	if strings.HasPrefix(text, "'") && likeFormula(text) {
		return text[1:]
	}
	return text
}

// likeFormula tells whether a sign of a formula comes first, or after apostrophes alone.
func likeFormula(text string) bool {
	rest := strings.TrimLeft(text, "'")
	return rest != "" && strings.IndexByte(formulaSigns, rest[0]) >= 0
}

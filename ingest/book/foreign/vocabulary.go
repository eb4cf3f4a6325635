package foreign

import (
	_ "embed"
	"strings"
	"sync"
	"unicode"

	"golang.org/x/text/unicode/norm"

	"brimlog/ingest/book"
)

//go:embed headings.txt
var headingWords string

// reckoned is the name that headings.txt gives to columns that the program works out anew.
const reckoned = "reckoned"

// vocabulary is what headings mean in a file: folded words to the columns that they may stand for.
var vocabulary = sync.OnceValue(func() map[string]map[string][]string {
	v := map[string]map[string][]string{book.FillsFile: {}, book.TripsFile: {}, book.WorkFile: {}}
	for line := range strings.Lines(headingWords) {
		head, words, ok := strings.Cut(line, ":")
		file, columns, both := strings.Cut(head, " ")
		if !ok || !both || strings.HasPrefix(head, "#") {
			continue
		}
		for name := range v {
			if file != "any" && file+".csv" != name {
				continue
			}
			for word := range strings.SplitSeq(words, ",") {
				v[name][fold(word)] = strings.Split(columns, "|")
			}
		}
	}
	return v
})

// letters that Unicode does not take apart.
var plainLetters = strings.NewReplacer("ß", "ss", "ø", "o", "æ", "ae", "œ", "oe", "ł", "l", "đ", "d", "ð", "d", "þ", "th", "ı", "i")

// signs are what stands for a word in a heading.
var signs = strings.NewReplacer("/", " per ", "÷", " per ", "°", " deg ", "%", " pct ",
	"£", " "+money+" ", "€", " "+money+" ", "$", " "+money+" ", "¥", " "+money+" ", "zł", " "+money+" ")

// money stands for any currency sign.
const money = "¤"

// fold makes small plain letters and digits of a text, one blank between words.
func fold(text string) string {
	text = plainLetters.Replace(strings.ToLower(signs.Replace(text)))
	var b strings.Builder
	gap := false
	for _, r := range norm.NFKD.String(text) {
		switch {
		case unicode.Is(unicode.Mn, r) || r == '\'' || r == '’' || r == '.':
			gap = gap || r == '.'
		case unicode.IsLetter(r) || unicode.IsDigit(r) || string(r) == money:
			if gap && b.Len() > 0 {
				b.WriteByte(' ')
			}
			gap = false
			b.WriteRune(r)
		default:
			gap = true
		}
	}
	return b.String()
}

package foreign

import (
	_ "embed"
	"strings"
	"sync"
)

//go:embed words.txt
var cellWords string

// answer is the name that words.txt gives to yes and no, whatever the column.
const answer = "answer"

// translations are the words of cells: by column, folded, to the logbook's word.
var translations = sync.OnceValue(func() map[string]map[string]string {
	t := map[string]map[string]string{}
	for line := range strings.Lines(cellWords) {
		head, words, ok := strings.Cut(line, ":")
		column, own, both := strings.Cut(head, " ")
		if !ok || !both || strings.HasPrefix(head, "#") {
			continue
		}
		if t[column] == nil {
			t[column] = map[string]string{}
		}
		for word := range strings.SplitSeq(words, ",") {
			t[column][word1(word)] = own
		}
	}
	return t
})

// word1 folds a cell's word; a sign that is no letter stays as it is.
func word1(text string) string {
	if f := fold(text); f != "" {
		return f
	}
	return strings.TrimSpace(text)
}

// translate gives the logbook's word for a cell's; ok is false where none is known.
func translate(column, text string) (own string, ok bool) {
	words := translations()[column]
	if own, ok = words[text]; !ok && words != nil {
		own, ok = words[word1(text)]
	}
	return own, ok
}

// totalWords begin a row of totals, folded.
var totalWords = wordSet("total,totals,grand total,sub total,subtotal,sum,sums,summe,gesamt,gesamtsumme,zwischensumme,insgesamt,summa,totalt,somme," +
	"totaal,totale,suma,razem,average,averages,mean,avg,durchschnitt,schnitt,moyenne,medel,genomsnitt,snitt,gemiddeld,media,promedio,srednia," +
	"minimum,maximum,min,max,count,anzahl,nombre,antal")

// totals tells whether a cell names a total: its first word, or the whole of it.
func totals(cell string) bool {
	folded := fold(cell)
	first, _, _ := strings.Cut(folded, " ")
	return totalWords[folded] || totalWords[first]
}

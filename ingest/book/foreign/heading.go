package foreign

import (
	"regexp"
	"slices"
	"strings"
	"sync"

	"brimlog/ingest/book"
	"brimlog/ingest/quantity"
)

// A meaning is what a heading says of its column.
type meaning struct {
	columns []string // that it may stand for; none where the heading is not understood
	unit    scale    // of its figures
	each    scale    // of a price: what it buys
	cents   bool     // of a price: it is in hundredths
	order   string   // of a date: dmy, mdy or ymd
}

func (m meaning) understood() bool { return len(m.columns) > 0 }

// Columns of a sheet that lead to columns of the logbook, or away from them.
const (
	dateColumn     = "date"
	timeColumn     = "time"
	odometerColumn = "odometer"
	distanceColumn = "distance"
	volumeColumn   = "volume"
	priceColumn    = "price"
	costColumn     = "cost"
	fuelColumn     = "fuel"
	fullColumn     = "full"
	partialColumn  = "partial"
)

// datePattern is how people write the order of a date into a heading; dateOrders are their letters in several languages.
var (
	datePattern = regexp.MustCompile(`(?i)(?:^|\PL)([dtj]{1,2}|m{1,2}|[yjaå]{2,4})[-/. ]+([dtj]{1,2}|m{1,2})[-/. ]+([dtj]{1,2}|m{1,2}|[yjaå]{2,4})(?:$|\PL)`)
	dateOrders  = map[string]string{"dmy": "dmy", "mdy": "mdy", "ymd": "ymd", "tmj": "dmy", "jmt": "ymd", "jma": "dmy", "amj": "ymd",
		"dmj": "dmy", "jmd": "ymd", "dma": "dmy", "åmd": "ymd", "dmå": "dmy"}
)

// orderIn finds the order of a date in a text, and takes it out.
func orderIn(text string) (order, rest string) {
	m := datePattern.FindStringSubmatchIndex(text)
	if m == nil {
		return "", text
	}
	var letters []rune
	for i := 2; i < len(m); i += 2 {
		letters = append(letters, []rune(strings.ToLower(text[m[i]:m[i+1]]))[0])
	}
	if order = dateOrders[string(letters)]; order == "" {
		return "", text
	}
	return order, text[:m[0]] + " " + text[m[1]:]
}

// A phrase is a heading taken apart.
type phrase struct {
	whole, rest string // all of it, and what is left without units and money
	units       []scale
	each        scale
	money, cent bool
	hundred     bool
}

func takeApart(heading string) phrase {
	words := strings.Fields(fold(heading))
	p := phrase{whole: strings.Join(words, " ")}
	var rest []string
	for i := 0; i < len(words); i++ {
		unit, n := unitAt(words, i)
		next, m := unitAt(words, i+1)
		switch {
		case n > 0:
			p.units = append(p.units, unit)
			i += n - 1
		case per[words[i]] && m > 0:
			p.each = next
			i += m
		case moneyWords[words[i]]:
			p.money = true
		case hundredths[words[i]]:
			p.cent = true
		case words[i] == "ppl":
			p.cent, p.each = true, scale{unit: quantity.Litre}
		case strings.HasPrefix(words[i], "100"):
			p.hundred = true
		default:
			rest = append(rest, words[i])
		}
	}
	p.rest = strings.Join(rest, " ")
	return p
}

// means reads a heading of a sheet that is to go into a file.
func means(file, heading string) meaning {
	order, heading := orderIn(heading)
	p := takeApart(heading)
	m := meaning{order: order, each: p.each, cents: p.cent}
	if len(p.units) > 0 {
		m.unit = p.units[0]
	}
	rated := p.each.known() && (len(p.units) > 0 || p.each.unit.Quantity() != "volume")
	switch {
	case p.whole == "" && order != "":
		m.columns = []string{dateColumn}
	case p.whole == "":
	case len(p.units) > 1 || rated || p.hundred:
		m.columns = []string{reckoned}
	case p.each.known():
		m.columns = p.rate(file)
	default:
		m.columns = p.columns(file, m.unit.unit)
	}
	switch {
	case len(m.columns) == 0:
		return meaning{}
	case slices.Contains(m.columns, reckoned):
		return meaning{columns: []string{reckoned}}
	}
	return m
}

// unitsIn reads the units alone of a heading whose words are not understood.
func unitsIn(heading string) meaning {
	order, heading := orderIn(heading)
	p := takeApart(heading)
	m := meaning{order: order, each: p.each, cents: p.cent}
	if len(p.units) == 1 {
		m.unit = p.units[0]
	}
	return m
}

// rate is a heading that is so much per litre or gallon.
func (p phrase) rate(file string) []string {
	for _, c := range append(vocabulary()[file][p.rest], "") {
		if file == book.FillsFile && (c == priceColumn || c == costColumn || p.rest == "") {
			return []string{priceColumn}
		}
	}
	return nil
}

// sums are words that mean money where a currency stands beside them.
var sums = wordSet("total,totals,amount,sum,summe,gesamt,summa,totalt,somme,totaal,totale,razem")

// columns are those that the words name and the unit allows.
func (p phrase) columns(file string, unit quantity.Unit) []string {
	columns := vocabulary()[file][p.whole]
	if columns == nil {
		columns = vocabulary()[file][p.rest]
	}
	switch {
	case columns == nil && p.rest == "":
		columns = p.bare(file, unit)
	case columns == nil && p.money && sums[p.rest]:
		columns = []string{costColumn}
	}
	if unit == quantity.Number {
		return columns
	}
	return slices.DeleteFunc(slices.Clone(columns), func(c string) bool { return c != reckoned && quantityOf(file, c) != unit.Quantity() })
}

// bare is what a unit or a currency means that has no word with it.
func (p phrase) bare(file string, unit quantity.Unit) []string {
	switch {
	case unit.Quantity() == "volume" && file == book.FillsFile:
		return []string{volumeColumn}
	case unit.Quantity() == "temperature" && file == book.TripsFile:
		return []string{"air"}
	case unit.Quantity() == "speed" && file == book.TripsFile:
		return []string{"cruise"}
	case unit.Quantity() == "distance" && file == book.TripsFile:
		return []string{distanceColumn}
	case unit.Quantity() == "distance" && file == book.FillsFile:
		return []string{odometerColumn, distanceColumn}
	case unit.Quantity() == "time" && file == book.WorkFile:
		return []string{"hours"}
	case p.money && file == book.FillsFile:
		return []string{priceColumn, costColumn}
	case p.money && file == book.WorkFile:
		return []string{costColumn}
	}
	return nil
}

// quantityOf is what a column measures.
func quantityOf(file, column string) string { return unitFor(file, column).Quantity() }

// unitFor is the base unit of a column's figures; Number where it has none.
func unitFor(file, column string) quantity.Unit { return columnUnits()[file][column] }

var columnUnits = sync.OnceValue(func() map[string]map[string]quantity.Unit {
	units := map[string]map[string]quantity.Unit{}
	for _, file := range []string{book.FillsFile, book.TripsFile, book.WorkFile} {
		units[file] = map[string]quantity.Unit{}
		for _, c := range book.Columns(file) {
			units[file][c.Name] = c.Unit
		}
	}
	units[book.FillsFile][distanceColumn] = quantity.Km // only in foreign sheets
	return units
})

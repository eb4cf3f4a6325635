package book

import (
	"path/filepath"
	"strings"

	"brimlog/ingest/quantity"
)

// A Column is what one can ask an owner to fill in.
type Column struct {
	Name   string        // without its unit: odometer, volume, idle_min
	Unit   quantity.Unit // a base unit where the column's name carries a unit or its cells may; else Number
	Words  []string      // the words that its cells may hold; nil where any text or figure goes
	Needed bool          // a row is in error without it
}

// columnWords are the words of the columns that take no others.
var columnWords = map[string][]string{"full": yesWords[:2], "missed": yesWords[:2], "short_trips": shortWords, "pace": paceWords,
	"road": roadWords, "kind": kindWords, "weak_low": gradeWords, "weak_high": gradeWords}

// Columns are the columns of fills.csv, trips.csv or work.csv in their usual order; nil for any other file.
func Columns(file string) []Column {
	f, err := formOf(file)
	if err != nil {
		return nil
	}
	var columns []Column
	for _, name := range f.columnNames() {
		stem := strings.TrimSuffix(name, "_*")
		info := f.lookup(name)
		c := Column{Name: stem, Unit: info.unit.Base(), Words: columnWords[stem], Needed: info.needed}
		if _, graded := ParseSymptom(stem); graded {
			c.Words = gradeWords
		}
		columns = append(columns, c)
	}
	return columns
}

// Header is the header of a file of the logbook as it stands, or as Append would begin it.
func Header(dir, file string) ([]string, error) {
	f, err := formOf(file)
	if err != nil {
		return nil, err
	}
	data, err := load(dir, file)
	if err != nil {
		return nil, err
	}
	l, err := newLayout(file, data)
	if err != nil || l.header != nil {
		return l.header, err
	}
	return unitsOf(osDisk{}, filepath.Clean(dir)).header(f), nil
}

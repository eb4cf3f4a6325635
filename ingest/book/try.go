package book

import "slices"

// Try tells whether Read would understand a cell, for asking an owner one cell after another. The error is what Append would
// say of the cell, a Problem with its suggestion where the cell as such is wrong; the rest of the row is not judged.
func Try(dir, file, column, text string) error {
	l, f, units, err := openLayout(dir, file)
	if err != nil {
		return err
	}
	if l.header == nil {
		l.begin(units().header(f))
	}
	c := newComposer(f, l.header, units)
	fitted, err := c.fit(Cells{column: text})
	if err != nil {
		return err
	}
	row := make([]string, len(c.names))
	for i, text := range fitted {
		row[i] = text
	}
	date := slices.Index(c.names, "date")
	if _, asked := fitted[date]; !asked && date >= 0 {
		row[date] = "2000-01-01" // a row without a date is not read to its end
	}
	line, _ := l.next()
	for _, p := range f.decode(&Book{}, l.pass(f, c.names, 0), c.names, row, Place{file, line}) {
		if text := fitted[slices.Index(c.names, p.Column)]; text != "" {
			return p
		}
	}
	return nil
}

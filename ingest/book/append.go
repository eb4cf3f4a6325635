package book

import (
	"fmt"
	"path/filepath"
	"slices"
	"strings"
)

// Append adds rows to the end of a file of the logbook, all of them or none, and gives the line of the first. Without
// an error the rows are on the disk and outlive a power cut; with an error the file is as it was. A cell that Read would
// not understand is refused. A file that is not there is begun, a column that is missing is added.
func Append(dir, file string, rows ...Cells) (line int, err error) {
	return appendTo(osDisk{}, dir, file, rows)
}

// Draft reads rows as if they had been added, without adding them: what Append would refuse is an error, what it would let
// pass is in the Problems of the book, which holds these rows alone. The line is where they would stand.
func Draft(dir, file string, rows ...Cells) (*Book, error) {
	d := osDisk{}
	f, err := formOf(file)
	if err != nil {
		return nil, err
	}
	path, err := d.resolve(filepath.Join(dir, file))
	if err != nil {
		return nil, refuse(file, err)
	}
	data, err := load(filepath.Dir(path), filepath.Base(path))
	if err != nil {
		return nil, err
	}
	l, err := newLayout(file, data)
	if err != nil {
		return nil, err
	}
	_, b, err := compose(l, f, func() Units { return unitsOf(d, dir) }, rows)
	return b, err
}

func appendTo(d disk, dir, file string, rows []Cells) (line int, err error) {
	f, err := formOf(file)
	if err != nil {
		return 0, err
	}
	if len(rows) == 0 {
		return 0, fmt.Errorf("%s: want a row to add, got none", file)
	}
	err = change(d, dir, file, func(t *target) ([]byte, error) {
		l, err := newLayout(file, t.old)
		if err != nil {
			return nil, err
		}
		written, _, err := compose(l, f, func() Units { return unitsOf(d, dir) }, rows)
		if err != nil {
			return nil, err
		}
		var text string
		text, line = l.append(written)
		return l.bytes(), remember(t, dir, addition{file, line, len(rows), text})
	})
	return line, err
}

// compose fits rows into the file's columns, which grow where they have to, and reads them back to see that Read will
// understand them.
func compose(l *layout, f form, units func() Units, rows []Cells) (written [][]string, b *Book, err error) {
	if l.header == nil {
		l.begin(units().header(f))
	}
	if err := f.checkHeader(l.header); err != nil {
		return nil, nil, err
	}
	c := newComposer(f, l.header, units)
	for _, cells := range rows {
		fitted, err := c.fit(cells)
		if err != nil {
			return nil, nil, err
		}
		row := make([]string, len(c.names))
		for i, text := range fitted {
			row[i] = text
		}
		written = append(written, row)
	}
	for i := range written { // columns may have come with a later row
		written[i] = append(written[i], make([]string, len(c.names)-len(written[i]))...)
	}
	if len(c.added) > 0 {
		l.widen(c.added)
	}
	b, err = readBack(l, f, c.names, written)
	return written, b, err
}

// readBack decodes rows that are to be added; the first that cannot be used is the error.
func readBack(l *layout, f form, names []string, rows [][]string) (*Book, error) {
	b, p := &Book{}, l.pass(f, names, 0)
	line, _ := l.next()
	for _, cells := range rows {
		if strings.Join(cells, "") == "" {
			return nil, lineProblem(l.file, line, "want a row with something in it, got an empty one")
		}
		if bad := f.decode(b, p, names, cells, Place{l.file, line}); len(bad) > 0 {
			return nil, bad[0]
		}
		line += 1 + strings.Count(strings.Join(cells, ""), "\n")
	}
	return b, nil
}

// pass is what the rows that are there, but for the one in a line, mean for reading another: the ids that jobs have.
func (l *layout) pass(f form, names []string, but int) *pass {
	p := newPass()
	p.begin(names)
	id := slices.Index(names, "id")
	if id < 0 || f.fileName() != WorkFile {
		return p
	}
	l.rows(func(s span) bool {
		if id < len(s.cells) && s.line != but {
			p.ids[strings.TrimSpace(plainText(strings.TrimSpace(s.cells[id])))] = true
		}
		return true
	})
	return p
}

// begin writes the header of a new file.
func (l *layout) begin(header []string) {
	l.header = header
	l.data = append([]byte(join(header)), l.eol...)
	l.body = len(l.data)
}

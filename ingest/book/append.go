package book

import (
	"errors"
	"fmt"
	"iter"
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

func appendTo(d disk, dir, file string, rows []Cells) (line int, err error) {
	line, _, err = appendAll(d, dir, file, "", each(rows))
	return line, err
}

// Stamp tells a file's content from any other: what was judged by it can be written by AppendAt, as long as nobody came between.
func Stamp(dir, file string) (string, error) {
	if _, err := formOf(file); err != nil {
		return "", err
	}
	data, err := load(dir, file)
	return sum(data), err
}

// ErrChanged is what AppendAt ends in when the file is not the one any more that the stamp is of.
var ErrChanged = errors.New("another program has just changed the file: look at it again")

// AppendAt is Append for rows that were judged by the file as it was at a stamp.
func AppendAt(dir, file, stamp string, rows ...Cells) (line int, err error) {
	line, _, err = appendAll(osDisk{}, dir, file, stamp, each(rows))
	return line, err
}

// AppendAll is Append for as many rows as a sequence gives, of which it holds one at a time; the sequence may hand over
// the same Cells again and again. It is asked for them under the file's lock. The first error of the sequence ends it,
// and nothing is added.
func AppendAll(dir, file string, rows iter.Seq2[Cells, error]) (line, n int, err error) {
	return appendAll(osDisk{}, dir, file, "", rows)
}

func appendAll(d disk, dir, file, stamp string, rows iter.Seq2[Cells, error]) (line, n int, err error) {
	f, err := formOf(file)
	if err != nil {
		return 0, 0, err
	}
	err = change(d, dir, file, func(t *target) ([]byte, error) {
		if stamp != "" && sum(t.old) != stamp {
			return nil, fmt.Errorf("%s: %w", file, ErrChanged)
		}
		l, err := newLayout(file, t.old)
		if err != nil {
			return nil, err
		}
		a, err := l.add(f, func() Units { return unitsOf(d, dir) }, rows, nil)
		if err != nil {
			return nil, err
		}
		if len(l.data) > largestFile {
			return nil, fmt.Errorf("%s: want at most %d MiB with the new rows, got %d MiB: split the logbook",
				file, largestFile>>20, len(l.data)>>20)
		}
		line, n, t.deed = a.Line, a.Rows, a
		return l.bytes(), nil
	})
	return line, n, err
}

// ErrNoRow is what Append and AppendAll end in when there is nothing to add.
var ErrNoRow = errors.New("want a row to add, got none")

// DraftAll does what AppendAll does, but for the lock and the writing.
func DraftAll(dir, file string, rows iter.Seq2[Cells, error]) (line, n int, err error) {
	l, f, units, err := openLayout(dir, file)
	if err != nil {
		return 0, 0, err
	}
	a, err := l.add(f, units, rows, nil)
	if err != nil {
		return 0, 0, err
	}
	return a.Line, a.Rows, nil
}

// Draft reads rows as if they had been added, without adding them: what Append would refuse is an error, what it would let
// pass is in the Problems of the book, which holds these rows alone. The line is where they would stand.
func Draft(dir, file string, rows ...Cells) (*Book, error) {
	l, f, units, err := openLayout(dir, file)
	if err != nil {
		return nil, err
	}
	b := &Book{}
	_, err = l.add(f, units, each(rows), b)
	return b, err
}

// openLayout reads a file to look at it, not to change it.
func openLayout(dir, file string) (l *layout, f form, units func() Units, err error) {
	d := osDisk{}
	if f, err = formOf(file); err != nil {
		return nil, nil, nil, err
	}
	path, err := d.resolve(filepath.Join(dir, file))
	if err != nil {
		return nil, nil, nil, refuse(file, err)
	}
	data, err := load(filepath.Dir(path), filepath.Base(path))
	if err != nil {
		return nil, nil, nil, err
	}
	l, err = newLayout(file, data)
	return l, f, func() Units { return unitsOf(d, dir) }, err
}

func each(rows []Cells) iter.Seq2[Cells, error] {
	return func(yield func(Cells, error) bool) {
		for _, cells := range rows {
			if !yield(cells, nil) {
				return
			}
		}
	}
}

// add puts rows behind the last one, and columns behind the last one where the rows need them. Every row is read back as
// Read will read it; into keep, where there is one.
func (l *layout) add(f form, units func() Units, rows iter.Seq2[Cells, error], keep *Book) (*deed, error) {
	if l.header == nil {
		l.begin(units().header(f))
	}
	if err := f.checkHeader(l.header); err != nil {
		return nil, err
	}
	w := &writer{layout: l, form: f, composer: newComposer(f, l.header, units), keep: keep}
	w.pass = l.pass(f, w.composer.names, 0)
	var open bool
	w.line, open = l.next()
	a := &deed{Did: Added, File: l.file, Line: w.line}
	from := len(l.data)
	for cells, err := range rows {
		if err == nil {
			err = w.write(cells, open)
		}
		if err != nil {
			return nil, err
		}
		a.Rows++
	}
	if a.Rows == 0 {
		return nil, fmt.Errorf("%s: %w", l.file, ErrNoRow)
	}
	if added := w.composer.added; len(added) > 0 {
		l.widen(added)
		s, err := l.at(a.Line)
		if err != nil {
			return nil, err
		}
		from = s.from
	} else if open {
		from += len(l.eol)
	}
	a.seal(strings.TrimSuffix(string(l.data[from:]), l.eol))
	return a, nil
}

// A writer writes one row after another.
type writer struct {
	*layout
	form     form
	composer *composer
	pass     *pass
	keep     *Book
	line     int // of the next row
}

// write fits a row into the file's columns, reads it back to see that Read will understand it, and puts it at the end,
// which stays without a line end if it was.
func (w *writer) write(cells Cells, open bool) error {
	fitted, err := w.composer.fit(cells)
	if err != nil {
		return err
	}
	if n := len(w.composer.names); n > len(w.pass.header) {
		w.pass.begin(w.composer.names[:n:n])
	}
	row := make([]string, len(w.composer.names))
	for i, text := range fitted {
		row[i] = text
	}
	text := join(row)
	if strings.Trim(text, ",") == "" {
		return lineProblem(w.file, w.line, "want a row with something in it, got an empty one")
	}
	b := w.keep
	if b == nil {
		b = &Book{}
	}
	if bad := w.form.decode(b, w.pass, w.composer.names, row, Place{w.file, w.line}); len(bad) > 0 {
		return bad[0]
	}
	if open {
		w.data = append(w.data, w.eol...)
	}
	w.data = append(w.data, text...)
	if !open {
		w.data = append(w.data, w.eol...)
	}
	w.line += 1 + strings.Count(text, "\n")
	return nil
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
			if given := strings.TrimSpace(plainText(strings.TrimSpace(s.cells[id]))); p.ids[given] == 0 {
				p.ids[given] = s.line
			}
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

package foreign

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"strings"
)

// A sheet is a table of text whose headings were found.
type sheet struct {
	file      string // its name, for messages
	text      []byte
	encoding  string
	separator rune
	before    int      // lines in front of text: a line that names the separator
	headings  []string // as written, trimmed
	headLine  int
	first     int // the record, from 0, with which the rows begin
}

// separators are what may stand between cells, and their names.
var separators = []struct {
	mark rune
	name string
}{{',', "comma"}, {';', "semicolon"}, {'\t', "tab"}, {'|', "bar"}}

func (s *sheet) separatorName() string {
	for _, x := range separators {
		if x.mark == s.separator {
			return x.name
		}
	}
	return string(s.separator)
}

// openSheet decodes a sheet and finds its separator and headings: those of which most are understood. The judge counts the
// headings that it understands, a date among them twice.
func openSheet(file string, data []byte, judge func(cells []string) int) (*sheet, error) {
	text, encoding, err := decode(file, data)
	if err != nil {
		return nil, err
	}
	s := &sheet{file: file, text: text, encoding: encoding}
	tried := separators
	if named := s.takeSeparator(); named != 0 {
		tried = tried[:0:0]
		for _, x := range separators {
			if x.mark == named {
				tried = append(tried, x)
			}
		}
	}
	best, nearest := 0, []string(nil)
	for _, x := range tried {
		score, at := s.headingsBy(x.mark, judge)
		switch {
		case score > best:
			best, s.separator, s.headings, s.headLine, s.first = score, x.mark, at.cells, at.line, at.record+1
		case score == 0 && len(at.cells) > len(nearest):
			nearest = at.cells
		}
	}
	n := 0
	for _, h := range s.headings {
		if h != "" {
			n++
		}
	}
	switch {
	case best == 0:
		return nil, s.noHeadings(nearest)
	case n > mostColumns:
		return nil, refuse(s.file, s.headLine, "", "want at most %d headings, got %d: is it the right sheet?", mostColumns, n)
	}
	return s, nil
}

// takeSeparator takes off a first line that names the separator: sep=;
func (s *sheet) takeSeparator() rune {
	line, rest, _ := bytes.Cut(s.text, []byte("\n"))
	mark, ok := bytes.CutPrefix(bytes.ToLower(bytes.Trim(line, "\"\r ")), []byte("sep="))
	if !ok || len(mark) != 1 {
		return 0
	}
	s.text, s.before = rest, 1
	return rune(mark[0])
}

func (s *sheet) noHeadings(seen []string) error {
	line := 1 + s.before
	if len(seen) == 0 {
		return refuse(s.file, line, "", "want a table with a row of headings, got none: save the sheet as CSV, with its headings")
	}
	return refuse(s.file, line, "", "want a row of headings with a date and what goes with it, got none in the first %d rows: "+
		"write headings over the columns, or name them with --map column=heading", headRows)
}

// headRows is how deep the headings may stand: titles and notes come before them.
const headRows = 40

// mostColumns bounds the headings: far beyond any owner's sheet.
const mostColumns = 200

type headRow struct {
	cells        []string
	line, record int
}

// headingsBy finds the best row of headings when the sheet is split by a separator; where there is none, the widest row.
func (s *sheet) headingsBy(separator rune, judge func([]string) int) (score int, at headRow) {
	r := s.reader(separator)
	for record := range headRows {
		cells, err := r.Read()
		if err != nil {
			break
		}
		line, _ := r.FieldPos(0)
		found := headRow{trimmed(cells), line + s.before, record}
		if n := judge(found.cells); n > score {
			score, at = n, found
		} else if score == 0 && len(cells) > len(at.cells) {
			at = found
		}
	}
	return score, at
}

func (s *sheet) reader(separator rune) *csv.Reader {
	r := csv.NewReader(bytes.NewReader(s.text))
	r.Comma, r.FieldsPerRecord, r.ReuseRecord = separator, -1, true
	return r
}

// each visits the records behind the headings, cells trimmed. The cells are good until the next one.
func (s *sheet) each(visit func(line int, cells []string) error) error {
	r := s.reader(s.separator)
	for record := 0; ; record++ {
		cells, err := r.Read()
		if err == io.EOF {
			return nil
		}
		if err != nil {
			return s.spoiled(err)
		}
		if record < s.first {
			continue
		}
		line, _ := r.FieldPos(0)
		for i, c := range cells {
			cells[i] = trim(c)
		}
		if err := visit(line+s.before, cells); err != nil {
			return err
		}
	}
}

// spoiled words what is no CSV.
func (s *sheet) spoiled(err error) error {
	var wrong *csv.ParseError
	if !errors.As(err, &wrong) {
		return fmt.Errorf("%s: cannot be read: %w", s.file, err)
	}
	what := `want a closing quote at the end of the cell, got none or one too early: close it, and double quotes inside ("")`
	if errors.Is(wrong.Err, csv.ErrBareQuote) {
		what = `want quotes around the whole cell, got one inside it: put quotes around the cell and double the one inside ("")`
	}
	return refuse(s.file, wrong.StartLine+s.before, "", "%s", what)
}

// trim takes blanks of all kinds off a cell.
func trim(cell string) string { return strings.TrimFunc(cell, blank) }

func blank(r rune) bool {
	return r == ' ' || r == '\t' || r == '\n' || r == '\r' || r == '\u00a0' || r == '\u202f' || r == '\u2009' || r == '\u2007' || r == '\ufeff' || r == '\u200b'
}

func trimmed(cells []string) []string {
	out := make([]string, len(cells))
	for i, c := range cells {
		out[i] = trim(c)
	}
	return out
}

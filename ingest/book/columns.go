package book

import (
	"bytes"
	"io"
	"slices"
	"strings"

	"brimlog/ingest/quantity"
)

// A column is what one column of a file means for a row of type R.
type column[R any] struct {
	name   string        // as people know it; a star stands for any unit of the quantity
	unit   quantity.Unit // the unit that a plain number is in
	needed bool
	read   func(*R, cell)
}

// A schema is the columns of a file.
type schema[R any] struct {
	file     string
	columns  []column[R]
	byName   map[string]string // every name that a column can have -> its code
	byCode   []column[R]
	required [][]string // one of each must be in the header
}

func newSchema[R any](file string, columns []column[R]) *schema[R] {
	s := &schema[R]{file: file, columns: columns, byName: map[string]string{}}
	for _, c := range columns {
		var names []string
		for _, own := range c.inEachUnit() {
			names = append(names, own.name)
			s.byName[own.name] = string([]byte{byte(len(s.byCode))})
			s.byCode = append(s.byCode, own)
		}
		if c.needed {
			s.required = append(s.required, names)
		}
	}
	return s
}

func (c column[R]) inEachUnit() []column[R] {
	stem, any := strings.CutSuffix(c.name, "_*")
	if !any {
		return []column[R]{c}
	}
	var each []column[R]
	for _, u := range c.unit.Units() {
		c.name, c.unit = stem+"_"+u.String(), u
		each = append(each, c)
	}
	return each
}

// read reads one cell into r. The code stands for the column; "" is a column of the owner's own, which says nothing to
// the program.
func (s *schema[R]) read(r *R, shared *row, code, text string) {
	if text = strings.TrimSpace(text); text == "" || code == "" {
		return
	}
	if text[0] == '\'' {
		text = plainText(text)
	}
	c := &s.byCode[code[0]]
	c.read(r, cell{shared, c.name, text, c.unit, c.needed})
}

// codes are what gocsv is given for the header: a byte finds its column faster than a name.
func (s *schema[R]) codes(names []string) []string {
	codes := make([]string, len(names))
	for i, name := range names {
		codes[i] = s.byName[name]
	}
	return codes
}

// open checks a file and its header; rows is nil where the file is empty.
func (s *schema[R]) open(data []byte) (rows *records, names []string, doubts []Problem, err error) {
	if err := sane(s.file, data); err != nil {
		return nil, nil, nil, err
	}
	rows = newRecords(s.file, bytes.TrimPrefix(data, mark))
	head, _, _, err := rows.next()
	if err == io.EOF {
		return nil, nil, nil, nil
	}
	if err == nil {
		names, doubts, err = s.header(head)
	}
	return rows, names, doubts, err
}

// header checks a header and gives the names of its columns: "" for one of the owner's own.
func (s *schema[R]) header(cells []string) (names []string, doubts []Problem, err error) {
	names = make([]string, len(cells))
	var own []string
	for i, h := range cells {
		h = strings.ToLower(strings.TrimSpace(h))
		switch {
		case s.byName[h] == "":
			own = append(own, h)
		case slices.Contains(names, h):
			return nil, nil, s.wrong(h, "want each column once, got it twice: rename or remove one of them")
		default:
			names[i] = h
		}
	}
	for _, need := range s.required {
		if !slices.ContainsFunc(need, func(n string) bool { return slices.Contains(names, n) }) {
			return nil, nil, s.wrong("", s.lacking(need, cells))
		}
	}
	for _, h := range own {
		if meant := s.misspelt(h, names); meant != "" {
			doubts = append(doubts, Problem{Place{s.file, 1}, h, unknownWord, isDoubt,
				"this column is passed over, and its name is near " + quote(meant) + ": rename it if that is meant", &meant})
		}
	}
	return names, doubts, nil
}

func (s *schema[R]) wrong(column, message string) error {
	return Problem{Place{s.file, 1}, column, badValue, isError, message, nil}
}

// lacking says which column is missing, what is there instead, and how to mend it.
func (s *schema[R]) lacking(need, cells []string) string {
	whole := strings.Join(cells, ",")
	there := quote(whole)
	for _, mark := range []string{";", "\t"} {
		if len(cells) == 1 && strings.Contains(whole, mark) {
			return "want columns split by commas, got " + there + ": save it as comma-separated, or take it over with brimlog import"
		}
	}
	stem, _ := quantity.SplitColumn(need[0])
	for _, h := range cells {
		if h = strings.ToLower(strings.TrimSpace(h)); len(need) > 1 && (h == stem || strings.HasPrefix(h, stem+"_")) {
			return "want a unit in the column's name, got " + quote(h) + ": rename it " + listed(need)
		}
	}
	return "want a column " + listed(need) + " in the header, got " + there + ": add it"
}

// misspelt is the known column, not in the header, that differs from h by one slip.
func (s *schema[R]) misspelt(h string, names []string) string {
	if len(h) < 5 {
		return ""
	}
	for name := range s.byName {
		if mistakes(h, name) == 1 && !slices.Contains(names, name) && strings.TrimSuffix(h, "s") != strings.TrimSuffix(name, "s") {
			return name
		}
	}
	return ""
}

package book

import (
	"bytes"
	"errors"
	"fmt"
	"os"
	"slices"
	"strings"

	"brimlog/ingest/quantity"
)

// The files of a logbook.
const (
	FillsFile   = "fills.csv"
	TripsFile   = "trips.csv"
	WorkFile    = "work.csv"
	VehicleFile = "vehicle.toml"
)

// Read reads the logbook in the folder dir. The error is for what leaves nothing to read; everything else is in Problems.
func Read(dir string) (*Book, error) {
	if err := isFolder(dir); err != nil {
		return nil, err
	}
	b := &Book{Dir: dir}
	vehicle, err := readVehicle(dir)
	if err != nil {
		return nil, err
	}
	b.Vehicle = vehicle.Vehicle
	fills, err := readSheet[fillRow](b, fillSchema)
	if err != nil {
		return nil, err
	}
	if _, err := readSheet[tripRow](b, tripSchema); err != nil {
		return nil, err
	}
	if _, err := readSheet[jobRow](b, workSchema); err != nil {
		return nil, err
	}
	b.Vehicle.Show.complete(fills)
	if b.Vehicle.Odometer.Unit == "" {
		b.Vehicle.Odometer.Unit = fills.odometer.String()
	}
	b.Problems = append(b.Problems, vehicle.strangers(b.Jobs)...)
	return b, nil
}

func isFolder(dir string) error {
	info, err := os.Stat(dir)
	switch {
	case errors.Is(err, os.ErrNotExist):
		return fmt.Errorf("%s: want a logbook's folder, got nothing there: check the path, or run brimlog init %s", dir, dir)
	case err != nil:
		return unreadable(dir, err)
	case !info.IsDir():
		return fmt.Errorf("%s: want a logbook's folder, got a file: give the folder that holds %s", dir, VehicleFile)
	}
	return nil
}

// A pass is what one reading of a file carries from row to row.
type pass struct {
	header   []string       // the known columns
	odometer quantity.Unit  // of the file's own odometer column
	hole     bool           // a fill was left out before this row
	ids      map[string]int // of the jobs so far, with the line of the first
	kept     map[string]string
}

// A sheetRow is a row of a file, decoded by gocsv, that then goes into the book.
type sheetRow[R any] interface {
	*R
	room(*Book, int)
	take(*Book, Place, *pass)
	wrong() []Problem
	refused(Place) []Problem
	done()
	UnmarshalCSVWithFields(code, text string) error
}

// mostRoom bounds what is set aside on the strength of a file's count of lines alone.
const mostRoom = 1 << 20

func (r *row) wrong() []Problem { return r.problems }

// refused are the problems for which a row is not written: a cell that cannot be read, or the row as a whole. An empty
// odometer, or a distance that does not add up, is the owner's own affair.
func (r *row) refused(place Place) (bad []Problem) {
	for i, p := range r.problems {
		if i < r.cells || p.Severity == isError || p.Kind == duplicate {
			p.Place = place
			if what, _, named := strings.Cut(p.Message, untilMended); named && p.Suggestion != nil {
				p.Message = what + ": give another, such as " + quote(*p.Suggestion)
			}
			if what, mute := strings.CutSuffix(p.Message, noFigure); mute {
				p.Message = what + ": write what went in"
			}
			bad = append(bad, p)
		}
	}
	return bad
}

// readSheet reads a CSV file into the book. A file that is not there is an empty one.
func readSheet[R any, P sheetRow[R], C any](b *Book, s *schema[C]) (*pass, error) {
	data, err := load(b.Dir, s.file)
	if err != nil {
		return nil, err
	}
	return parseSheet[R, P](b, s, data)
}

func parseSheet[R any, P sheetRow[R], C any](b *Book, s *schema[C], data []byte) (*pass, error) {
	p := newPass()
	rows, names, doubts, err := s.open(data)
	if err != nil || rows == nil {
		return p, err
	}
	b.Problems = append(b.Problems, doubts...)
	p.begin(names)
	P(new(R)).room(b, min(bytes.Count(data, []byte("\n")), mostRoom))
	rows.lend()
	return p, readRows[R, P](b, &sheet[R]{rows, s.codes(names)}, p)
}

// readRows takes the rows of batch after batch into the book, in the order of the file.
func readRows[R any, P sheetRow[R]](b *Book, s *sheet[R], p *pass) error {
	var problems []Problem
	for lot := range s.lots() {
		if lot.err != nil {
			return fmt.Errorf("%s: %w", s.file, lot.err)
		}
		for i, line := range lot.lines {
			r, place := P(&lot.rows[i]), Place{s.file, line}
			for ; len(lot.lost) > 0 && lot.lost[0] < line; lot.lost = lot.lost[1:] {
				p.hole = true
			}
			r.take(b, place, p)
			for _, wrong := range r.wrong() {
				wrong.Place = place
				problems = append(problems, wrong)
			}
			r.done()
			lot.rows[i] = *new(R)
		}
		problems = append(problems, lot.problems...)
	}
	slices.SortStableFunc(problems, func(x, y Problem) int { return x.Line - y.Line })
	b.Problems = append(b.Problems, problems...)
	return nil
}

func newPass() *pass {
	return &pass{odometer: quantity.Km, ids: map[string]int{}, kept: map[string]string{}}
}

func (p *pass) begin(names []string) {
	p.header = names
	if column := p.column("odometer"); column != "odometer" {
		p.odometer = unitOf(column)
	}
}

// column is the file's own name for a column that carries a unit.
func (p *pass) column(stem string) string {
	for _, name := range p.header {
		if bare, _ := quantity.SplitColumn(name); bare == stem {
			return name
		}
	}
	return stem
}

func unitOf(column string) quantity.Unit {
	_, u := quantity.SplitColumn(column)
	return u
}

// own is a copy of text that does not hold its whole line in memory.
func (p *pass) own(text string) string { return strings.Clone(text) }

// same is own for text that repeats: every station once.
func (p *pass) same(text string) string {
	const most = 4096
	if text == "" {
		return ""
	}
	kept, ok := p.kept[text]
	if !ok {
		kept = strings.Clone(text)
		if len(p.kept) < most {
			p.kept[kept] = kept
		}
	}
	return kept
}

// fuel is same, with the labels of known energy in their own spelling.
func (p *pass) fuel(label string) string {
	if w, ok := oneOf(label, fuelWords); ok {
		return w
	}
	return p.same(label)
}

package foreign

import (
	"errors"
	"iter"
	"maps"
	"math"
	"strconv"

	"brimlog/ingest/book"
	"brimlog/ingest/quantity"
)

// Import takes the rows of a sheet into a file of the logbook in dir: all that are not there yet, or none. The error names
// the sheet's line, or is an OptionError.
func Import(dir string, data []byte, o Options) (*Report, error) {
	return take(dir, data, o, book.AppendAll)
}

// Rehearse does what Import does, but for the writing.
func Rehearse(dir string, data []byte, o Options) (*Report, error) {
	return take(dir, data, o, book.DraftAll)
}

func take(dir string, data []byte, o Options, add func(string, string, iter.Seq2[book.Cells, error]) (int, int, error)) (*Report, error) {
	p, err := newPlan(dir, data, o)
	if err != nil {
		return nil, err
	}
	if err := p.settle(); err != nil {
		return nil, err
	}
	t := &taking{plan: p, report: p.newReport()}
	if t.reader, err = p.newRowReader(); err != nil {
		return nil, err
	}
	line, n, err := add(dir, o.File, t.rows)
	switch {
	case t.refused:
		return nil, t.reader.blame(t.line, err)
	case errors.Is(err, book.ErrNoRow) && t.report.Already > 0:
		return t.report, nil
	case errors.Is(err, book.ErrNoRow):
		return nil, refuse(p.file, p.headLine, "", "want rows below the headings, got none: export the rows as well")
	case err != nil:
		return nil, err
	}
	t.report.Line, t.report.Rows = &line, n
	return t.report, nil
}

// A taking is one passage of all rows into the logbook.
type taking struct {
	*plan
	report  *Report
	reader  *rowReader
	known   *known
	line    int  // of the sheet
	refused bool // the logbook did not take the row
	volume  sum
	cost    sum
}

// A sum adds up a column, to recognise a row of totals that does not say so.
type sum struct {
	all float64
	n   int
}

func (s *sum) add(x float64, ok bool) {
	if ok {
		s.all += x
		s.n++
	}
}

// is tells whether x is the sum, or the mean, of what was added.
func (s *sum) is(x float64) bool {
	near := func(y float64) bool { return math.Abs(x-y) <= 0.006+1e-6*math.Abs(y) }
	return s.n > 1 && (near(s.all) || near(s.all/float64(s.n)))
}

// rows hands over one row after another. It reads the log first: it is called under the lock, so nothing comes between.
func (t *taking) rows(yield func(book.Cells, error) bool) {
	var err error
	if t.known, err = newKnown(t.dir, t.options.File); err == nil {
		err = t.each(func(line int, cells []string) error {
			t.line = line
			new, err := t.visit(line, cells)
			if err != nil || !new {
				return err
			}
			if !yield(t.reader.cells, nil) {
				t.refused = true
				return errStop{}
			}
			return nil
		})
	}
	if err != nil && !t.refused {
		yield(nil, err)
	}
}

// visit tells what a record is, and reads it where it is a row that the log does not have.
func (t *taking) visit(line int, cells []string) (new bool, err error) {
	switch t.kind(cells) {
	case blankRow:
		t.report.Blank++
	case headings:
	case noteRow:
		t.report.Notes = list(t.report.Notes, line)
	case totalRow:
		t.report.Totals = list(t.report.Totals, line)
	case bareSums:
		if !t.sums(cells) {
			return false, t.reader.readDate(line, cells)
		}
		t.report.Totals = list(t.report.Totals, line)
	default:
		if err := t.reader.read(line, cells); err != nil {
			return false, err
		}
		return t.isNew(line)
	}
	return false, nil
}

// sums tells whether a row without a date holds the sums or the means of the rows above.
func (t *taking) sums(cells []string) bool {
	checked := 0
	for name, s := range map[string]*sum{volumeColumn: &t.volume, costColumn: &t.cost} {
		c := t.find(name)
		if x := t.value(c, cells, t.decimal); quantity.Known(x) {
			if !s.is(x) {
				return false
			}
			checked++
		}
	}
	return checked > 0
}

// isNew holds a row against the log and the rows before it.
func (t *taking) isNew(line int) (bool, error) {
	r := t.reader
	litres, filled := r.figure[volumeColumn]
	cost, paid := r.figure[costColumn]
	t.volume.add(litres, filled)
	t.cost.add(cost, paid)
	e := t.entry()
	inLog, inSheet, clash := t.known.match(&e)
	switch {
	case inLog:
		t.known.add(e) // should the sheet say it twice
		t.report.Already++
		return false, nil
	case inSheet:
		t.report.Twice = list(t.report.Twice, line)
		return false, nil
	case clash > 0:
		return false, refuse(t.file, line, t.find(volumeColumn).heading, "want the volume that %s:%d has for the same day and odometer, got %s L: "+
			"mend the one that is wrong", t.options.File, clash, strconv.FormatFloat(litres, 'f', 2, 64))
	}
	t.known.add(e)
	t.nameJob()
	if len(t.report.First) < firstRows {
		t.report.First = append(t.report.First, maps.Clone(r.cells))
	}
	return true, nil
}

// entry is what tells the row from others.
func (t *taking) entry() entry {
	at := func(name string) float64 {
		if x, ok := t.reader.figure[name]; ok {
			return x
		}
		return quantity.Unknown
	}
	e := entry{day: dayOf(t.reader.when), at: at(odometerColumn), size: at(volumeColumn)}
	switch t.options.File {
	case book.TripsFile:
		start, end, km := at("odometer_start"), at("odometer_end"), at(distanceColumn)
		if quantity.Known(end - start) {
			km = end - start
		}
		e.at, e.size, e.words = quantity.Or(start, end-km), km, t.reader.cells["road"]
	case book.WorkFile:
		e.size, e.words = quantity.Unknown, fold(t.reader.cells["what"])
	}
	return e
}

// nameJob gives a job an id, where the sheet has none.
func (t *taking) nameJob() {
	if c := t.reader.cells; t.options.File == book.WorkFile && c["id"] == "" {
		c["id"] = t.known.newID(c["what"])
	}
}

package foreign

// A ballot finds out which of a few readings fits a whole sheet. Every cell says what each reading would make of it; a reading
// that can make nothing of a cell is out, and cells that all readings take alike say nothing.
type ballot struct {
	out    []*witness  // of each reading: the first cell that it cannot read
	differ [][]witness // of each pair of readings: the first cell that they read differently
}

// A witness is a cell that says something about the whole sheet.
type witness struct {
	line    int
	heading string
	text    string
}

func newBallot(readings int) *ballot {
	b := &ballot{out: make([]*witness, readings), differ: make([][]witness, readings)}
	for i := range b.differ {
		b.differ[i] = make([]witness, readings)
	}
	return b
}

// cast counts one cell; values holds what each reading makes of it, "" for nothing. A cell that nobody can read says nothing.
func (b *ballot) cast(w witness, values []string) {
	some := false
	for _, v := range values {
		some = some || v != ""
	}
	if !some {
		return
	}
	for i, v := range values {
		if v == "" && b.out[i] == nil {
			b.out[i] = &w
		}
		for j := range i {
			if v != "" && values[j] != "" && v != values[j] && b.differ[i][j].line == 0 {
				b.differ[i][j] = w
			}
		}
	}
}

// left are the readings that fit every cell.
func (b *ballot) left() []int {
	var left []int
	for i, w := range b.out {
		if w == nil {
			left = append(left, i)
		}
	}
	return left
}

// open is the first cell that some of these readings read differently; ok is false where it makes no difference which is taken.
func (b *ballot) open(readings []int) (first witness, ok bool) {
	for _, i := range readings {
		for _, j := range readings {
			if w := b.differ[i][j]; j < i && w.line > 0 && (!ok || w.line < first.line) {
				first, ok = w, true
			}
		}
	}
	return first, ok
}

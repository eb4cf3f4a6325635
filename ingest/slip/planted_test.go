package slip_test

import (
	"math"
	"slices"
	"strconv"
	"strings"
	"time"
)

// A planted slip: the row it was put in, and what stood there.
type planted struct {
	kind, column string
	row          []string
	was          string // the cell before; empty where no cell mends it
	size         float64
}

// plantedKinds are the slips that the shares are measured on.
var plantedKinds = []string{"wrong digit", "transposition", "decimal", "unit", "missed fill", "duplicate", "short fill", "date order"}

// plant puts one slip of a kind into the fills, away from rows that have one. It tells whether there was a place for it.
func (w *world) plant(kind string) (p planted, ok bool) {
	for range 60 {
		k := 1 + w.rng.IntN(len(w.fills)-2)
		if w.crowded(k) || w.fills[k][4] == "yes" || w.fills[k+1][4] == "yes" {
			continue
		}
		if p, ok = w.plantAt(kind, k); ok {
			p.row = w.fills[k]
			if kind == "duplicate" {
				p.row = w.fills[k+1]
			}
			w.slips = append(w.slips, p)
			return p, true
		}
	}
	return p, false
}

// crowded tells whether there is a slip near the k-th row.
func (w *world) crowded(k int) bool {
	for i := max(0, k-3); i <= min(len(w.fills)-1, k+3); i++ {
		for _, p := range w.slips {
			if &p.row[0] == &w.fills[i][0] {
				return true
			}
		}
	}
	return false
}

// line is where a planted slip stands now.
func (w *world) line(p planted) int {
	for i, row := range w.fills {
		if &row[0] == &p.row[0] {
			return i + 2
		}
	}
	return 0
}

func (w *world) plantAt(kind string, k int) (p planted, ok bool) {
	r, row := w.rng, w.fills[k]
	p.kind = kind
	change := func(column int, name, to string) {
		p.column, p.was = name, row[column]
		if p.size = w.shows(k, column, to); p.size > 0 {
			row[column], ok = to, true
		}
	}
	column, name := 1, "odometer"
	if r.IntN(3) == 0 {
		column, name = 2, "volume"
	}
	s := row[column]
	switch kind {
	case "wrong digit":
		i := r.IntN(len(s))
		if d := byte('0' + r.IntN(10)); s[i] != '.' && s[i] != d && (i > 0 || d != '0') {
			change(column, name, s[:i]+string(d)+s[i+1:])
		}
	case "transposition":
		i := r.IntN(len(s))
		if i+1 < len(s) && s[i] != '.' && s[i+1] != '.' && s[i] != s[i+1] && (i > 0 || s[i+1] != '0') {
			change(column, name, s[:i]+string(s[i+1])+string(s[i])+s[i+2:])
		}
	case "decimal":
		x, _ := strconv.ParseFloat(row[2], 64)
		change(2, "volume", strings.TrimRight(strings.TrimRight(strconv.FormatFloat(x*pick(r, 10.0, 0.1, 100), 'f', 4, 64), "0"), "."))
	case "unit":
		w.plantUnit(change, row, column)
	case "missed fill":
		w.fills = slices.Delete(w.fills, k, k+1)
		return p, row[3] == "yes"
	case "duplicate":
		w.fills = slices.Insert(w.fills, k+1, slices.Clone(row))
		return p, true
	case "short fill":
		ok = w.plantShort(&p, k)
	case "date order":
		w.plantDate(&p, change, row, k)
		ok = ok && p.was != row[0]
	}
	return p, ok
}

func (w *world) plantUnit(change func(int, string, string), row []string, column int) {
	x, _ := strconv.ParseFloat(row[column], 64)
	switch {
	case column == 1 && w.miles:
		change(1, "odometer", strconv.FormatFloat(math.Round(x*1.609344), 'f', -1, 64))
	case column == 1:
		change(1, "odometer", strconv.FormatFloat(math.Round(x/1.609344), 'f', -1, 64))
	case w.gallons:
		change(2, "volume", strconv.FormatFloat(x*3.785411784, 'f', 2, 64))
	default:
		gallon := 4.54609
		if !w.miles {
			gallon = 3.785411784
		}
		change(2, "volume", strconv.FormatFloat(x/gallon, 'f', 2, 64))
	}
}

// plantShort takes fuel from one brim fill and gives it to the next.
func (w *world) plantShort(p *planted, k int) bool {
	a, b := w.fills[k], w.fills[k+1]
	if a[3] != "yes" || b[3] != "yes" || k < 2 || k+2 >= len(w.fills) {
		return false
	}
	x, _ := strconv.ParseFloat(a[2], 64)
	y, _ := strconv.ParseFloat(b[2], 64)
	share := 0.2 + 0.4*w.rng.Float64()
	if room := w.capacity/w.litresOf(1) - y; w.capacity > 0 {
		share = min(share, room/x)
	}
	if share < 0.2 {
		return false
	}
	for i, to := range []float64{x * (1 - share), y + x*share} {
		row := w.fills[k+i]
		if c, err := strconv.ParseFloat(row[5], 64); err == nil {
			old, _ := strconv.ParseFloat(row[2], 64)
			row[5] = strconv.FormatFloat(c*to/old, 'f', 2, 64)
		}
		row[2] = strconv.FormatFloat(to, 'f', 2, 64)
	}
	p.column, p.size = "full", share
	return true
}

func (w *world) plantDate(p *planted, change func(int, string, string), row []string, k int) {
	d, _ := time.Parse("2006-01-02", row[0][:10])
	to := time.Date(d.Year(), time.Month(d.Day()), int(d.Month()), 0, 0, 0, 0, time.UTC)
	if d.Day() > 12 || w.rng.IntN(3) == 0 {
		to = d.AddDate(pick(w.rng, -1, 1), 0, 0)
	}
	s := to.Format("2006-01-02") + row[0][10:]
	if s < w.fills[k-1][0] || s > w.fills[k+1][0] { // else nobody could know
		change(0, "date", s)
	}
}

// shows is how much a change of a cell shows: by what part of itself a tank beside it changes, and 9 where the order of
// readings breaks. Nought where it is too little for anybody to see.
func (w *world) shows(k, column int, to string) float64 {
	if column == 0 {
		return 9
	}
	f := func(i, c int) float64 {
		s := w.fills[i][c]
		if i == k && c == column {
			s = to
		}
		x, _ := strconv.ParseFloat(strings.TrimSpace(s), 64)
		return x
	}
	was, _ := strconv.ParseFloat(w.fills[k][column], 64)
	is := f(k, column)
	if column == 2 {
		if w.fills[k][3] != "yes" {
			return 0
		}
		if size := math.Abs(math.Log(is / was)); size > 0.25 {
			return size
		}
		return 0
	}
	d := f(k+1, 1) - f(k-1, 1)
	if d <= 0 || w.fills[k][3] != "yes" {
		return 0
	}
	a, b := is-f(k-1, 1), f(k+1, 1)-is
	if a < 0 || b < 0 {
		return 9
	}
	wasA, wasB := was-f(k-1, 1), f(k+1, 1)-was
	if size := max(math.Abs(math.Log(a/wasA)), math.Abs(math.Log(b/wasB))); size > 0.25 {
		return size
	}
	return 0
}
